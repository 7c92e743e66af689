/** The doctor: a yard that was lived in is sound; each rule broken on purpose is named, with the thing. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { DoctorRule } from '../../worker/contract/doctor.ts';
import { askDoctor } from '../../worker/yard/doctor/doctor.ts';
import { checkUp } from './check-up.ts';
import { NodeSql } from './node-sql.ts';
import { RandomHistory } from './random-history.ts';
import { boardOf, memoryCopy, partOf, Shop } from './shop.ts';

test('whatever a shop does, its yard is found sound', async () => {
  await fc.assert(
    fc.asyncProperty(fc.nat(4_294_967_295), async (seed) => {
      const shop = await Shop.open();
      const history = new RandomHistory(shop, seed);
      for (let step = 0; step < 250; step++) history.step();
      const { findings, movements, receipts, things } = checkUp(shop.yard.sql);
      expect(findings).toEqual([]);
      expect(movements).toBe(shop.seq());
      expect(receipts).toBe(shop.yard.sql.row<{ n: number }>('SELECT count(*) AS n FROM receipt')?.n);
      const copy = memoryCopy(shop.yard);
      const present = (['settings', 'board', 'job', 'part', 'plan', 'reservation', 'session'] as const).reduce(
        (sum, kind) => sum + copy.ids(kind).length,
        0,
      );
      expect(things).toBeGreaterThanOrEqual(present);
    }),
    { numRuns: 12 },
  );
}, 60_000);

/** A yard with one of everything: two boards cut, an offcut, a board written off, a plan, holds, an undone movement. */
async function shopOfAll() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'), boardOf('Q-3'), boardOf('Q-4'));
  const job = shop.job('Hall table', partOf('leg', { quantity: 6 }));
  const { planId, sessionId } = shop.atTheSaw(job, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'leg' }] });
  shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: false,
    boards: [{ as: 'planned', boardId: shop.board('Q-1').id, place: '' }],
    allowExtra: false,
  });
  shop.tell({ do: 'write-off-board', boardId: shop.board('Q-4').id, why: 'rot' });
  shop.reserve(job, 'Q-3');
  shop.tell({ do: 'open-job', draft: { name: 'Mistake', dueOn: null, note: '' } });
  shop.tell({ do: 'undo', seq: shop.seq() });
  const ink = ['journal', 'journal_text', 'journal_touch', 'journal_board'];
  for (const table of ink) for (const act of ['update', 'delete']) shop.yard.sql.run(`DROP TRIGGER ${table}_${act}`);
  for (const name of ['overlap', 'overlap_moved']) shop.yard.sql.run(`DROP TRIGGER reservation_${name}`);
  return { shop, planId, sessionId, q1: shop.board('Q-1').id, q3: shop.board('Q-3').id };
}

const seqOf = (kind: string) => `(SELECT max(seq) FROM journal WHERE kind = '${kind}')`;
const inChanges = (seq: string, from: string, to: string) =>
  `UPDATE journal SET changes = replace(changes, '${from}', '${to}') WHERE seq = ${seq}`;

type Break = readonly [what: string, rule: DoctorRule, thing: RegExp, statements: readonly string[]];

