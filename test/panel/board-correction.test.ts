/** The form that corrects a board sends only what was typed anew, as the API takes it. */
import { expect, test } from 'vitest';
import { correctionOf, mayBeOffcut, textsOf } from '../../addon/panel/state/board-correction.ts';
import { makeMeasure, shownInAtFirst } from '../../addon/panel/words/measure.ts';
import { boardPatch } from '../../worker/contract/board.ts';
import { inch, sampleBoard } from './sample.ts';

const measure = makeMeasure(shownInAtFirst);
// A length that a tape in sixteenths only shows rounded.
const board = { ...sampleBoard(14), species: 'white-oak', lengthNm: inch(84) + 100_000, costMinor: 123_450 };
const first = textsOf(board, measure);
const typed = (more: Partial<typeof first>) => boardPatch.parse(correctionOf(first, { ...first, ...more }, measure));

test('looking at the form changes nothing', () => {
  expect(typed({})).toEqual({});
});

test('species, grain and cost go as the yard takes them', () => {
  expect(first).toMatchObject({ species: 'White oak', cost: '1234.50' });
  expect(typed({ species: ' red oak', grain: 'rift', cost: '78,5' })).toEqual({
    species: 'red oak',
    grain: 'rift',
    costMinor: 7_850,
  });
});

test('a board in stock can be called an offcut, one that the yard saw cut stays one', () => {
  expect(typed({ offcut: true })).toEqual({ offcut: true });
  expect(mayBeOffcut(board)).toBe(true);
  expect(mayBeOffcut({ origin: { kind: 'offcut', parentId: null, sessionId: null } })).toBe(true);
  expect(mayBeOffcut({ origin: { kind: 'offcut', parentId: 'bd_00000099', sessionId: null } })).toBe(false);
});

test('an emptied cost is taken away; a thickness typed as a call is the call too', () => {
  expect(typed({ cost: ' ' })).toEqual({ costMinor: null });
  expect(typed({ thickness: '5/4' })).toEqual({ thicknessNm: inch(1.25), thicknessCall: '5/4' });
});

test('costs are typed and shown in the currency of the shop, with 0, 2 or 3 decimals (ISO 4217)', () => {
  const yen = makeMeasure({ ...shownInAtFirst, currency: 'JPY' });
  const dinars = makeMeasure({ ...shownInAtFirst, currency: 'KWD' });
  const costs = (measured: typeof yen, cost: string) =>
    correctionOf(textsOf(board, measured), { ...textsOf(board, measured), cost }, measured).costMinor;
  expect(textsOf(board, yen).cost).toBe('123450');
  expect([costs(yen, '7850'), costs(yen, '7,850')]).toEqual([7850, 7850]);
  expect(yen.money(7850)).toBe('¥7,850');
  expect([costs(dinars, '7.850'), costs(dinars, '7,85')]).toEqual([7850, 7850]);
  expect(dinars.moneyTyped(7850)).toBe('7.850');
  expect([costs(measure, '1,250'), costs(measure, '1.250,50'), costs(measure, '1,250.50')]).toEqual([
    125_000, 125_050, 125_050,
  ]);
  expect(costs(measure, 'twelve')).toBeNull();
});
