/** The cut card that goes to the saw: all that a person needs there on one page a board, and nothing that can run. */
import { expect, test } from 'vitest';
import { finishedSize, restText } from '../../worker/api/cards/facts.ts';
import { cutCardsPage } from '../../worker/api/cards/page.ts';
import { type Board, boardDraft } from '../../worker/contract/board.ts';
import { type JobWithParts, part as partSchema } from '../../worker/contract/job.ts';
import type { Layout } from '../../worker/contract/plan.ts';
import { settings as settingsSchema } from '../../worker/contract/settings.ts';
import { boardWeight } from '../../worker/planner/board-warnings.ts';
import { latestReading } from '../../worker/wood/reading.ts';

const IN = 25_400_000;
const settings = settingsSchema.parse({});
const rail = partSchema.parse({
  key: 'rail',
  label: 'Rail',
  quantity: 2,
  species: 'black-walnut',
  lengthNm: '80 1/2 in',
  widthNm: '3 1/2 in',
  thicknessNm: '1 3/4 in',
  use: 'critical',
});
const job: JobWithParts = {
  id: 'jb_00000001',
  name: 'Hall bench',
  dueOn: '2027-01-15',
  note: '',
  state: 'open',
  revision: 1,
  version: 3,
  standing: { pieces: {}, layers: {} },
  heldBoards: 1,
  parts: [{ ...rail, pieces: [], version: 3 }],
};
const boardOf = (facts: object): Board => ({
  ...boardDraft.parse({
    tag: 'W-07',
    species: 'black-walnut',
    lengthNm: '10 ft',
    widthNm: '8 in',
    thicknessNm: '2 in',
    thicknessCall: '8/4',
    place: 'Rack 2, bay C',
    readings: [{ moisturePercent: 8.5, on: '2026-11-02' }],
    ...facts,
  }),
  id: 'bd_00000001',
  state: 'in-stock',
  origin: { kind: 'received' },
  version: 2,
});
const r = (fromIn: number, toIn: number, leftIn: number, rightIn: number) => ({
  fromNm: fromIn * IN,
  toNm: toIn * IN,
  leftNm: leftIn * IN,
  rightNm: rightIn * IN,
});
const piece = (no: number, at: ReturnType<typeof r>) => ({
  ...at,
  partKey: 'rail',
  label: 'Rail',
  no,
  element: null,
  what: 'solid' as const,
  showFace: null,
  attempt: 1,
});
const layout: Layout = {
  boardId: 'bd_00000001',
  tag: 'W-07',
  lengthNm: 120 * IN,
  widthNm: 8 * IN,
  thicknessNm: 2 * IN,
  phase: 1,
  pieces: [piece(1, r(0, 81.5, 0, 3.75)), piece(2, r(0, 81.5, 3.875, 7.625))],
  cuts: [
    { no: 1, axis: 'crosscut', of: r(0, 120, 0, 8), atNm: 81.5 * IN, kerfNm: IN / 8, words: '' },
    { no: 2, axis: 'rip', of: r(0, 81.5, 0, 8), atNm: 3.75 * IN, kerfNm: IN / 8, words: '' },
    { no: 3, axis: 'rip', of: r(0, 81.5, 3.875, 8), atNm: 7.625 * IN, kerfNm: IN / 8, words: '' },
  ],
  offcuts: [r(81.625, 120, 0, 8)],
  scrap: [r(0, 81.5, 7.75, 8)],
  reserves: [],
  unevenEdges: [],
  yieldPercent: 63,
  warnings: [],
  drawing: { title: '', description: '', widthMm: 1, heightMm: 1, shapes: [], legend: [] },
};
const session = { openedAtMs: Date.UTC(2026, 10, 24, 9), doneBoardIds: [] as string[] };
const page = (facts: object = {}, change: Partial<Layout> = {}) =>
  cutCardsPage({ session, layouts: [{ ...layout, ...change }], boards: [boardOf(facts)], job, settings });
/** What a reader sees, tags taken out, one blank between words. */
const seen = (html: string) =>
  html
    .replace(/<style>.*?<\/style>|<svg.*?<\/svg>/gs, ' ')
    .replaceAll(/<span class="one">(.*?)<\/span>/g, '$1')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll(/\s+/g, ' ');

