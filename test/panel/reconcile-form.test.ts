import { describe, expect, test } from 'vitest';
import {
  accountOfForm,
  type BoardForm,
  bodyOf,
  faultWords,
  formFaults,
  formOf,
  offcutTag,
  restAsPlanned,
  typedSize,
} from '../../addon/panel/state/reconcile-form.ts';
import { openNm3 } from '../../addon/panel/state/wood-account.ts';
import { makeMeasure, shownInAtFirst } from '../../addon/panel/words/measure.ts';
import { reconcileRequest } from '../../worker/contract/session.ts';
import { inch, sampleLayout } from './sample.ts';

const measure = makeMeasure(shownInAtFirst);
const show = (nm: number) => measure.length(nm);
const form = { ...formOf(sampleLayout, show), became: 'cut' as const };
const [rail] = form.parts;
const [offcut] = form.offcuts;
if (rail === undefined || offcut === undefined) throw new Error('WO-14 gives two rails and an offcut');

describe('the form begins as the plan has it', () => {
  test('two long rails in one row, one offcut with the tag of its board', () => {
    expect(form.parts.map((row) => [row.label, row.planned, row.good, row.failed])).toEqual([
      ['Long rail', 2, '2', '0'],
    ]);
    expect(form.offcuts.map((row) => [row.tag, row.lengthEntry.text, row.widthEntry.text])).toEqual([
      ['WO-14-1', '34 3/8"', '9 1/4"'],
    ]);
    expect(formFaults(form, measure.read)).toEqual([]);
  });

  test('what was planned balances to the nanometre, with the rest as scrap', () => {
    const account = accountOfForm(sampleLayout, form, measure.read);
    if (account === null) throw new Error('the form can be read');
    expect(openNm3(account)).toBe(0n);
    // Scrap by the plan: 6 in off the end and a strip 59 7/8 x 1 in.
    const scrapFace = BigInt(inch(6)) * BigInt(inch(9.25)) + BigInt(inch(59.875)) * BigInt(inch(1));
    expect(account.scrapNm3).toBe(scrapFace * BigInt(sampleLayout.thicknessNm));
  });
});

describe('what is sent', () => {
  test('as planned needs only the tags; later is not sent at all', () => {
    const planned = { ...form, became: 'planned' as const };
    const later = { ...form, became: 'later' as const, boardId: 'bd_000000000015' };
    expect(bodyOf([planned, later], measure.read, false).boards).toEqual([
      { as: 'planned', boardId: sampleLayout.boardId, tags: ['WO-14-1'], place: '' },
    ]);
  });

  test('the rest as planned leaves alone what was answered', () => {
    const later = { ...form, became: 'later' as const, boardId: 'bd_000000000015' };
    const rest = restAsPlanned([form, later]);
    expect(rest).toEqual([form, { ...later, became: 'planned' }]);
    expect(bodyOf(rest, measure.read, false).boards.map(({ as }) => as)).toEqual(['cut', 'planned']);
  });

  test('one rail good, one split: the size stays the plan’s own because nobody typed another', () => {
    const split = { ...form, parts: [{ ...rail, good: '1', failed: '1', why: 'split at the end' }] };
    const [board] = bodyOf([split], measure.read, false).boards;
    expect(board).toMatchObject({
      as: 'cut',
      parts: [{ partKey: 'RB4K', element: null, good: 1, failed: 1, why: 'split at the end' }],
    });
    expect(board?.as === 'cut' && board.parts[0]).not.toHaveProperty('lengthNm');
  });

  test('a typed size is read as on the tape', () => {
    const shorter = { ...form, offcuts: [{ ...offcut, lengthEntry: typedSize('33 1/2') }] };
    const [board] = bodyOf([shorter], measure.read, false).boards;
    expect(board?.as === 'cut' && board.offcuts[0]?.lengthNm).toBe(inch(33.5));
  });

  test('a plan’s size that the tape can only show rounded goes back exactly', () => {
    const odd = { ...sampleLayout, offcuts: [{ fromNm: 0, toNm: 100_000_001, leftNm: 0, rightNm: inch(4) }] };
    const oddForm = { ...formOf(odd, show), became: 'cut' as const };
    expect(oddForm.offcuts[0]?.lengthEntry.text).toMatch(/^≈/);
    const [board] = bodyOf([oddForm], measure.read, false).boards;
    expect(board?.as === 'cut' && board.offcuts[0]?.lengthNm).toBe(100_000_001);
  });

  test('every body is one that the wire takes', () => {
    const forms = (['planned', 'cut', 'untouched', 'written-off'] as const).map((became) => ({
      ...form,
      became,
      why: 'rot',
    }));
    expect(reconcileRequest.safeParse(bodyOf(forms, measure.read, true)).success).toBe(true);
  });
});

describe('what the form asks for', () => {
  const faultsOf = (change: Partial<typeof form>) =>
    formFaults({ ...form, ...change }, measure.read).map((one) => one.at);
  test('a count that is none, a size that is none, a failure without its reason', () => {
    expect(faultsOf({ parts: [{ ...rail, good: '-1' }] })).toEqual(['parts.0.good']);
    expect(faultsOf({ parts: [{ ...rail, good: '1.5' }] })).toEqual(['parts.0.good']);
    expect(faultsOf({ parts: [{ ...rail, failed: '1' }] })).toEqual(['parts.0.why']);
    expect(faultsOf({ offcuts: [{ ...offcut, widthEntry: typedSize('3 5/0') }] })).toEqual(['offcuts.0.width']);
  });
  test('a fault told under the form names the piece or the offcut and the field', () => {
    const faulty = { ...form, offcuts: [{ ...offcut, widthEntry: typedSize('3 5/0') }] };
    const words = (given: BoardForm) => formFaults(given, measure.read).map((one) => faultWords(given, one));
    expect(words(faulty)).toEqual([`offcut ${offcut.tag}, width: a size as on the tape: 23 5/8 or 600 mm.`]);
    expect(words({ ...form, parts: [{ ...rail, good: '-1' }] })).toEqual([
      `${rail.label}, good: a whole number, 0 or more.`,
    ]);
    expect(words({ ...form, became: 'written-off', why: '' })).toEqual(['Say why it is written off.']);
  });
  test('an offcut without a tag, or two with the same', () => {
    expect(faultsOf({ offcuts: [{ ...offcut, tag: ' ' }] })).toEqual(['offcuts.0.tag']);
    expect(faultsOf({ offcuts: [offcut, { ...offcut, tag: 'wo-14-1' }] })).toEqual(['offcuts.1.tag']);
  });
  test('more wood than the board had shows as scrap below nothing', () => {
    const account = accountOfForm(sampleLayout, { ...form, parts: [{ ...rail, good: '4' }] }, measure.read);
    expect(account !== null && account.scrapNm3 < 0n).toBe(true);
  });
  test('while a size cannot be read there is no account to show', () => {
    const unread = { ...form, offcuts: [{ ...offcut, lengthEntry: typedSize('') }] };
    expect(accountOfForm(sampleLayout, unread, measure.read)).toBeNull();
  });
});

test('the tag of an offcut keeps within what a tag may be', () => {
  expect(offcutTag('WO-14', 0)).toBe('WO-14-1');
  expect(offcutTag('x'.repeat(40), 1)).toHaveLength(40);
  expect(offcutTag('x'.repeat(40), 1).endsWith('-2')).toBe(true);
});