const breaks: readonly Break[] = [
  ['a movement is gone', 'journal-numbers', /^movement 3$/, ['DELETE FROM journal WHERE seq = 3']],
  ['the first movement is gone', 'journal-numbers', /^movement 1$/, ['DELETE FROM journal WHERE seq = 1']],
  ['changes are lost', 'movement-form', /^movement 4$/, ['UPDATE journal SET changes = NULL WHERE seq = 4']],
  [
    'changes are cut short',
    'movement-form',
    /^movement 4$/,
    ['UPDATE journal SET changes = substr(changes, 1, 40) WHERE seq = 4'],
  ],
  ['a movement of no kind', 'movement-form', /^movement 3$/, ["UPDATE journal SET kind = 'guessed' WHERE seq = 3"]],
  [
    'a touch is lost',
    'journal-index',
    /^movement 2$/,
    ["DELETE FROM journal_touch WHERE entity = 'board' AND seq = 2"],
  ],
  ['a board is not found by', 'journal-index', /^movement 2$/, ['DELETE FROM journal_board WHERE seq = 2']],
  [
    'a touch too many',
    'journal-index',
    /^board/,
    ["INSERT INTO journal_touch SELECT 'board', id, 3 FROM board WHERE tag_fold = 'q-3'"],
  ],
  ['an undo of the future', 'undo', /^movement/, [`UPDATE journal SET undoes = 900 WHERE kind = 'undone'`]],
  [
    'wood is lost',
    'wood-conserved',
    /^movement/,
    [`UPDATE journal SET balances = replace(balances, '"failedNm3":"0"', '"failedNm3":"1"') WHERE kind = 'reconciled'`],
  ],
  [
    'wood below zero',
    'wood-conserved',
    /^movement/,
    [
      `UPDATE journal SET balances = replace(replace(balances, '"failedNm3":"0"', '"failedNm3":"-5"'), '"writeOffNm3":"0"', '"writeOffNm3":"5"') WHERE kind = 'reconciled'`,
    ],
  ],
  ['no account', 'wood-conserved', /^movement/, [`UPDATE journal SET balances = '[]' WHERE kind = 'reconciled'`]],
  [
    'an offcut grew',
    'wood-conserved',
    /^movement/,
    [
      inChanges(
        seqOf('reconciled'),
        '"widthNm":203200000,"thicknessNm":50800000',
        '"widthNm":203300000,"thicknessNm":50800000',
      ),
    ],
  ],
  [
    'an account of another board',
    'wood-conserved',
    /^movement/,
    [`UPDATE journal SET balances = replace(balances, '"inNm3":"', '"inNm3":"1') WHERE kind = 'reconciled'`],
  ],
  [
    'a thing was changed behind the journal',
    'replay',
    /^board/,
    [`UPDATE board SET body = replace(body, '"place":""', '"place":"moon"') WHERE tag_fold = 'q-3'`],
  ],
  ['a thing is gone', 'replay', /^job/, ['DELETE FROM job']],
  [
    'a thing came from nowhere',
    'replay',
    /^job jb_nowhere0$/,
    [`INSERT INTO job SELECT 'jb_nowhere0', made_seq, state, version, body FROM job LIMIT 1`],
  ],
  [
    'a movement does not follow',
    'replay',
    /^board/,
    [inChanges(seqOf('board-written-off'), '"was":{"state":"in-stock"', '"was":{"state":"cut-up"')],
  ],
  [
    'a thing of another form',
    'form',
    /^board/,
    [`UPDATE board SET body = replace(body, '"species":"white-oak"', '"species":7') WHERE tag_fold = 'q-3'`],
  ],
  ['a thing that cannot be read', 'form', /^board/, [`UPDATE board SET body = 'xx' WHERE tag_fold = 'q-3'`]],
  ['a board is filed wrongly', 'columns', /^board/, [`UPDATE board SET species = 'walnut' WHERE tag_fold = 'q-3'`]],
  ['a plan is filed wrongly', 'columns', /^plan/, [`UPDATE plan SET job_revision = 9`]],
  ['boards are miscounted', 'columns', /^tally$/, ['UPDATE tally SET offcuts = offcuts + 1']],
  [
    'wood is held twice',
    'overlap',
    /^board/,
    [
      `INSERT INTO reservation SELECT 'rs_twice0000', job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version FROM reservation LIMIT 1`,
    ],
  ],
  ['a hold leaves its board', 'fit', /^(reservation|board)/, ['UPDATE reservation SET to_nm = to_nm + 1']],
  [
    'a hold for a job that is done',
    'fit',
    /^(job|reservation)/,
    [`UPDATE job SET state = 'done', body = replace(body, '"state":"open"', '"state":"done"')`],
  ],
  ['a session of a plan that ended', 'fit', /^(session|plan)/, [`UPDATE plan SET state = 'done'`]],
  ['planned pieces of no hold', 'fit', /^part/, ['DELETE FROM reservation']],
  [
    'two boards of one tag',
    'fit',
    /^board/,
    [
      'DROP INDEX board_live_tag',
      `UPDATE board SET tag_fold = 'q-2', body = replace(body, 'Q-3', 'Q-2') WHERE tag_fold = 'q-3'`,
    ],
  ],
  [
    'pieces of a plan overlap',
    'plan',
    /^plan/,
    [`UPDATE plan_text SET text = replace(text, '"fromNm":765175000', '"fromNm":1000000')`],
  ],
  [
    'a piece leaves its board',
    'plan',
    /^plan/,
    [`UPDATE plan_text SET text = replace(text, '"rightNm":203200000', '"rightNm":203300000')`],
  ],
  [
    'a plan miscounts',
    'plan',
    /^plan/,
    [`UPDATE plan_text SET text = replace(text, '"placedCount":', '"placedCount":1')`],
  ],
  ['layouts of no plan', 'plan', /^plan pl_gone$/, [`INSERT INTO plan_text VALUES ('pl_gone', 0, '{}')`]],
  ['an answer is lost', 'receipt', /^receipt owner/, ['UPDATE receipt SET answer = NULL']],
  ['an answer is cut short', 'receipt', /^receipt owner/, ['UPDATE receipt SET answer = substr(answer, 1, 9)']],
  [
    'an answer of a movement that is not',
    'receipt',
    /^receipt owner/,
    [`UPDATE receipt SET answer = replace(answer, '"seq":', '"seq":99')`],
  ],
  [
    'an answer to nothing',
    'receipt',
    /^receipt owner\/nobody$/,
    [`INSERT INTO receipt_text VALUES ('owner/nobody', 0, '{}')`],
  ],
];

