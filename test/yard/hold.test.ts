/** Holding boards for a job, and letting them go. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

async function twoJobs() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  return { shop, table: shop.job('Hall table', partOf('leg')), bench: shop.job('Bench') };
}

test('a board held for one job cannot be held for another; the refusal names board, job and way out', async () => {
  const { shop, table, bench } = await twoJobs();
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'q-1', fromNm: 0, toNm: 60 * INCH }] });
  const refusal = shop.refused({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-2' }, { tag: 'Q-1' }] });
  expect(refusal.why).toBe('board-held');
  expect(refusal.conflicts).toEqual([
    {
      boardId: shop.board('Q-1').id,
      tag: 'Q-1',
      jobId: table,
      jobName: 'Hall table',
      fromNm: 0,
      toNm: 60 * INCH,
      wayOut:
        'take another board, release it from Hall table, or hold only a free run: 60" to 8\' 4" from the tagged end (40" long)',
    },
  ]);
  // All or nothing: Q-2 was free, but is not held either.
  expect(shop.state().reservationsOfJob(bench)).toEqual([]);
});

test('of a board that is held whole the way out is one of two, told apart', async () => {
  const { shop, table, bench } = await twoJobs();
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1' }] });
  const { conflicts } = shop.refused({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1' }] });
  expect(conflicts?.map((one) => one.wayOut)).toEqual(['take another board, or release it from Hall table']);
});

test('two jobs share a board by runs that touch but do not overlap', async () => {
  const { shop, table, bench } = await twoJobs();
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', fromNm: 0, toNm: 60 * INCH }] });
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1', fromNm: 60 * INCH }] });
  const held = shop.ask('board', { boardId: shop.board('Q-1').id }).held;
  expect(held.map((each) => [each.jobName, each.fromNm / INCH, each.toNm / INCH])).toEqual([
    ['Hall table', 0, 60],
    ['Bench', 60, 100],
  ]);
  const over = shop.refused({
    do: 'reserve',
    jobId: bench,
    boards: [{ tag: 'Q-1', fromNm: 59 * INCH, toNm: 61 * INCH }],
  });
  expect(over.why).toBe('board-held');
});

test('a job that reaches for what it holds already holds it once', async () => {
  const { shop, table } = await twoJobs();
  const reach = (fromIn: number, toIn: number) =>
    shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', fromNm: fromIn * INCH, toNm: toIn * INCH }] });
  const first = reach(0, 20);
  reach(40, 50);
  const joined = reach(10, 45);
  expect(joined.reservationIds).toEqual(first.reservationIds);
  expect(
    shop
      .state()
      .reservationsOfJob(table)
      .map((held) => [held.fromNm, held.toNm]),
  ).toEqual([[0, 50 * INCH]]);
  expect(reach(5, 6).notes).toEqual(['Hall table holds this already.']);
  shop.expectSound();
});

test('a run past the end, an unknown tag and a board named twice are all told', async () => {
  const { shop, table } = await twoJobs();
  const past = shop.refused({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', fromNm: 0, toNm: 101 * INCH }] });
  expect([past.why, past.faults?.[0]?.help]).toEqual([
    'run-outside-board',
    'Q-1 runs from 0 to 8\' 4"; a run begins before it ends, within that',
  ]);
  const none = shop.refused({
    do: 'reserve',
    jobId: table,
    boards: [{ tag: 'Q-1' }, { tag: 'X-9' }, { boardId: 'bd_nothing1' }],
  });
  expect([none.why, none.faults?.map((fault) => fault.read)]).toEqual(['not-found', ['X-9', 'bd_nothing1']]);
  const nameless = shop.refused({ do: 'reserve', jobId: table, boards: [{ fromNm: 0 }] });
  expect(nameless.faults?.map(({ read, help }) => [read, help])).toEqual([['', 'name the board by its tag or its id']]);
  const boardId = shop.board('Q-2').id;
  expect(shop.tell({ do: 'reserve', jobId: table, boards: [{ boardId }] }).shown?.reservations?.[0]?.tag).toBe('Q-2');
  const twice = shop.refused({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1' }, { tag: 'q-1' }] });
  expect(twice.why).toBe('invalid-input');
});

test('a board that is gone cannot be held, nor can a job that is done hold one', async () => {
  const { shop, table, bench } = await twoJobs();
  shop.tell({ do: 'write-off-board', boardId: shop.board('Q-1').id, why: 'rot' });
  const gone = shop.refused({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1' }] });
  expect([gone.why, gone.conflicts?.[0]?.wayOut]).toEqual(['board-not-in-stock', 'it was written off; take another']);
  const ifVersion = shop.state().get('job', bench)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId: bench, ifVersion, patch: { state: 'done' } });
  expect(shop.refused({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-2' }] }).why).toBe('job-not-open');
});

test('released wood is free for the next job; a second release is told that it was done', async () => {
  const { shop, table, bench } = await twoJobs();
  const ids = shop.reserve(table, 'Q-1');
  shop.tell({ do: 'release', ids });
  shop.reserve(bench, 'Q-1');
  const again = shop.refused({ do: 'release', ids });
  expect([again.why, again.faults?.[0]?.read]).toEqual(['not-found', ids[0]]);
});

test('a job that ends lets go of what it holds, unless it is at the saw', async () => {
  const { shop, table } = await twoJobs();
  const { sessionId } = shop.atTheSaw(table, { 'Q-1': [{ key: 'leg', count: 2 }] });
  shop.reserve(table, 'Q-2');
  const end = () => {
    const ifVersion = shop.state().get('job', table)?.version ?? 0;
    return { do: 'change-job', jobId: table, ifVersion, patch: { state: 'cancelled' } } as const;
  };
  expect(shop.refused(end()).conflicts?.map((conflict) => conflict.tag)).toEqual(['Q-1']);
  const boards = [{ as: 'untouched' as const, boardId: shop.board('Q-1').id, why: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(shop.tell(end()).notes).toEqual(['Released 2 reservations.']);
  expect(shop.state().reservationsOfJob(table)).toEqual([]);
  shop.expectSound();
});

test('the database itself refuses two runs that overlap', async () => {
  const { shop, table } = await twoJobs();
  shop.reserve(table, 'Q-1');
  const insert = `INSERT INTO reservation (id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version)
    VALUES ('rs_smuggled', ?, ?, 5, 6, NULL, 0, 9)`;
  expect(() => shop.yard.sql.run(insert, table, shop.board('Q-1').id)).toThrow('two reservations overlap');
});

test('what a plan of the job holds is not held again by hand', async () => {
  const { shop, table } = await twoJobs();
  const planId = shop.keep(shop.plan(table, { 'Q-1': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const refusal = shop.refused({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1' }] });
  expect([refusal.why, refusal.conflicts?.[0]?.wayOut]).toEqual(['board-held', 'a plan of this job holds it already']);
});

test('what is held comes page by page, of all jobs, of one job or of one board', async () => {
  const { shop, table, bench } = await twoJobs();
  const hold = (jobId: string, tag: string, fromIn: number, toIn: number) =>
    shop.tell({ do: 'reserve', jobId, boards: [{ tag, fromNm: fromIn * INCH, toNm: toIn * INCH }] });
  hold(table, 'Q-1', 0, 30);
  hold(bench, 'Q-1', 50, 100);
  hold(table, 'Q-2', 0, 100);
  const show = (only: { readonly jobId?: string; readonly boardId?: string }, limit: number, after: string | null) => {
    const { items, next } = shop.ask('reservations', { ...only, page: { after, limit } });
    return { held: items.map((held) => [held.tag, held.jobName, held.fromNm / INCH, held.whole]), next };
  };
  const first = show({}, 2, null);
  expect(first.held).toEqual([
    ['Q-1', 'Hall table', 0, false],
    ['Q-1', 'Bench', 50, false],
  ]);
  expect(show({}, 2, first.next)).toEqual({ held: [['Q-2', 'Hall table', 0, true]], next: null });
  expect(show({}, 3, null).next).toBeNull();
  const ofTable = show({ jobId: table }, 1, null);
  expect(ofTable.held).toEqual([['Q-1', 'Hall table', 0, false]]);
  expect(show({ jobId: table }, 1, ofTable.next)).toEqual({ held: [['Q-2', 'Hall table', 0, true]], next: null });
  expect(show({ boardId: shop.board('Q-1').id }, 9, null).held.map(([, jobName]) => jobName)).toEqual([
    'Hall table',
    'Bench',
  ]);
});

test('of many short runs on one board each is found by its own place', async () => {
  const { shop, table, bench } = await twoJobs();
  // Every other inch from 1 to 99 is held, in an order of no meaning.
  const places = Array.from({ length: 50 }, (_, at) => 1 + 2 * ((at * 17) % 50));
  for (const at of places) {
    shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', fromNm: at * INCH, toNm: (at + 1) * INCH }] });
  }
  const boardId = shop.board('Q-1').id;
  const across = (fromIn: number, toIn: number) =>
    shop
      .state()
      .reservationsAcross(boardId, fromIn * INCH, toIn * INCH)
      .map((held) => held.fromNm / INCH);
  expect(across(40, 41)).toEqual([]);
  expect(across(40, 42)).toEqual([41]);
  expect(across(41.25, 41.75)).toEqual([41]);
  expect(across(41.5, 46)).toEqual([41, 43, 45]);
  expect(across(0, 1)).toEqual([]);
  expect(across(0, 100)).toEqual(places.toSorted((a, b) => a - b));
  for (const [fromIn, toIn] of [
    [40, 41.5],
    [41.5, 43],
    [41.25, 41.75],
    [0, 100],
  ] as const) {
    const boards = [{ tag: 'Q-1', fromNm: fromIn * INCH, toNm: toIn * INCH }];
    expect(shop.refused({ do: 'reserve', jobId: bench, boards }).why).toBe('board-held');
    const insert = `INSERT INTO reservation (id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version)
      VALUES ('rs_smuggled', ?, ?, ?, ?, NULL, 0, 9)`;
    const smuggle = () => shop.yard.sql.run(insert, bench, boardId, fromIn * INCH, toIn * INCH);
    expect(smuggle, `${fromIn} to ${toIn}`).toThrow('two reservations overlap');
  }
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1', fromNm: 40 * INCH, toNm: 41 * INCH }] });
  shop.expectSound();
});
