/** What the yard answers: what a write shows of what it did, the yard's counts, lists page by page, the boards of a question. */
import { expect, test } from 'vitest';
import type { BoardsWanted } from '../../worker/yard/command.ts';
import { tagFold, tagSort } from '../../worker/yard/tag.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

async function oneBoardAtTheSaw() {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'), boardOf('Q-3'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 4 }));
  const { planId, sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  return { shop, first, second, jobId, planId, sessionId };
}

test('holds are shown by tag as a person counts, and of tags that count alike by place along the board', async () => {
  const shop = await Shop.open();
  const jobId = shop.job('Hall table');
  shop.takeIn(...['Q-10', 'Q-01', 'Q-2', 'Q-1', 'P-9'].map((tag) => boardOf(tag)));
  const boards = [
    { tag: 'Q-10' },
    { tag: 'Q-01', fromNm: 20 * INCH },
    { tag: 'Q-2', toNm: 30 * INCH },
    { tag: 'Q-1', fromNm: 10 * INCH },
    { tag: 'P-9', fromNm: INCH },
  ];
  const { shown, reservationIds } = shop.tell({ do: 'reserve', jobId, boards });
  expect(shown?.reservations?.map(({ tag, fromNm, whole }) => [tag, fromNm / INCH, whole])).toEqual([
    ['P-9', 1, false],
    ['Q-1', 10, false],
    ['Q-01', 20, false],
    ['Q-2', 0, false],
    ['Q-10', 0, true],
  ]);
  expect(shown?.reservations?.every(({ jobName }) => jobName === 'Hall table')).toBe(true);
  expect(new Set(shown?.reservations?.map(({ id }) => id))).toEqual(new Set(reservationIds));
  // As the list by ids gives them.
  expect(shop.ask('reservations-by-id', { ids: reservationIds ?? [] }).map(({ tag }) => tag)).toEqual(
    shown?.reservations?.map(({ tag }) => tag),
  );
  expect([tagFold(' Ｑ-1 '), tagSort('Q-1') === tagSort('q-001'), tagSort('Q-9') < tagSort('Q-10')]).toEqual([
    'q-1',
    true,
    true,
  ]);
});

test('each write shows the thing that it changed as it is then, and nothing else', async () => {
  const { shop, first, second, jobId, planId, sessionId } = await oneBoardAtTheSaw();
  const shown = (command: Parameters<typeof shop.tell>[0]) => {
    const told = shop.tell(command);
    return { ...told.shown, told };
  };
  const boardVersion = () => shop.board(second).version;
  const read = shown({
    do: 'read-moisture',
    boardId: second,
    readings: [{ moisturePercent: 9, on: '2026-03-01', meter: 'pin' }],
  });
  expect([read.board, read.told.boardId]).toMatchObject([{ id: second, version: boardVersion() }, second]);
  expect(read.board?.readings).toHaveLength(1);
  const corrected = shown({
    do: 'correct-board',
    boardId: second,
    ifVersion: boardVersion(),
    patch: { place: 'rack 1' },
  });
  expect([corrected.board, corrected.told.boardId]).toMatchObject([{ id: second, place: 'rack 1' }, second]);
  const ended = shown({ do: 'write-off-board', boardId: second, why: 'rot' });
  expect([ended.board, ended.told.boardId]).toMatchObject([{ id: second, state: 'written-off', held: [] }, second]);
  const opened = shown({ do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } });
  expect(opened).toMatchObject({ job: { id: opened.told.jobId, name: 'Bench', parts: [] } });
  const listed = shown({
    do: 'set-cut-list',
    jobId: opened.told.jobId ?? '',
    parts: [partOf('rail')],
    faults: [],
    allOrNothing: true,
    ifVersion: null,
  });
  expect(listed).toMatchObject({ job: { name: 'Bench', revision: 1, parts: [{ key: 'rail' }] } });
  const kept = shown({ do: 'keep-plan', plan: shop.plan(jobId, { 'Q-3': [{ key: 'leg' }] }) });
  expect(kept.plan).toEqual({ id: kept.told.planId, state: 'draft', version: kept.told.seq });
  const held = shown({ do: 'reserve-plan', planId: kept.told.planId ?? '', how: 'whole' });
  expect(held).toMatchObject({ plan: { state: 'reserved' }, reservations: [{ tag: 'Q-3', whole: true }] });
  const atTheSaw = shown({ do: 'open-session', planId: kept.told.planId ?? '', boardIds: null });
  expect(atTheSaw).toMatchObject({
    plan: { state: 'cutting' },
    session: { id: atTheSaw.told.sessionId, state: 'open', jobName: 'Hall table' },
  });
  const entered = shown({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(entered).toMatchObject({ session: { id: sessionId, state: 'closed', doneBoardIds: [first] } });
  expect(entered.plan).toBeUndefined();
  const moved = shown({ do: 'move-pieces', jobId, steps: [shop.step('leg', 1, 'passed', null, 'dry already')] });
  expect(moved.job?.standing.pieces).toEqual({ passed: 1, planned: 1, wanted: 2 });
  const undone = shown({ do: 'undo', seq: moved.told.seq });
  expect(undone.movement).toMatchObject({ seq: undone.told.seq, undoes: moved.told.seq });
  const settings = shop.ask('yard-facts', {}).settings;
  const changed = shown({ do: 'change-settings', settings: { ...settings, cureHours: 12 } });
  expect(changed.settings).toEqual({ version: changed.told.seq });
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  const byHand = shown({ do: 'reserve', jobId, boards: [{ tag: 'Q-1-1' }] });
  expect([byHand.reservations?.length, byHand.plan]).toEqual([1, undefined]);
  expect(shown({ do: 'release', ids: byHand.told.reservationIds ?? [] }).told.shown).toEqual({});
});

test('a job of very many pieces is not shown with its own write', async () => {
  const shop = await Shop.open();
  const jobId = shop.job('Panels');
  const staves = { kind: 'staves' as const, count: 9 };
  expect(shop.cutList(jobId, partOf('panel', { quantity: 100, lamination: staves })).shown?.job?.id).toBe(jobId);
  expect(shop.cutList(jobId, partOf('panel', { quantity: 400, lamination: staves })).shown).toEqual({});
});

test('the yard counts its boards, offcuts, held boards and open jobs', async () => {
  const { shop, jobId, sessionId } = await oneBoardAtTheSaw();
  const facts = () => {
    const { boards, openJobs, seq } = shop.ask('yard-facts', {});
    expect(seq).toBe(shop.seq());
    return { ...boards, openJobs };
  };
  expect(facts()).toEqual({ inStock: 3, held: 1, offcuts: 0, openJobs: 1 });
  shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-2', toNm: 10 * INCH }] });
  shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-2', fromNm: 20 * INCH }] });
  expect(facts()).toEqual({ inStock: 3, held: 2, offcuts: 0, openJobs: 1 });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(facts()).toEqual({ inStock: 3, held: 1, offcuts: 1, openJobs: 1 });
  shop.tell({ do: 'write-off-board', boardId: shop.board('Q-1-1').id, why: 'rot' });
  const ifVersion = shop.state().get('job', jobId)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId, ifVersion, patch: { state: 'done' } });
  expect(facts()).toEqual({ inStock: 2, held: 0, offcuts: 0, openJobs: 0 });
  shop.takeIn(boardOf('R-1'));
  const rows = [{ row: 0, draft: boardOf('R-2'), isOffcut: true }];
  shop.tell({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
  expect(facts()).toEqual({ inStock: 4, held: 0, offcuts: 1, openJobs: 0 });
  expect(shop.board('R-2').origin).toEqual({ kind: 'offcut', parentId: null, sessionId: null });
});

test('jobs and sessions come newest first, page by page, of one state or one job', async () => {
  const { shop, jobId, planId, sessionId } = await oneBoardAtTheSaw();
  const bench = shop.job('Bench', partOf('rail'));
  const other = shop.atTheSaw(bench, { 'Q-2': [{ key: 'rail' }] });
  shop.tell({ do: 'reconcile', sessionId: other.sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const stool = shop.job('Stool');
  const ifVersion = shop.state().get('job', bench)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId: bench, ifVersion, patch: { state: 'done' } });
  const page = (limit: number, after: string | null = null) => ({ limit, after });
  const jobs = (ask: Parameters<typeof shop.ask<'jobs'>>[1]) => {
    const { items, next } = shop.ask('jobs', ask);
    return [items.map(({ id }) => id), next];
  };
  expect(jobs({ page: page(2) })).toEqual([[stool, bench], bench]);
  expect(jobs({ page: page(2, bench) })).toEqual([[jobId], null]);
  expect(jobs({ page: page(3) })).toEqual([[stool, bench, jobId], null]);
  expect(jobs({ state: 'open', page: page(9) })).toEqual([[stool, jobId], null]);
  expect(jobs({ state: 'done', page: page(9) })).toEqual([[bench], null]);
  const [inHand] = shop.ask('jobs', { state: 'open', page: page(1, stool) }).items;
  expect(inHand).toMatchObject({ heldBoards: 1, standing: { pieces: { planned: 1, wanted: 3 } } });
  const sessions = (ask: Parameters<typeof shop.ask<'sessions'>>[1]) => {
    const { items, next } = shop.ask('sessions', ask);
    return [items.map(({ id, jobName }) => [id, jobName]), next];
  };
  expect(sessions({ page: page(1) })).toEqual([[[other.sessionId, 'Bench']], other.sessionId]);
  expect(sessions({ page: page(1, other.sessionId) })).toEqual([[[sessionId, 'Hall table']], null]);
  expect(sessions({ jobId, page: page(9) })).toEqual([[[sessionId, 'Hall table']], null]);
  expect(sessions({ state: 'closed', page: page(9) })).toEqual([[[other.sessionId, 'Bench']], null]);
  expect(sessions({ jobId: bench, state: 'open', page: page(9) })).toEqual([[], null]);
  expect(shop.ask('plan', { planId })).toMatchObject({
    id: planId,
    jobId,
    state: 'cutting',
    layouts: [{ tag: 'Q-1' }],
  });
  const movements = (ask: Parameters<typeof shop.ask<'movements'>>[1]) => {
    const { items, next } = shop.ask('movements', ask);
    return [items.map(({ seq }) => seq), next];
  };
  const last = shop.seq();
  expect(movements({ page: page(2) })).toEqual([[last, last - 1], String(last - 1)]);
  expect(movements({ page: page(last, String(last - 1)) })).toEqual([
    Array.from({ length: last - 2 }, (_, at) => last - 2 - at),
    null,
  ]);
  const ofStool = shop.ask('movements', { jobId: stool, page: page(9) }).items;
  expect(ofStool.map(({ kind }) => kind)).toEqual(['job-opened']);
  const ofBoard = shop.ask('movements', { boardId: shop.board('Q-3').id, page: page(9) }).items;
  expect(ofBoard.map(({ kind, boardTags }) => [kind, boardTags])).toEqual([['boards-received', ['Q-1', 'Q-2', 'Q-3']]]);
});

test('a question works on the boards it asks for, and on the jobs it names or all that are open', async () => {
  const shop = await Shop.open();
  const [oak = '', , , thin = ''] = shop.takeIn(
    boardOf('O-2'),
    boardOf('O-10', { species: 'White Oak' }),
    boardOf('W-1', { species: 'walnut' }),
    boardOf('O-1', { thicknessNm: INCH / 2 }),
    boardOf('P-1', { species: ' Own Pear ' }),
  );
  const [table, bench, pear] = [
    shop.job('Hall table', partOf('leg')),
    shop.job('Bench', partOf('rail', { species: 'walnut' })),
    shop.job('Box', partOf('lid', { species: 'own pear' })),
  ];
  const closed = shop.job('Old', partOf('leg'));
  const ifVersion = shop.state().get('job', closed)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId: closed, ifVersion, patch: { state: 'done' } });
  const ask = (boards: BoardsWanted, jobIds: readonly string[] | null = []) => {
    const { boards: found, jobs, seq } = shop.ask('snapshot', { jobIds, boards });
    expect(seq).toBe(shop.seq());
    return [found.map(({ tag }) => tag), jobs.map(({ id }) => id)];
  };
  expect(ask({ which: 'all' }, null)).toEqual([
    ['O-1', 'O-2', 'O-10', 'P-1', 'W-1'],
    [table, bench, pear],
  ]);
  expect(ask({ which: 'all' }, [bench, closed])[1]).toEqual([bench, closed]);
  expect(ask({ which: 'named', ids: [thin, oak, 'bd_nothing1'] })).toEqual([['O-1', 'O-2'], []]);
  expect(ask({ which: 'of-jobs', alsoIds: [] }, [table])[0]).toEqual(['O-1', 'O-2', 'O-10']);
  expect(ask({ which: 'of-jobs', alsoIds: [thin] }, [bench])[0]).toEqual(['O-1', 'W-1']);
  expect(ask({ which: 'of-jobs', alsoIds: [] }, [pear])[0]).toEqual(['P-1']);
  expect(ask({ which: 'of-jobs', alsoIds: [] }, null)[0]).toHaveLength(5);
  expect(ask({ which: 'of-parts', parts: [partOf('leg')] })[0]).toEqual(['O-1', 'O-2', 'O-10']);
  expect(ask({ which: 'of-parts', parts: [] })[0]).toEqual([]);
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'O-2', toNm: INCH }] });
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'O-2', fromNm: 50 * INCH }] });
  shop.tell({ do: 'write-off-board', boardId: thin, why: 'rot' });
  const { boards } = shop.ask('snapshot', { jobIds: [], boards: { which: 'named', ids: [thin, oak] } });
  expect(boards.map(({ tag, held }) => [tag, held.map(({ jobName }) => jobName)])).toEqual([
    ['O-2', ['Hall table', 'Bench']],
  ]);
  // To be drawn a board is given whatever became of it.
  const drawn = shop.ask('boards-to-draw', { boardIds: [thin, oak, 'bd_nothing1'] });
  expect(drawn.boards.map(({ tag, state }) => [tag, state]).sort()).toEqual([
    ['O-1', 'written-off'],
    ['O-2', 'in-stock'],
  ]);
  expect(drawn.settings).toEqual(shop.ask('yard-facts', {}).settings);
});

