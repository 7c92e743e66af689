import { expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import type { Settings } from '../../worker/contract/settings.ts';
import { holdsInTheWay, shopBoard } from '../../worker/planner/shop-board.ts';
import { placeOn } from '../../worker/planner/shop-fit.ts';
import { wantedOf } from '../../worker/planner/shop-wanted.ts';
import { woodReader } from '../../worker/takeoff/which-wood.ts';
import { board, heldFor, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

function fitOf(row: Part, stock: BoardView, settings: Settings = shopSettings(), evenIfThick = false) {
  const owner = job([row]);
  const [asks] = wantedOf(owner, settings, undefined);
  if (!asks) throw new Error('nothing wanted');
  const on = shopBoard(stock, woodReader(settings)(stock.species), holdsInTheWay(stock, owner), settings);
  return placeOn(asks, on, settings, { evenIfThick });
}
const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const reasons = (fit: ReturnType<typeof fitOf>) => (fit.ok ? [] : fit.fails.map((fail) => fail.words));
const warp = (bow: number, crook: number, cup: number, twist: number) => ({
  bowNm: inch(bow),
  crookNm: inch(crook),
  cupNm: inch(cup),
  twistNm: inch(twist),
});

test('a flat dry board gives a blank of the finished size and its allowances', () => {
  const fit = fitOf(part(sizes(70, 5.5, 0.75)), board(sizes(96, 8, 1)));
  expect(fit).toEqual({ ok: true, lengthNm: inch(71), widthNm: inch(5.75), cutWidthNm: inch(5.75) });
});

test('bow, cup and twist that spoil a long part leave enough thickness for a short one', () => {
  // 96 x 8 x 1 in with bow 1/2, cup 3/16, twist 3/8: 1/8 in flat at full size, 0.898 in over 24 x 4 in (warp geometry).
  const bent = board({ ...sizes(96, 8, 1), warp: warp(0.5, 0, 0.1875, 0.375) });
  const short = part(sizes(23, 3.75, 0.625));
  expect(fitOf(short, bent).ok).toBe(true);
  expect(reasons(fitOf({ ...short, ...sizes(92, 7.5, 0.625) }, bent)).join()).toContain('left of 1" rough): needs');
});

test.each([16, 32] as const)(
  'what is too thin is the difference of what is left and what is needed, as a tape in 1/%i in shows them',
  (denominator) => {
    const inchesOf = (text: string) =>
      text
        .trim()
        .split(' ')
        .map((one) => one.split('/').map(Number))
        .reduce((sum, [over = 0, under = 1]) => sum + over / under, 0);
    // Wood that dries further is needed thicker by what it shrinks, which is on no line of the tape.
    const wet = { moisturePercent: 12, on: '2026-03-01', meter: 'pin' as const };
    for (const cup of [0.05, 0.07, 0.09, 0.11, 0.13]) {
      const cupped = board({ ...sizes(96, 8, 1.25), warp: warp(0.1, 0, cup, 0.03), readings: [wet] });
      const row = part(sizes(92, 7.5, 1.03));
      const words = reasons(fitOf(row, cupped, { ...shopSettings(), denominator })).join();
      const read = /^([^"]+)" too thin once flat over this piece \(([^"]+)" left of .*needs ([^"]+)"$/.exec(words);
      const [short = Number.NaN, left = 0, needs = 0] = (read ?? []).slice(1).map(inchesOf);
      expect(short, words).toBe(needs - left);
    }
  },
);

test('crook takes from the width by the square of the length', () => {
  // Crook 3/4 in on 96 in leaves 3/16 in over 48 in (warp geometry).
  const crooked = board({ ...sizes(96, 8, 1), warp: warp(0, 0.75, 0, 0) });
  expect(fitOf(part(sizes(47, 5.5, 0.75)), crooked)).toEqual({
    ok: true,
    lengthNm: inch(48),
    // The board needs the crook beside the piece; a rip of its own takes it off, so the piece is cut without.
    widthNm: inch(5.9375),
    cutWidthNm: inch(5.75),
  });
});

test('a blank from wetter wood is cut wider', () => {
  // White oak flat-sawn, S_T 10.5 % (Wood Handbook Table 4-3): 12 to 8 % takes 0.084 of 5.5 in; 1/4 in to work with, up to 1/16.
  const wet = board({ ...sizes(96, 8, 1), readings: [{ moisturePercent: 12, on: '2026-03-01', meter: 'pin' }] });
  expect(fitOf(part(sizes(70, 5.5, 0.75)), wet)).toMatchObject({ ok: true, widthNm: inch(5.875) });
});

test('the last reading by its day decides', () => {
  const readings = [
    { moisturePercent: 9, on: '2026-05-01', meter: 'pin' as const },
    { moisturePercent: 19, on: '2026-01-01', meter: 'pin' as const },
  ];
  expect(fitOf(part(sizes(70, 5.5, 0.75)), board({ ...sizes(96, 8, 1), readings })).ok).toBe(true);
});

test('wet wood is refused by use, with both figures', () => {
  const at14 = board({ ...sizes(96, 8, 1), readings: [{ moisturePercent: 14, on: '2026-03-01', meter: 'pin' }] });
  expect(fitOf(part({ ...sizes(70, 5.5, 0.75), use: 'hidden' }), at14).ok).toBe(true);
  expect(reasons(fitOf(part(sizes(70, 5.5, 0.75)), at14))).toEqual(['14 % moisture, at most 12 % for this part']);
  expect(fitOf(part({ ...sizes(70, 5.5, 0.75), moisturePercentMax: 14 }), at14).ok).toBe(true);
});

test('a board nobody has read gives no critical part', () => {
  const unread = board({ ...sizes(96, 8, 1), readings: [] });
  expect(fitOf(part(sizes(70, 5.5, 0.75)), unread).ok).toBe(true);
  expect(reasons(fitOf(part({ ...sizes(70, 5.5, 0.75), use: 'critical' }), unread))).toEqual([
    'no moisture reading, and critical parts need one',
  ]);
});

test('grain that is asked for must be recorded', () => {
  const quarter = part({ ...sizes(70, 5.5, 0.75), grain: 'quarter' });
  expect(fitOf(quarter, board({ ...sizes(96, 8, 1), grain: 'quarter' })).ok).toBe(true);
  expect(reasons(fitOf(quarter, board({ ...sizes(96, 8, 1), grain: 'unknown' })))).toEqual([
    'its grain is not recorded, quarter is asked for',
  ]);
});

test('a part too long for the clear run says by how much, as a tape shows it', () => {
  const knot = {
    kind: 'knot-loose' as const,
    face: 'a' as const,
    fromNm: inch(75),
    toNm: inch(77),
    leftNm: inch(2),
    rightNm: inch(4),
  };
  const fit = fitOf(part(sizes(80.5, 5.5, 0.75)), board({ ...sizes(96, 8, 1), defects: [knot] }));
  expect(reasons(fit)).toEqual([`7 1/2" too short: longest clear run 74", needs 81 1/2"`]);
});

test('the clear run ends an end trim before a split that shows', () => {
  // A crack runs further than it shows: common practice, no source.
  const at = { face: 'through' as const, fromNm: inch(75), toNm: inch(77), leftNm: inch(2), rightNm: inch(4) };
  const split = { kind: 'split' as const, ...at };
  const row = (lengthIn: number) => part(sizes(lengthIn, 5.5, 0.75));
  const cracked = board({ ...sizes(96, 8, 1), defects: [split] });
  expect(fitOf(row(72), cracked).ok).toBe(true);
  expect(reasons(fitOf(row(72.5), cracked))).toEqual([`1/2" too short: longest clear run 73", needs 73 1/2"`]);
});

test('mill ends are trimmed an inch, the ends of an offcut are not', () => {
  const row = part(sizes(47, 5.5, 0.75));
  expect(reasons(fitOf(row, board(sizes(49, 8, 1))))).toEqual([`1" too short: trimmed 47", needs 48"`]);
  const offcut = board({ ...sizes(49, 8, 1), origin: { kind: 'offcut', parentId: 'bd_00000009', sessionId: null } });
  expect(fitOf(row, offcut).ok).toBe(true);
});

test('every reason is named at once', () => {
  expect(reasons(fitOf(part(sizes(70, 9, 1.75)), board(sizes(60, 8, 1))))).toEqual([
    '1" too thin: needs 2"',
    `13" too short: trimmed 58", needs 71"`,
    '1 1/4" too narrow: 8" wide, needs 9 1/4"',
  ]);
});

test('8/4 is not planed down to 3/4 in unless it is named', () => {
  const row = part(sizes(40, 5, 0.75));
  const eightQuarter = board(sizes(96, 8, 2));
  expect(reasons(fitOf(row, eightQuarter)).join()).toContain('resaw it first');
  expect(fitOf(row, eightQuarter, shopSettings(), true).ok).toBe(true);
});

test('a board that another job holds is named with its job', () => {
  const held = board({ ...sizes(96, 8, 1), held: [heldFor('jb_other', 0, inch(96))] });
  expect(reasons(fitOf(part(sizes(40, 5, 0.75)), held))).toEqual(['held for Job jb_other']);
});
