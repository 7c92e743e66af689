/** The doctor at its edges: what is sound however odd, what is found in one movement, and how a round is parted. */
import { expect, test } from 'vitest';
import type { Movement } from '../../worker/contract/movement.ts';
import { apply } from '../../worker/yard/apply.ts';
import { checkMovement } from '../../worker/yard/doctor/check-movement.ts';
import { askDoctor } from '../../worker/yard/doctor/doctor.ts';
import { JournalPages } from '../../worker/yard/doctor/journal-pages.ts';
import { checkUp } from './check-up.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

/** Two boards cut in one reconciliation, each with an offcut; a third written off, brought back and corrected. */
async function livedIn() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2', { widthNm: 9 * INCH }), boardOf('Q-3'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'leg' }] });
  const { seq: reconciled } = shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: true,
    boards: [],
    allowExtra: false,
  });
  const third = shop.board('Q-3').id;
  const { seq: writtenOff } = shop.tell({ do: 'write-off-board', boardId: third, why: 'rot' });
  shop.tell({ do: 'undo', seq: writtenOff });
  const ifVersion = shop.board(third).version;
  const { seq: corrected } = shop.tell({
    do: 'correct-board',
    boardId: third,
    ifVersion,
    patch: { lengthNm: 90 * INCH },
  });
  const { sql } = shop.yard;
  const movement = (seq: number): Movement => {
    const found = shop.state().movement(seq);
    if (!found) throw new Error(`no movement ${seq}`);
    return found;
  };
  const words = (changed: Movement) => checkMovement(sql, new JournalPages(sql), changed).map((found) => found.words);
  return { shop, sql, third, reconciled, writtenOff, corrected, movement, words };
}

test('boards cut side by side, and a board that came back and was measured anew, are sound', async () => {
  const { shop, sql, reconciled, movement } = await livedIn();
  expect(movement(reconciled).balances).toHaveLength(2);
  expect(checkUp(sql).findings).toEqual([]);
  shop.expectSound();
});

test('a board that goes without an account is found, whether it was ended or is simply no longer there', async () => {
  const { movement, words, corrected, third } = await livedIn();
  const plain = movement(corrected);
  expect(words(plain)).toEqual([]);
  const as = (was: Record<string, unknown>, now: Record<string, unknown> | null): Movement => ({
    ...plain,
    changes: [{ entity: 'board', id: third, was, now }],
  });
  const gone = [`${third} ended without an account`];
  expect(words(as({ state: 'in-stock' }, null))).toEqual(gone);
  expect(words(as({ state: 'in-stock' }, { state: 'cut-up' }))).toEqual(gone);
  expect(words(as({ state: 'cut-up' }, { state: 'in-stock' }))).toEqual([]);
  expect(words(as({ state: 'in-stock', place: '' }, { state: 'in-stock', place: 'rack 1' }))).toEqual([]);
  // An earlier write-off by hand had no account: all of the board is the write-off.
  expect(words({ ...as({ state: 'in-stock' }, { state: 'written-off' }), kind: 'board-written-off' })).toEqual([]);
  // An undo takes boards out again that the movement before it brought in.
  expect(words({ ...as({ state: 'in-stock' }, null), undoes: corrected - 1 })).toEqual([]);
});

test('an account of less than nothing, of another volume or of other offcuts is told board by board', async () => {
  const { movement, words, reconciled } = await livedIn();
  const plain = movement(reconciled);
  const [first, second] = plain.balances;
  if (!first || !second) throw new Error('no account');
  const withFirst = (over: Partial<typeof first>) => words({ ...plain, balances: [{ ...first, ...over }, second] });
  expect(words(plain)).toEqual([]);
  expect(words({ ...plain, balances: [first] })).toEqual([`${second.boardId} ended without an account`]);
  const less = (nm3: string, by: bigint) => String(BigInt(nm3) + by);
  expect(withFirst({ scrapNm3: '-1', kerfNm3: less(first.kerfNm3, 1n) })).toEqual([
    `the account of ${first.tag} has a volume below zero`,
  ]);
  expect(withFirst({ scrapNm3: '1' })).toEqual([`-1 cubic nanometres of ${first.tag} are not accounted for`]);
  expect(withFirst({ inNm3: less(first.inNm3, 1n), scrapNm3: '1' })).toEqual([
    `the account of ${first.tag} begins with another volume`,
  ]);
  expect(withFirst({ offcutsNm3: less(first.offcutsNm3, -1n), scrapNm3: '1' })).toEqual([
    `the offcuts of ${first.tag} are not the ones of its account`,
  ]);
  const found = withFirst({ boardId: 'bd_nothing0001' });
  expect(found).toContain(`the account of ${first.tag} is of a board that was not there`);
  expect(found).toContain(`${first.boardId} ended without an account`);
});

