/** A whole yard out, page by page, as the lines of contract/archive.ts; and in again, part by part, into an empty yard. */
import {
  ARCHIVE_FORMAT,
  type ArchiveHeader,
  archiveEnd,
  archiveHeader,
  archiveKey,
  archiveMovement,
  type Restored,
} from '../contract/archive.ts';
import { crc32, crcText } from '../contract/checksum.ts';
import { entityFault } from '../contract/entity.ts';
import { apply } from './apply.ts';
import type { Questions, Refusal } from './command.ts';
import { emptyYard } from './schema.ts';
import type { Sql } from './sql.ts';
import { changesText, type JournalRow } from './sql-journal.ts';
import { SqlState } from './sql-state.ts';
import { type YardState, yardRecord } from './state.ts';

type KeyRow = { key_id: string; label: string; scopes: string };
const KEYS = 'SELECT key_id, label, scopes FROM api_key ORDER BY made_at_ms, key_id';
const MOVEMENTS = 'SELECT * FROM journal WHERE seq > ? AND seq <= ? ORDER BY seq';

/** The head of the file, fixed at the last movement of this moment: what comes later is not in it. */
export function askArchiveHead(
  sql: Sql,
  { upToSeq }: Questions['archive-head']['ask'],
): Questions['archive-head']['answer'] {
  const state = new SqlState(sql);
  const header: ArchiveHeader = {
    heartside: 'yard',
    format: ARCHIVE_FORMAT,
    name: yardRecord(state).name,
    movements: Math.min(state.seq(), upToSeq ?? state.seq()),
  };
  const keys = sql.rows<KeyRow>(KEYS).map((row) => ({
    key: { id: row.key_id, label: row.label, scopes: JSON.parse(row.scopes) as string[] },
  }));
  return { text: [header, ...keys].map((line) => `${JSON.stringify(line)}\n`).join(''), movements: header.movements };
}

/** The whole line; changes lie in the database as they stand in the file. */
function lineOf(row: JournalRow, changes: string): string {
  const { seq, at_ms: atMs, by, kind, job_id: jobId, summary } = row;
  const head = JSON.stringify({ seq, atMs, by, kind, jobId, summary }).slice(0, -1);
  return `{"movement":${head},"changes":${changes},"balances":${row.balances},"undoes":${row.undoes}}}\n`;
}

/** Whole movement lines, oldest first, until there are so many characters; at least one movement. */
export function askArchivePage(sql: Sql, ask: Questions['archive-page']['ask']): Questions['archive-page']['answer'] {
  let text = '';
  let lastSeq = ask.afterSeq;
  for (const row of sql.each<JournalRow>(MOVEMENTS, ask.afterSeq, ask.upToSeq)) {
    text += lineOf(row, changesText(sql, row));
    lastSeq = row.seq;
    if (text.length >= ask.chars) break;
  }
  return { text, lastSeq };
}

type RestoringRow = { header: string; crc: number; done: number };
const READ_RESTORING = 'SELECT header, crc, done FROM restoring';
const IS_RESTORING = 'SELECT 1 AS yes FROM restoring WHERE done = 0';
/** Anything but its founding and its keys. */
const HAS_LIVED = "SELECT 1 AS yes FROM journal WHERE kind <> 'yard-founded' AND kind NOT LIKE 'key-%' LIMIT 1";
const WRITE_RESTORING = `INSERT INTO restoring (id, header, crc, done) VALUES (1, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET header = excluded.header, crc = excluded.crc, done = excluded.done`;

export const RESTORING: Refusal = {
  why: 'yard-restoring',
  detail: 'This yard is being restored from a file. Send the rest of the file first; then it takes writes again.',
};

export function isRestoring(sql: Sql): boolean {
  return sql.row(IS_RESTORING) !== null;
}

/** Thrown within the transaction, so that a part with a bad line leaves nothing behind. */
class NotRestored extends Error {
  readonly why: 'archive-broken' | 'yard-not-empty';
  readonly line: number;

  constructor(why: NotRestored['why'], line: number, message: string) {
    super(message);
    this.why = why;
    this.line = line;
  }
}

const encoder = new TextEncoder();

class Restore {
  readonly #sql: Sql;
  #state: YardState;
  readonly #firstLine: number;
  #row: RestoringRow | null;
  #seq: number;
  #line = 0;

