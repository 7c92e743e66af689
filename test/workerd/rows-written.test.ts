/**
 * What the platform charges a write by: rows written, as the runtime itself counts them, indexes and triggers included.
 * The table of costs in the README is worked out from these.
 */
import { runInDurableObject } from 'cloudflare:test';
import { env } from 'cloudflare:workers';
import { expect, test } from 'vitest';
import { boardDraft } from '../../worker/contract/board.ts';
import { part } from '../../worker/contract/job.ts';
import type { Asker, Command, Told } from '../../worker/yard/command.ts';
import { newId } from '../../worker/yard/new-id.ts';
import { assertBindable, type NotAsync, type Sql, type SqlRow, type SqlValue } from '../../worker/yard/sql.ts';
import { YardCore } from '../../worker/yard/yard-core.ts';

const INCH = 25_400_000;
const NOW = Date.parse('2026-03-02T09:00:00Z');
const owner: Asker = { keyId: 'owner', digest: 'a'.repeat(64), scope: 'admin' };
const key = { ...owner, label: 'Owner', scopes: ['read', 'stock', 'plan', 'hold', 'admin'] };

/** The object's own database, which adds up what the runtime says that each statement wrote. */
class CountingSql implements Sql {
  readonly #storage: DurableObjectStorage;
  written = 0;

  constructor(storage: DurableObjectStorage) {
    this.#storage = storage;
  }

  rows<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): readonly T[] {
    assertBindable(values);
    const cursor = this.#storage.sql.exec<Record<string, SqlValue>>(statement, ...values);
    const rows = cursor.toArray() as readonly SqlRow[] as readonly T[];
    this.written += cursor.rowsWritten;
    return rows;
  }

  row<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): T | null {
    return this.rows<T>(statement, ...values)[0] ?? null;
  }

  each<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): Iterable<T> {
    return this.rows<T>(statement, ...values);
  }

  run(statement: string, ...values: readonly SqlValue[]): void {
    this.rows(statement, ...values);
  }

  once<T>(body: () => NotAsync<T>): T {
    return this.#storage.transactionSync(() => body() as T);
  }
}

const boards = (from: number, count: number) =>
  Array.from({ length: count }, (_, row) => ({
    row,
    draft: boardDraft.parse({
      tag: `Q-${from + row}`,
      species: 'cherry',
      lengthNm: 96 * INCH,
      widthNm: 6 * INCH,
      thicknessNm: INCH,
    }),
  }));
const parts = Array.from({ length: 10 }, (_, no) =>
  part.parse({
    key: `p${no}`,
    label: `Part ${no}`,
    quantity: 2,
    species: 'cherry',
    lengthNm: 20 * INCH,
    widthNm: 3 * INCH,
    thicknessNm: INCH,
    use: 'visible',
  }),
);

test('what a write writes, as the runtime counts it', async () => {
  const counts = await runInDurableObject(env.YARD.get(env.YARD.idFromName('rows')), (_yard, { storage }) => {
    const sql = new CountingSql(storage);
    const core = new YardCore(sql, newId, () => NOW);
    core.found({ yardId: 'oakyard', name: 'Oak yard', key }, NOW);
    const seen: Record<string, number> = {};
    let sent = 0;
    const tell = (what: string, command: Command): Told => {
      sent += 1;
      const before = sql.written;
      const receipt = { idempotencyKey: `write-${sent}`, fingerprint: what };
      const answer = core.command(owner, receipt, command, { atMs: NOW, today: '2026-03-02' });
      if (!answer.ok) throw new Error(answer.refusal.detail);
      seen[what] = sql.written - before;
      return answer.told;
    };
    const takeIn = (from: number, count: number) =>
      ({ do: 'take-in-boards', rows: boards(from, count), allOrNothing: true, faults: [] }) as const;
    // The first write of the hour also notes the key's last use.
    tell('one board, and the use of the key noted', takeIn(1, 1));
    tell('one board', takeIn(2, 1));
    tell('a hundred boards', takeIn(3, 100));
    const { jobId = '' } = tell('a job', { do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } });
    tell('a cut list of ten rows', {
      do: 'set-cut-list',
      jobId,
      parts,
      faults: [],
      allOrNothing: true,
      ifVersion: null,
    });
    const { reservationIds = [] } = tell('a hold of one board', { do: 'reserve', jobId, boards: [{ tag: 'Q-1' }] });
    tell('a hold of ten boards', {
      do: 'reserve',
      jobId,
      boards: Array.from({ length: 10 }, (_, at) => ({ tag: `Q-${10 + at}` })),
    });
    tell('a release', { do: 'release', ids: reservationIds });
    const before = sql.written;
    core.command(owner, { idempotencyKey: 'write-3', fingerprint: 'a hundred boards' }, takeIn(3, 100), {
      atMs: NOW,
      today: '2026-03-02',
    });
    core.ask(owner, 'boards', { filter: {}, page: { after: null, limit: 100 } });
    core.ask(owner, 'yard-facts', {});
    seen['a write sent again, a list and the facts'] = sql.written - before;
    return seen;
  });
  expect(counts).toEqual({
    'one board, and the use of the key noted': 13,
    'one board': 12,
    'a hundred boards': 903,
    'a job': 9,
    'a cut list of ten rows': 47,
    'a hold of one board': 9,
    'a hold of ten boards': 54,
    'a release': 7,
    'a write sent again, a list and the facts': 0,
  });
});