test('an undo speaks of a movement before it that is there', async () => {
  const { movement, words, writtenOff } = await livedIn();
  const undo = movement(writtenOff + 1);
  expect(undo.undoes).toBe(writtenOff);
  expect(words(undo)).toEqual([]);
  for (const undoes of [undo.seq, undo.seq + 1]) {
    expect(words({ ...undo, undoes })).toEqual([`it undoes movement ${undoes}, which did not come before it`]);
  }
});

test('a touch that is lost, or a board that is not found by it, is told for each thing', async () => {
  const { movement, words, reconciled } = await livedIn();
  const plain = movement(reconciled);
  // The same movement told as another one: nothing leads to it from there.
  const elsewhere = words({ ...plain, seq: plain.seq + 1, balances: [], kind: 'board-written-off' });
  const lost = plain.changes.map(({ entity, id }) => `${entity} ${id} does not lead to it`);
  expect(elsewhere.filter((each) => each.endsWith('does not lead to it'))).toEqual(lost);
});

test('where the tables cannot be asked the database’s own words are the finding, and the round goes on', async () => {
  const { sql, shop } = await livedIn();
  sql.run('DROP TABLE receipt_text');
  expect(askDoctor(sql, { after: 'tables' })).toEqual({
    findings: [{ rule: 'database', what: 'database', words: 'no such table: receipt_text' }],
    looked: { movements: 0, things: 0, receipts: 0 },
    movements: shop.seq(),
    next: 'receipt ',
  });
});

test('a part counts what it looked at: movements, the things that they made, and nothing else', async () => {
  const { sql, shop } = await livedIn();
  const journal = askDoctor(sql, { after: null });
  const { movements } = journal?.looked ?? { movements: 0 };
  expect(journal).toMatchObject({ movements: shop.seq(), next: `movement ${shop.seq()}` });
  expect(movements).toBe(shop.seq());
  const made = new Set(shop.journal().flatMap(({ changes }) => changes.map(({ entity, id }) => `${entity} ${id}`)));
  expect(journal?.looked).toEqual({ movements, things: made.size, receipts: 0 });
  const end = askDoctor(sql, { after: `movement ${shop.seq()}` });
  expect(end).toEqual({ findings: [], looked: { movements: 0, things: 0, receipts: 0 }, movements, next: 'tables' });
  const tables = askDoctor(sql, { after: 'tables' });
  expect(tables).toEqual({
    findings: [],
    looked: { movements: 0, things: 0, receipts: 0 },
    movements,
    next: 'receipt ',
  });
  const answers = askDoctor(sql, { after: 'receipt ' });
  expect(answers).toMatchObject({ looked: { movements: 0, things: 0 }, next: null });
  for (const after of ['movement', 'movement x', 'movement 1 ', `movement ${'1'.repeat(16)}`, 'tables ', ''])
    expect(askDoctor(sql, { after }), after).toBeNull();
});

test('several changes of one thing in one movement are folded in their order', async () => {
  const { sql, shop } = await livedIn();
  const jobId = shop.job('Bench');
  const named = (was: string, now: string) => ({
    entity: 'job' as const,
    id: jobId,
    was: { name: was },
    now: { name: now },
  });
  sql.once(() => {
    apply(shop.state(), {
      seq: shop.seq() + 1,
      atMs: shop.atMs,
      by: 'Owner',
      kind: 'job-changed',
      jobId,
      summary: 'Named twice',
      changes: [named('Bench', 'Long bench'), named('Long bench', 'Short bench')],
      balances: [],
      undoes: null,
    });
    return null;
  });
  expect(checkUp(sql).findings).toEqual([]);
  const pages = new JournalPages(sql);
  const life = pages.lifeOf('job', jobId);
  expect(pages.folded('job', jobId, life)).toEqual(shop.state().get('job', jobId));
  expect(pages.folded('job', jobId, [])).toBeNull();
  expect(pages.page(99)).toBeNull();
  expect(pages.page(shop.seq())).toBe(pages.page(shop.seq()));
});