test('no line of it breaks within a size, a day or a tag, and a trim says why', () => {
  const split = { kind: 'split', face: 'through', fromNm: 0, toNm: 3 * IN, leftNm: 0, rightNm: 8 * IN };
  const cards = page(
    { defects: [split] },
    {
      pieces: [piece(1, r(4.125, 85.625, 0, 8))],
      cuts: [
        { no: 1, axis: 'crosscut', of: r(0, 120, 0, 8), atNm: 4 * IN, kerfNm: IN / 8, words: '' },
        { no: 2, axis: 'crosscut', of: r(4.125, 120, 0, 8), atNm: 85.625 * IN, kerfNm: IN / 8, words: '' },
      ],
      offcuts: [r(85.75, 120, 0, 8)],
      scrap: [r(0, 4, 0, 8)],
    },
  ).replaceAll('&quot;', '"');
  expect(cards).toContain('<span class="one">81 1/2"</span>');
  expect(cards).toContain('<span class="one">2 Nov 2026</span>');
  expect(seen(cards)).toContain('1 Crosscut the board Trim 4 1/8" off the tagged end goes on (to clear the split)');
});

test('names the board, where it lies and what job it is for', () => {
  expect(seen(page())).toContain('W-07 Hall bench Cut card 1 of 1 · session of 24 Nov 2026 · due 15 Jan 2027');
  expect(seen(page())).toContain(
    'Species black walnut Size 2" × 8" × 10\' Call 8/4 Place Rack 2, bay C MC 8.5 % on 2 Nov 2026',
  );
});

test('gives each cut a box to tick, its setting and what comes off', () => {
  const text = seen(page());
  expect(text).toContain('1 Crosscut the board Stop at 81 1/2" tagged end length 1 (chalk 1 on it)');
  expect(text).toContain('2 Rip length 1 Fence at 3 3/4" left edge Rail 1 (A1)');
  expect(text).toContain('3 Rip length 1 Fence at 3 3/4" left edge Rail 2 (A2)');
  expect(page().match(/<span class="box">/g)).toHaveLength(3 + 1);
});

test('sets a new setting in bold and a repeated one plain', () => {
  expect([...page().matchAll(/<td class="(set[^"]*)">([^<]*)</g)].map((match) => [match[1], match[2]])).toEqual([
    ['set', 'Stop at 81 1/2&quot;'],
    ['set', 'Fence at 3 3/4&quot;'],
    ['set again', 'Fence at 3 3/4&quot;'],
  ]);
});

test('lists the pieces with rough and finished size and their rest, and the offcuts with room for tag and place', () => {
  // Rest of critical parts: the shop's own default of 7 days, common practice, no source.
  expect(seen(page())).toContain('A Rail 1-2 3 3/4" × 81 1/2" 1 3/4" × 3 1/2" × 80 1/2" 7 days');
  expect(seen(page())).toContain('Offcuts to tag and put back Width × length From the tagged end New tag Place');
  expect(seen(page())).toContain('8" × 38 3/8" 6\' 9 5/8" to 10\'');
  expect(page().match(/<span class="line">/g)).toHaveLength(2);
});

test('warns of what is wrong with this board and only of that', () => {
  expect(page()).not.toContain('class="warn"');
  expect(seen(page({ readings: [] }))).toContain('Moisture not measured: take a reading');
  expect(seen(page({ readings: [{ moisturePercent: 12, on: '2026-11-02' }] }))).not.toContain('Wet stock');
  expect(seen(page({ readings: [{ moisturePercent: 12.5, on: '2026-11-02' }] }))).toContain('Wet stock, 12.5 % MC');
  expect(seen(page({ warp: { cupNm: '1/8 in' } }))).toContain('Not flat (cup 1/8")');
  expect(seen(page({ warp: { crookNm: '1/2 in' } }))).not.toContain('Not flat');
  const knot = { kind: 'knot-loose', face: 'a', fromNm: IN, toNm: 2 * IN, leftNm: 0, rightNm: IN };
  expect(seen(page({ defects: [knot] }))).toContain('Loose knot');
  expect(seen(page({}, { warnings: ['Straighten <first>.'] }))).toContain('Straighten &lt;first&gt;.');
});

test('asks for two people where a board is heavier than one should lift', () => {
  // 8/4 white oak, green (68 % MC), 12 in x 10 ft is 20 bf: 5.24 lb a board foot, 105 lb. Wood Handbook FPL-GTR-282,
  // Ch. 4, eq. 4-14; limit 23 kg: NIOSH lifting equation, its constant for ideal conditions.
  const green = { species: 'white-oak', widthNm: '12 in', readings: [{ moisturePercent: 68, on: '2026-11-02' }] };
  expect(boardWeight(boardOf(green), { ownWoods: [] })?.massKg).toBeCloseTo(105 * 0.45359, 0);
  expect(seen(page(green))).toMatch(/Heavy, about 10[456] lb \(4[78] kg\): two people/);
  expect(seen(page({ lengthNm: '4 ft' }))).not.toContain('two people');
  expect(seen(page({ widthNm: '16 in', readings: [] }))).toContain('if dry (12 % MC), more if wet: two people');
  expect(boardWeight(boardOf({ species: 'nobody-knows-this-wood' }), { ownWoods: [] })).toBeNull();
});

