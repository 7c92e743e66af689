/** The form that corrects a board sends only what was typed anew, as the API takes it. */
import { expect, test } from 'vitest';
import { correctionOf, textsOf } from '../../addon/panel/state/board-correction.ts';
import { makeMeasure, shownInAtFirst } from '../../addon/panel/words/measure.ts';
import { boardPatch } from '../../worker/contract/board.ts';
import { inch, sampleBoard } from './sample.ts';

const measure = makeMeasure(shownInAtFirst);
// A length that a tape in sixteenths only shows rounded.
const board = { ...sampleBoard(14), species: 'white-oak', lengthNm: inch(84) + 100_000, costMinor: 123_450 };
const first = textsOf(board, measure.length);
const typed = (more: Partial<typeof first>) =>
  boardPatch.parse(correctionOf(first, { ...first, ...more }, measure.read));

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

test('an emptied cost is taken away; a thickness typed as a call is the call too', () => {
  expect(typed({ cost: ' ' })).toEqual({ costMinor: null });
  expect(typed({ thickness: '5/4' })).toEqual({ thicknessNm: inch(1.25), thicknessCall: '5/4' });
});
