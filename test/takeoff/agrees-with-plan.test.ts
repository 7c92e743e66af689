/**
 * The takeoff's word against the plan's: what it calls covered a plan places, and what it calls short for sure no plan
 * does. Compared part by part, for the jobs of both demo workbooks and for many small shops made up.
 */
import { describe, expect, test } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { readPartRows } from '../../addon/sheet/read-parts.ts';
import { secondWorkbook, secondWorkbookLocale } from '../../data-demo/second-workbook.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { demoYard } from '../../data-demo/yard.ts';
import type { BoardView, Defect } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import type { PlanBody } from '../../worker/contract/plan.ts';
import type { Takeoff } from '../../worker/contract/takeoff.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { type Client, openShop } from '../api/shop.ts';
import { us } from '../sheet/block.ts';
import { demoBlock } from '../sheet/demo-block.ts';
import { board, heldFor, inch, job, part, shopSettings } from './shop-cases.ts';

/** By part: blanks that the takeoff finds no place for, and whether a plan may; and blanks that the plan places. */
function words(counted: Takeoff, plan: PlanBody | null) {
  const placed = new Map<string, number>();
  for (const { pieces } of plan?.layouts ?? [])
    for (const { partKey } of pieces) placed.set(partKey, (placed.get(partKey) ?? 0) + 1);
  return counted.rows.map(({ key, label, species, blanks }) => {
    const wanted = blanks.reduce((sum, { count }) => sum + count, 0);
    const missing = blanks.reduce((sum, one) => sum + one.missing, 0);
    const calls = new Set(blanks.map(({ thicknessCall }) => thicknessCall));
    const groups = counted.groups.filter((group) => group.species === species && calls.has(group.thicknessCall));
    const isSure = groups.every(({ mayStillFit }) => !mayStillFit);
    return { label, wanted, missing, isSure, placed: placed.get(key) ?? 0 };
  });
}

const books = [
  {
    book: 'the demo workbook',
    sheets: demoWorkbook,
    locale: us,
    stock: 'Boards',
    lists: ['Hall table', 'Library bench'],
  },
  {
    book: 'the second workbook',
    sheets: secondWorkbook,
    locale: secondWorkbookLocale,
    stock: 'Timber',
    lists: ['Wall table'],
  },
] as const;

describe.each(books)('$book', ({ sheets, locale, stock, lists }) => {
  const defaults = { system: 'in', readOn: '2026-11-20' } as const;
  const found = (name: string, want: 'boards' | 'parts') => {
    const sheet = sheets.find((one) => one.name === name);
    if (!sheet) throw new Error(`no sheet ${name}`);
    const block = demoBlock(sheet, locale);
    const table = findTable(block, want, defaults);
    if (!table.ok) throw new Error(table.help);
    return { block, mapping: { ...table.mapping, datesAreFractions: true } };
  };
  const filled = async (yard: Client) => {
    await yard.send('PUT', '/v1/yard/settings', demoYard.settings);
    for (const body of demoYard.takeIns) await yard.send('POST', '/v1/boards', body);
    for (const { draft, cutList, holds } of demoYard.jobs) {
      const { id } = (await yard.send('POST', '/v1/jobs', draft)).json;
      await yard.send('PUT', `/v1/jobs/${id}/cut-list`, cutList);
      await yard.send('POST', '/v1/reservations', { jobId: id, boards: holds });
    }
    const boards = found(stock, 'boards');
    const rows = readBoardRows(boards.block, boards.mapping, defaults).rows.map(({ draft }) => draft);
    await yard.send('POST', '/v1/boards', { boards: rows });
    for (const name of lists) {
      const { id } = (await yard.send('POST', '/v1/jobs', { name })).json;
      const list = found(name, 'parts');
      const parts = readPartRows(list.block, list.mapping, defaults).rows.map(({ draft }, at) => ({
        ...draft,
        key: draft.key ?? `row-${at}`,
      }));
      await yard.send('PUT', `/v1/jobs/${id}/cut-list`, { parts });
    }
  };

  test('every part that the takeoff calls covered is placed, and every one it calls short is not', async () => {
    const yard = await openShop().foundYard(demoYard.name);
    await filled(yard);
    const jobs: { id: string; name: string }[] = (await yard.send('GET', '/v1/jobs')).json.items;
    expect(jobs.length).toBe(lists.length + 1);
    for (const { id, name } of jobs) {
      const counted = (await yard.send('POST', `/v1/jobs/${id}/takeoff`, {})).json;
      const plan = (await yard.send('POST', `/v1/jobs/${id}/plans`, { effort: 'quick' })).json;
      const told = words(counted, plan).map(({ label, missing, isSure }) => ({ label, missing, isSure }));
      const planned = words(counted, plan).map(({ label, wanted, placed }) => ({
        label,
        missing: wanted - placed,
        isSure: true,
      }));
      expect(told, name).toEqual(planned);
    }
  }, 120_000);
});

