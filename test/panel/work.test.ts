import { describe, expect, test } from 'vitest';
import { daysBetween } from '../../addon/panel/screens/drying.tsx';
import { listedBoards, whenText } from '../../addon/panel/screens/drying-ready.tsx';
import { lastReading, readiness } from '../../addon/panel/state/drying.ts';
import { workOf } from '../../addon/panel/state/work.ts';
import { notMadeText, piecesText, standingText, untilText } from '../../addon/panel/words/standing.ts';
import { settings } from './fake-yard.ts';
import { sampleBoard, sampleBoards, sampleJob } from './sample.ts';

const nowMs = Date.UTC(2026, 10, 25, 10);
const work = workOf(sampleJob, '2026-11-25', nowMs);
const lines = work.now.map((one) => [one.part.label, one.step, one.pieces.map((piece) => piece.no)]);

test('a job that is called done says how many pieces are not made yet', () => {
  expect(notMadeText({ wanted: 10, planned: 10, milled: 3, failed: 1 })).toBe(
    '20 pieces are not made yet: 10 wanted, 10 planned',
  );
  expect(notMadeText({ 'glued-up': 1 })).toBe('1 piece is not made yet: 1 glued up');
  expect(notMadeText({ milled: 3, failed: 1 })).toBeNull();
});

test('of the boards by when they are ready those that still dry come first, and the dry ones stand apart', () => {
  const [one] = sampleBoards;
  if (!one) throw new Error('no board');
  const facts = { species: one.species, thicknessNm: one.thicknessNm, place: '', lastPercent: null, lastOn: null };
  const rows = (['ready', 'later', 'possibly', 'never', 'surely', 'ready'] as const).map((stands, at) => ({
    ...{ boardId: `bd_${at}`, tag: `B${at}`, ...facts, dryFor: 'unknown' as const, forecast: null, why: '' },
    stands,
  }));
  const tags = (show: 'soon' | 'never' | 'all') => {
    const { listed, ready } = listedBoards(rows, show);
    return [listed.map(({ tag }) => tag), ready.map(({ tag }) => tag)];
  };
  expect(tags('soon')).toEqual([
    ['B4', 'B2'],
    ['B0', 'B5'],
  ]);
  expect(tags('never')).toEqual([['B3'], []]);
  expect(tags('all')).toEqual([['B4', 'B2', 'B1', 'B3', 'B0', 'B5'], []]);
});

test('a forecast whose day is past asks for the meter', () => {
  const forecast = {
    kind: 'range' as const,
    earliestOn: '2026-10-25',
    likelyOn: '2026-11-01',
    latestOn: '2026-11-20',
    emcPercent: 7,
    basis: 'readings' as const,
    from: { moisturePercent: 14, on: '2026-09-20' },
    note: '',
  };
  expect(whenText({ forecast, why: '' }, '2026-11-26')).toBe('should be there since about 1 Nov: measure');
  expect(whenText({ forecast, why: '' }, '2026-11-01')).toBe('likely 1 Nov, from 25 Oct to 20 Nov');
  // A board may have a reading and still none of how fast it dries.
  const byTable = { ...forecast, basis: 'species-table' as const };
  expect(whenText({ forecast: byTable, why: '' }, '2026-11-01')).toMatch(
    /; how fast it dries is not measured yet, a wide guess from memory$/,
  );
});

describe('a job half way through', () => {
  test('what can be worked on: look at the rested rail, glue the post whose plies passed, mill the apron', () => {
    expect(lines).toEqual([
      ['Long rail', 'judge', [2]],
      ['Apron, front', 'mill', [2]],
      ['Post', 'glue-up', [1]],
    ]);
  });
  test('what waits: the rail that rests until the 28th and the top in its clamps', () => {
    expect(work.waiting.map((one) => [one.part.label, piecesText(one.pieces, one.part), one.why])).toEqual([
      ['Top', 'no. 1', 'curing'],
      ['Long rail', 'no. 1', 'resting'],
    ]);
  });
  test('the post with one ply still wanted cannot be glued', () => {
    const glue = work.now.find((one) => one.step === 'glue-up');
    expect(glue?.pieces.map((piece) => piece.no)).not.toContain(2);
  });
  test('once the glue has cured the top can be milled', () => {
    const later = workOf(sampleJob, '2026-11-27', Date.UTC(2026, 10, 27));
    expect(later.now.some((one) => one.part.label === 'Top' && one.step === 'mill')).toBe(true);
  });
  test('the day that a rest ends, the piece can be looked at', () => {
    const later = workOf(sampleJob, '2026-11-28', nowMs);
    expect(later.now.find((one) => one.step === 'judge')?.pieces.map((piece) => piece.no)).toEqual([1, 2]);
  });
});

test('a failed piece is wanted again, and its failed try is no work', () => {
  const [rail] = sampleJob.parts;
  if (rail === undefined) throw new Error('the job has rails');
  const failed = rail.pieces.filter((piece) => piece.state === 'failed');
  const [first] = failed;
  if (first === undefined) throw new Error('one rail failed');
  const again = { ...first, attempt: 2, state: 'wanted' as const, why: '' };
  const job = { ...sampleJob, parts: [{ ...rail, pieces: [first, again] }] };
  const found = workOf(job, '2026-11-25', nowMs);
  expect(found.now).toEqual([]);
  expect(found.again.map((one) => [one.part.label, one.pieces.length])).toEqual([['Long rail', 1]]);
});

test('a part’s pieces in words for a cell', () => {
  const words = Object.fromEntries(sampleJob.parts.map((part) => [part.label, standingText(part)]));
  expect(words['Long rail']).toBe('2 roughed, 1 failed');
  expect(words.Post).toBe('2 wanted (plies: 1 wanted, 3 passed)');
  const [rail] = sampleJob.parts;
  expect(untilText(rail?.pieces ?? [], '2026-11-25')).toBe('2026-11-28');
  expect(untilText(rail?.pieces ?? [], '2026-11-28')).toBeNull();
});

describe('dry enough for what, by the shop’s own figures', () => {
  const at = (...percents: number[]) =>
    sampleBoard(1, {
      readings: percents.map((moisturePercent, index) => ({
        moisturePercent,
        on: `2026-1${index % 2}-01`,
        meter: 'pin' as const,
      })),
    });
  test.each([
    [[10], 'critical'],
    [[10.1], 'visible'],
    [[12], 'visible'],
    [[15], 'hidden'],
    [[15.1], 'wet'],
    [[], 'unknown'],
  ] as const)('read at %s per cent: %s', (percents, is) => {
    expect(readiness(at(...percents), settings.moistureMax)).toBe(is);
  });
  test('the last reading counts by its day, not by where it stands', () => {
    const board = sampleBoard(1, {
      readings: [
        { moisturePercent: 9, on: '2026-11-02', meter: 'pin' },
        { moisturePercent: 14, on: '2026-09-01', meter: 'pin' },
      ],
    });
    expect(lastReading(board)?.moisturePercent).toBe(9);
  });
  test('days between two readings', () => {
    expect(daysBetween('2026-10-12', '2026-11-25')).toBe(44);
  });
});