test('takes the latest reading, whatever order they were written down in', () => {
  const readings = [
    { moisturePercent: 9, on: '2026-11-20' },
    { moisturePercent: 14, on: '2026-10-01' },
  ];
  expect(latestReading(boardOf({ readings }).readings)?.moisturePercent).toBe(9);
  expect(latestReading(boardOf({ readings: [] }).readings)).toBeNull();
});

test('gives the finished size of a layer, not of the whole part', () => {
  const post = partSchema.parse({
    ...rail,
    thicknessNm: '3 in',
    widthNm: '3 in',
    lamination: {
      kind: 'plies',
      plies: [
        { thicknessNm: '1 in', widthNm: '3 in' },
        { thicknessNm: '1 in', widthNm: '2 1/4 in', offsetNm: '3/8 in' },
        { thicknessNm: '1 in', widthNm: '3 in' },
      ],
    },
  });
  const withPieces = { ...post, pieces: [], version: 1 };
  expect(finishedSize(withPieces, null, settings)).toBe('3" × 3" × 80 1/2"');
  expect(finishedSize(withPieces, 1, settings)).toBe('1" × 2 1/4" × 80 1/2"');
  const top = { ...withPieces, widthNm: 24 * IN, lamination: { kind: 'staves', count: 6 } as const };
  // (24 + 5 joints of 1/8) / 6: as the plan, the takeoff and the glue-up sheet have it.
  expect(finishedSize(top, 0, settings)).toBe('3" × 4 1/8" × 80 1/2" before its edges are jointed');
  expect(finishedSize(top, null, settings)).toBe('3" × 24" × 80 1/2"');
  expect(finishedSize(undefined, null, settings)).toBeNull();
  expect(restText({ ...withPieces, use: 'hidden' }, settings)).toBe('1 day');
});

test('says the cautions once, however many boards are cut, and defers to the manual', () => {
  const two = cutCardsPage({
    session,
    layouts: [layout, { ...layout, boardId: 'bd_00000002', tag: 'W-08' }],
    boards: [boardOf({})],
    job,
    settings,
  });
  expect(two.match(/class="card"/g)).toHaveLength(2);
  expect(two.match(/class="cautions"/g)).toHaveLength(1);
  expect(two).toContain("The machine's manual and your local safety rules come before anything on this card");
  // The second board has left the stock since the plan was made.
  expect(seen(two)).toContain('W-08 Hall bench Cut card 2 of 2');
  expect(seen(two)).toContain('no longer in stock as planned');
});

test('puts boards of an earlier phase first and marks what is already written down', () => {
  const html = cutCardsPage({
    session: { ...session, doneBoardIds: ['bd_00000002'] },
    layouts: [
      { ...layout, phase: 3 },
      { ...layout, boardId: 'bd_00000002', tag: 'W-08', phase: 2 },
    ],
    boards: [boardOf({})],
    job,
    settings,
  });
  expect(html.indexOf('<h1>W-08')).toBeLessThan(html.indexOf('<h1>W-07'));
  expect(seen(html)).toMatch(/W-08 Hall bench Cut card 1 of 2 .* already written down/);
  expect(seen(html)).toContain('Phase 2: after the parts of phase 1 have rested');
  expect(seen(html).match(/Phase/g)).toHaveLength(1);
});

test('runs nothing, fetches nothing, and shows what people wrote as they wrote it', () => {
  const bad = '<img src=x onerror=alert(1)>"\'&';
  const html = cutCardsPage({
    session,
    layouts: [{ ...layout, tag: bad, pieces: layout.pieces.map((one) => ({ ...one, label: bad })), warnings: [bad] }],
    boards: [boardOf({ tag: bad, place: bad, species: bad, note: bad, thicknessCall: '</td>' })],
    job: { ...job, name: bad, parts: [] },
    settings,
  });
  expect(html).not.toMatch(/<img|<script|<link|<iframe/i);
  expect(html.match(/https?:\/\/[^"]+/g)?.every((url) => url === 'http://www.w3.org/2000/svg')).toBe(true);
  expect(html.match(/url\(/g)?.length ?? 0).toBe(html.match(/url\(#c1-/g)?.length ?? 0);
  expect(html).toContain('&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;');
  expect(html.match(/<td\b/g)).toHaveLength(html.match(/<\/td>/g)!.length);
});

test('reads in millimetres for a shop that measures so', () => {
  const html = cutCardsPage({
    session,
    layouts: [layout],
    boards: [boardOf({})],
    job,
    settings: { ...settings, shown: 'mm' },
  });
  expect(seen(html)).toContain('Fence at ≈ 95.3 mm');
  expect(seen(html)).toMatch(/Weight about \d+ kg/);
});

test('says so where no board is left', () => {
  expect(seen(cutCardsPage({ session, layouts: [], boards: [], job, settings }))).toContain(
    'No boards are left to cut',
  );
});