for (const [what, rule, thing, statements] of breaks) {
  test(`found: ${what}`, async () => {
    const { shop } = await shopOfAll();
    expect(checkUp(shop.yard.sql).findings).toEqual([]);
    for (const statement of statements) shop.yard.sql.run(statement);
    const { findings } = checkUp(shop.yard.sql);
    const named = findings.filter((each) => each.rule === rule && thing.test(each.what));
    expect(named, JSON.stringify(findings, null, 1)).not.toEqual([]);
    expect(named[0]?.words.length).toBeGreaterThan(5);
  });
}

test('every rule but the file’s own was broken above', () => {
  const broken = new Set(breaks.map(([, rule]) => rule));
  expect([...broken].sort()).toEqual([
    'columns',
    'fit',
    'form',
    'journal-index',
    'journal-numbers',
    'movement-form',
    'overlap',
    'plan',
    'receipt',
    'replay',
    'undo',
    'wood-conserved',
  ]);
});

test('answers are looked at five hundred at a time, and a mark that is none of the doctor’s is told', async () => {
  const shop = await Shop.open();
  const job = { do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } } as const;
  for (let no = 0; no < 500; no++) shop.send(job, `write-${String(no).padStart(4, '0')}`);
  const first = askDoctor(shop.yard.sql, { after: 'receipt ' });
  expect(first).toMatchObject({ looked: { receipts: 500 }, next: 'receipt owner/write-0499' });
  expect(askDoctor(shop.yard.sql, { after: first?.next ?? '' })).toMatchObject({ looked: { receipts: 0 }, next: null });
  expect(askDoctor(shop.yard.sql, { after: 'receipt owner/write-0489' })).toMatchObject({ looked: { receipts: 10 } });
  for (const after of ['receipts', 'a receipt owner/write-0001', `receipt ${'x'.repeat(301)}`]) {
    expect(askDoctor(shop.yard.sql, { after })).toBeNull();
  }
});

test('a damaged database file is found by the database’s own check', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'heartside-doctor-'));
  const path = join(folder, 'yard.sqlite');
  const shop = await Shop.open({ path });
  shop.takeIn(boardOf('Q-1'));
  shop.job('Hall table');
  const root = shop.yard.sql.row<{ rootpage: number }>("SELECT rootpage FROM sqlite_master WHERE name = 'job_order'");
  const pageSize = shop.yard.sql.row<{ page_size: number }>('PRAGMA page_size')?.page_size ?? 0;
  // The index says that it has no row: bytes 3 and 4 of a b-tree page count its cells (SQLite file format, 1.6).
  const bytes = readFileSync(path);
  bytes.writeUInt16BE(0, ((root?.rootpage ?? 0) - 1) * pageSize + 3);
  writeFileSync(path, bytes);
  const { findings } = checkUp(new NodeSql(path));
  rmSync(folder, { recursive: true });
  expect(findings.filter((each) => each.rule === 'database')[0]?.words).toMatch(/on page \d+/);
});

test('the round comes in parts, and writes may come between', async () => {
  const shop = await Shop.open();
  for (let delivery = 0; delivery < 4; delivery++) {
    shop.takeIn(...Array.from({ length: 900 }, (_, no) => boardOf(`D-${delivery}-${no}`)));
  }
  const first = askDoctor(shop.yard.sql, { after: null });
  expect(first).toMatchObject({ findings: [], looked: { movements: 4 }, movements: 5, next: 'movement 4' });
  shop.job('Meanwhile');
  const second = askDoctor(shop.yard.sql, { after: first?.next ?? null });
  expect(second).toMatchObject({ findings: [], looked: { movements: 2, things: 901 }, movements: 6 });
  expect(askDoctor(shop.yard.sql, { after: 'nonsense' })).toBeNull();
});
