/** What only the real runtime shows: the object's own SQLite, its gates, its eviction, and calls by RPC. */
import { evictDurableObject, runInDurableObject } from 'cloudflare:test';
import { env } from 'cloudflare:workers';
import { expect, test } from 'vitest';
import { boardDraft } from '../../worker/contract/board.ts';
import { crc32 as crc32Of, crcText } from '../../worker/contract/checksum.ts';
import type { Asker, Command, CommandAnswer, QuestionAnswer, Told, YardDoor } from '../../worker/yard/command.ts';

const INCH = 25_400_000;
const owner: Asker = { keyId: 'owner', digest: 'a'.repeat(64), scope: 'admin' };
const occasion = { atMs: Date.parse('2026-03-02T09:00:00Z'), today: '2026-03-02' };
const key = {
  keyId: 'owner',
  digest: 'a'.repeat(64),
  label: 'Owner',
  scopes: ['read', 'stock', 'plan', 'hold', 'admin'],
};

let told = 0;

class Yard {
  readonly door: YardDoor;
  /** The same object, as the tools of the runtime want it. */
  readonly stub: DurableObjectStub;

  constructor(name: string) {
    this.door = env.YARD.getByName(name);
    this.stub = env.YARD.get(env.YARD.idFromName(name));
  }

  found() {
    return this.door.found({ yardId: 'oakyard', name: 'Oak yard', key });
  }

  async send(command: Command, idempotencyKey = `write-${told++}`): Promise<CommandAnswer> {
    const receipt = { idempotencyKey, fingerprint: JSON.stringify(command) };
    return await this.door.command(owner, receipt, command, occasion);
  }

  async tell(command: Command): Promise<Told> {
    const answer = await this.send(command);
    if (!answer.ok) throw new Error(answer.refusal.detail);
    return answer.told;
  }

  takeIn(...tags: readonly string[]): Promise<Told> {
    const rows = tags.map((tag, row) => ({
      row,
      draft: boardDraft.parse({ tag, species: 'cherry', lengthNm: 96 * INCH, widthNm: 6 * INCH, thicknessNm: INCH }),
    }));
    return this.tell({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
  }

  async job(name: string): Promise<string> {
    return (await this.tell({ do: 'open-job', draft: { name, dueOn: null, note: '' } })).jobId ?? '';
  }

  /** Rows of one table, read inside the object. */
  count(table: string): Promise<number> {
    return runInDurableObject(this.stub, (_yard, ctx) => {
      return Number(ctx.storage.sql.exec(`SELECT count(*) AS n FROM ${table}`).one().n);
    });
  }
}

test('a yard that nobody founded knows no key, and asking after it writes nothing', async () => {
  const yard = new Yard('stranger');
  const answer = await yard.send({ do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } });
  expect(answer.ok ? null : answer.refusal.why).toBe('wrong-key');
  expect(await yard.count("sqlite_master WHERE name NOT LIKE '\\_cf%' ESCAPE '\\'")).toBe(0);
});

test('a yard is founded once', async () => {
  const yard = new Yard('once');
  expect(await yard.found()).toEqual({ founded: true });
  expect(await yard.found()).toEqual({ founded: false });
  expect(await yard.count('journal')).toBe(1);
});

test('what was written is there after the object was evicted', async () => {
  const yard = new Yard('evicted');
  await yard.found();
  await yard.takeIn('C-1', 'C-2');
  await evictDurableObject(yard.stub);
  const answer = await yard.door.ask(owner, 'boards', { filter: {}, page: { after: null, limit: 10 } });
  expect(answer.ok && answer.answer?.items.map((board) => board.tag)).toEqual(['C-1', 'C-2']);
});

test('sixteen jobs that reach for the same board at once: one holds it, fifteen are told who does', async () => {
  const yard = new Yard('rush');
  await yard.found();
  await yard.takeIn('C-1');
  const jobs: string[] = [];
  for (let no = 0; no < 16; no++) jobs.push(await yard.job(`Job ${no}`));
  const answers = await Promise.all(jobs.map((jobId) => yard.send({ do: 'reserve', jobId, boards: [{ tag: 'C-1' }] })));
  expect(answers.filter((answer) => answer.ok)).toHaveLength(1);
  const refusals = answers.flatMap((answer) => (answer.ok ? [] : [answer.refusal]));
  expect(refusals.every((refusal) => refusal.why === 'board-held')).toBe(true);
  expect(new Set(refusals.map((refusal) => refusal.conflicts?.[0]?.jobName)).size).toBe(1);
  expect(await yard.count('reservation')).toBe(1);
});

test('a write that fails half-way leaves nothing behind', async () => {
  const yard = new Yard('half');
  await yard.found();
  await yard.takeIn('C-1');
  const before = await yard.count('journal');
  // A draft that no schema let through breaks the table's own check in the second row, after the first was written.
  const good = boardDraft.parse({ tag: 'C-2', species: 'cherry', lengthNm: INCH, widthNm: INCH, thicknessNm: INCH });
  const rows = [good, { ...good, tag: 'C-3', lengthNm: -1 }].map((draft, row) => ({ row, draft }));
  await expect(yard.send({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] }, 'broken')).rejects.toThrow();
  expect(await yard.count('board')).toBe(1);
  expect(await yard.count('journal')).toBe(before);
  expect(await yard.count("receipt WHERE idempotency_key = 'broken'")).toBe(0);
});