/** A generator of its own, so that each shop is the same on every run. */
function dice(seed: number) {
  let state = seed;
  return (most: number) => {
    // mulberry32, a public domain generator, from memory.
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * most);
  };
}

function madeUpShop(seed: number): { readonly parts: readonly Part[]; readonly boards: readonly BoardView[] } {
  const roll = dice(seed);
  const defects = (lengthIn: number, widthIn: number): Defect[] =>
    Array.from({ length: roll(3) }, () => {
      const [from, left] = [roll(lengthIn - 4), roll(widthIn - 2)];
      const kind = (['knot-loose', 'knot-sound', 'check', 'stain'] as const)[roll(4)] ?? 'stain';
      const face = (['a', 'b', 'through'] as const)[roll(3)] ?? 'a';
      return { kind, face, fromNm: inch(from), toNm: inch(from + 3), leftNm: inch(left), rightNm: inch(left + 1.5) };
    });
  const boards = Array.from({ length: 2 + roll(5) }, () => {
    const [lengthIn, widthIn] = [40 + roll(80), 4 + roll(7)];
    return board({
      ...{ lengthNm: inch(lengthIn), widthNm: inch(widthIn), thicknessNm: inch([1, 1.25, 2][roll(3)] ?? 1) },
      readings: [{ moisturePercent: 7 + roll(8), on: '2026-03-01', meter: 'pin' }],
      warp: roll(3) > 0 ? null : { bowNm: 0, crookNm: inch(roll(8) / 8), cupNm: 0, twistNm: inch(roll(3) / 8) },
      defects: defects(lengthIn, widthIn),
      held: roll(4) > 0 ? [] : [heldFor('jb_other', 0, inch(12 + roll(20)))],
    });
  });
  const parts = Array.from({ length: 1 + roll(4) }, (_, at) =>
    part({
      key: `p${at}`,
      label: `Part ${at}`,
      quantity: 1 + roll(4),
      ...{ lengthNm: inch(8 + roll(70)), widthNm: inch(1.5 + roll(5)), thicknessNm: inch([0.75, 1][roll(2)] ?? 0.75) },
      use: (['critical', 'visible', 'hidden'] as const)[roll(3)] ?? 'visible',
      faces: (['clear-both', 'clear-one', 'sound-knots', 'hidden'] as const)[roll(4)] ?? 'hidden',
    }),
  );
  return { parts, boards };
}

test('in eighty small shops the takeoff never promises what a plan cannot place, nor denies what it can', () => {
  const settings = shopSettings();
  const tally = { covered: 0, short: 0, open: 0 };
  const wrong: string[] = [];
  for (let seed = 1; seed <= 80; seed += 1) {
    const { parts, boards } = madeUpShop(seed);
    const counted = takeoff({ parts, boards, settings, jobId: 'jb_00000001' });
    const answer = planCutting({
      ...{ job: job(parts), boards, settings, effort: 'quick', seed: 1, aim: 'least-cost', worth: COMMON_WORTH },
    });
    const plan = answer.ok ? answer.plan : null;
    const rows = words(counted, plan);
    const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((total, row) => total + of(row), 0);
    const [missing, unplaced] = [sum((row) => row.missing), sum((row) => row.wanted - row.placed)];
    const isSure = rows.some((row) => row.missing > 0 && row.isSure);
    if (missing === 0) tally.covered += 1;
    else if (isSure) tally.short += 1;
    else tally.open += 1;
    if ((missing === 0 && unplaced > 0) || (isSure && unplaced === 0))
      wrong.push(`shop ${seed}: takeoff misses ${missing}${isSure ? ' for sure' : ''}, the plan ${unplaced}`);
  }
  expect(wrong).toEqual([]);
  expect(Math.min(tally.covered, tally.short)).toBeGreaterThan(15);
  // Where it cannot know it says so, and that is the exception.
  expect(tally.open).toBeLessThan(10);
}, 120_000);