  constructor(sql: Sql, firstLine: number) {
    this.#sql = sql;
    this.#state = new SqlState(sql);
    this.#firstLine = firstLine;
    this.#row = sql.row<RestoringRow>(READ_RESTORING);
    this.#seq = this.#state.seq();
  }

  #broken(words: string): NotRestored {
    const line = this.#firstLine + this.#line;
    return new NotRestored('archive-broken', line, `Line ${line} of what was sent: ${words}`);
  }

  #header(): ArchiveHeader {
    if (!this.#row) throw this.#broken('the first line of the file has to come first');
    return archiveHeader.parse(JSON.parse(this.#row.header));
  }

  #begin(header: ArchiveHeader): void {
    if (header.format > ARCHIVE_FORMAT) {
      throw this.#broken(
        `format ${header.format} is newer than this service, which reads up to ${ARCHIVE_FORMAT}; update it`,
      );
    }
    const text = JSON.stringify(header);
    if (this.#row?.header === text && (this.#row.done === 0 || this.#seq === header.movements)) return;
    const isEmpty = this.#row ? this.#row.done === 0 : this.#sql.row(HAS_LIVED) === null;
    if (!isEmpty) {
      const words = `This yard has ${this.#seq} movements of its own; a file is restored into a newly founded yard only.`;
      throw new NotRestored('yard-not-empty', this.#line, words);
    }
    emptyYard(this.#sql);
    this.#state = new SqlState(this.#sql);
    this.#seq = 0;
    this.#row = { header: text, crc: 0, done: 0 };
  }

  #movement(line: string, value: unknown): void {
    const parsed = archiveMovement.safeParse(value);
    if (!parsed.success) throw this.#broken(`not a movement: ${parsed.error.issues[0]?.message ?? ''}`);
    const { movement } = parsed.data;
    const row = this.#row;
    if (!row) throw this.#broken('the first line of the file has to come first');
    if (movement.seq <= this.#seq) return;
    if (movement.seq !== this.#seq + 1) {
      throw this.#broken(`movement ${movement.seq} cannot follow movement ${this.#seq}; a line is missing`);
    }
    try {
      apply(this.#state, movement);
    } catch (cause) {
      throw this.#broken(cause instanceof Error ? cause.message : String(cause));
    }
    for (const { entity, id } of movement.changes) {
      const thing = this.#state.get(entity, id);
      const fault = thing === null ? null : entityFault(entity, id, thing);
      if (fault !== null) throw this.#broken(fault);
    }
    this.#seq = movement.seq;
    this.#row = { ...row, crc: crc32(encoder.encode(`${line}\n`), row.crc) };
  }

  #end(end: { readonly movements: number; readonly crc32: string }): void {
    const { movements } = this.#header();
    if (this.#seq !== movements || end.movements !== movements) {
      throw this.#broken(`the file should have ${movements} movements, and ${this.#seq} came`);
    }
    const row = this.#row;
    if (!row || crcText(row.crc) !== end.crc32)
      throw this.#broken('the checksum differs: the file was changed or damaged');
    this.#row = { ...row, done: 1 };
  }

  take(line: string, at: number): void {
    this.#line = at;
    let value: unknown;
    try {
      value = JSON.parse(line);
    } catch {
      throw this.#broken('not JSON; was the file cut off?');
    }
    const header = archiveHeader.safeParse(value);
    const end = archiveEnd.safeParse(value);
    if (header.success) this.#begin(header.data);
    else if (end.success) this.#end(end.data.end);
    else if (!archiveKey.safeParse(value).success) this.#movement(line, value);
  }

  close(): Restored {
    const header = this.#header();
    const { header: text, crc, done } = this.#row as RestoringRow;
    this.#sql.run(WRITE_RESTORING, text, crc, done);
    return { seq: this.#seq, movements: header.movements, done: done === 1 };
  }
}

/** Puts these lines in, all or none. firstLine is the number of the first among all that were sent, from 1. */
export function restorePart(
  sql: Sql,
  firstLine: number,
  lines: readonly string[],
): { readonly ok: true; readonly restored: Restored } | { readonly ok: false; readonly refusal: Refusal } {
  try {
    return sql.once(() => {
      const restore = new Restore(sql, firstLine);
      for (const [at, line] of lines.entries()) restore.take(line, at);
      return { ok: true as const, restored: restore.close() };
    });
  } catch (cause) {
    if (!(cause instanceof NotRestored)) throw cause;
    return { ok: false, refusal: { why: cause.why, detail: cause.message } };
  }
}