test('a tag’s status is that of the board in stock, or of the last that bore it, tag by tag as asked', async () => {
  const shop = await Shop.open();
  const [first = ''] = shop.takeIn(boardOf('Q-1'));
  shop.tell({ do: 'write-off-board', boardId: first, why: 'rot' });
  const [second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const ids = (...tags: readonly string[]) => shop.ask('tag-status', { tags }).boards.map((board) => board?.id ?? null);
  expect(ids('q-1 ', 'X', 'Q-1')).toEqual([second, null, second]);
  shop.tell({ do: 'write-off-board', boardId: second, why: 'rot' });
  expect(ids('Q-1')).toEqual([second]);
  shop.tell({ do: 'undo', seq: 3 });
  expect(ids('Q-1', 'Q-2')).toEqual([first, shop.board('Q-2').id]);
  // The one written off later is no less gone for it.
  expect(shop.ask('tag-status', { tags: [] })).toEqual({ seq: shop.seq(), boards: [] });
});

test('the shop’s figures are changed on the page that was read, or on whichever is there where nobody says', async () => {
  const shop = await Shop.open();
  const { settings, version } = shop.ask('yard-facts', {});
  const change = (cureHours: number, ifVersion?: number | null) =>
    ({
      do: 'change-settings',
      settings: { ...settings, cureHours },
      ...(ifVersion === undefined ? {} : { ifVersion }),
    }) as const;
  shop.tell(change(10, version));
  expect(shop.refused(change(11, version)).why).toBe('version-stale');
  expect(shop.ask('yard-facts', {}).settings.cureHours).toBe(10);
  shop.tell(change(12, null));
  shop.tell(change(13));
  expect(shop.ask('yard-facts', {})).toMatchObject({ settings: { cureHours: 13 }, version: shop.seq() });
  expect(shop.tell(change(13)).shown?.settings?.version).toBe(shop.seq() - 1);
});