test('the database itself keeps the journal as it was written', async () => {
  const yard = new Yard('ink');
  await yard.found();
  const change = (statement: string) =>
    runInDurableObject(yard.stub, (_yard, ctx) => {
      ctx.storage.sql.exec(statement);
    });
  await expect(change("UPDATE journal SET summary = 'nothing happened'")).rejects.toThrow('append-only');
  await expect(change('DELETE FROM journal')).rejects.toThrow('append-only');
});

test('a delivery of 2,000 boards fits, although its movement is longer than a row may be', async () => {
  const yard = new Yard('delivery');
  await yard.found();
  const note = 'surfaced on one face by the mill, ends sealed; '.repeat(10);
  const rows = Array.from({ length: 2_000 }, (_, row) => ({
    row,
    draft: boardDraft.parse({
      tag: `D-${row}`,
      species: 'walnut',
      lengthNm: 96 * INCH,
      widthNm: 6 * INCH,
      thicknessNm: INCH,
      note,
      delivery: note,
    }),
  }));
  const delivered = await yard.tell({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
  expect(delivered.taken).toHaveLength(2_000);
  const answer = await yard.door.ask(owner, 'journal', { afterSeq: delivered.seq - 1, limit: 1 });
  const changes = answer.ok ? answer.answer?.[0]?.changes : undefined;
  expect(changes).toHaveLength(2_000);
  // The platform's limit for one value is 2 MB.
  expect(JSON.stringify(changes).length).toBeGreaterThan(2_000_000);
});

test('the yard’s file goes out and in, and the doctor finds both yards sound', async () => {
  const yard = new Yard('archive-from');
  await yard.found();
  await yard.takeIn('C-1', 'C-2');
  const jobId = await yard.job('Hall table');
  await yard.tell({ do: 'reserve', jobId, boards: [{ tag: 'C-1' }] });
  const head = await yard.door.ask(owner, 'archive-head', {});
  const page = await yard.door.ask(owner, 'archive-page', { afterSeq: 0, upToSeq: 4, chars: 1e6 });
  const movements = page.ok ? (page.answer?.text ?? '') : '';
  const lines = `${head.ok ? head.answer?.text : ''}${movements}`.trimEnd().split('\n');
  const crc32 = crcText(crc32Of(new TextEncoder().encode(movements)));
  const other = new Yard('archive-to');
  await other.found();
  const restored = await other.door.restore(owner, 1, [...lines, JSON.stringify({ end: { movements: 4, crc32 } })]);
  expect(restored).toEqual({ ok: true, restored: { seq: 4, movements: 4, done: true } });
  const again = await other.door.ask(owner, 'archive-page', { afterSeq: 0, upToSeq: 4, chars: 1e6 });
  expect(again).toEqual(page);
  for (const door of [yard.door, other.door]) {
    for (let after: string | null = null, parts = 0; ; parts++) {
      const part: QuestionAnswer<'doctor'> = await door.ask(owner, 'doctor', { after });
      expect(part.ok && part.answer?.findings).toEqual([]);
      after = (part.ok && part.answer?.next) || null;
      if (after !== null) continue;
      expect(parts).toBe(3);
      break;
    }
  }
});
