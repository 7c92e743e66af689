/** Answers by the key that a write came with: the same write sent again gets the same answer and has no second effect. */
import { limits } from '../contract/limits.ts';
import type { CommandAnswer, Receipt } from './command.ts';
import { readLongText, writeLongText } from './long-text.ts';
import type { Sql } from './sql.ts';

const KEPT_MS = 7 * 24 * 3_600_000;
/** Longer answers lie in pieces, apart from their receipt. */
const BESIDE_CHARS = 100_000;
/** So many are forgotten at once, so that no write waits for the tidying of a week. */
const FORGOTTEN_AT_ONCE = 1_000;

const READ = 'SELECT fingerprint, answer FROM receipt WHERE key_id = ? AND idempotency_key = ?';
const WRITE = 'INSERT INTO receipt (key_id, idempotency_key, fingerprint, at_ms, answer) VALUES (?, ?, ?, ?, ?)';
const LAST_TOO_MANY = 'SELECT at_ms FROM receipt ORDER BY at_ms DESC LIMIT 1 OFFSET ?';
const OLD = `SELECT key_id || '/' || idempotency_key AS id FROM receipt WHERE at_ms < ? ORDER BY at_ms LIMIT ?`;
const FORGET_TEXT = 'DELETE FROM receipt_text WHERE id IN (SELECT value FROM json_each(?))';
const FORGET = `DELETE FROM receipt WHERE (key_id, idempotency_key) IN
  (SELECT substr(value, 1, instr(value, '/') - 1), substr(value, instr(value, '/') + 1) FROM json_each(?))`;

/** What was answered: without its replayed mark, which the second answer sets. */
export type Remembered = CommandAnswer extends infer A ? (A extends unknown ? Omit<A, 'replayed'> : never) : never;

function textId(keyId: string, receipt: Receipt): string {
  return `${keyId}/${receipt.idempotencyKey}`;
}

export function recall(sql: Sql, keyId: string, receipt: Receipt): CommandAnswer | null {
  const row = sql.row<{ fingerprint: string; answer: string | null }>(READ, keyId, receipt.idempotencyKey);
  if (!row) return null;
  if (row.fingerprint !== receipt.fingerprint) {
    return {
      ok: false,
      refusal: {
        why: 'idempotency-key-reused',
        detail: 'This Idempotency-Key came before with another request. Take a new key for a new request.',
      },
      replayed: false,
    };
  }
  const text = row.answer ?? readLongText(sql, 'receipt_text', textId(keyId, receipt));
  if (text === null) throw new Error(`receipt ${receipt.idempotencyKey} has lost its answer`);
  return { ...(JSON.parse(text) as Remembered), replayed: true } as CommandAnswer;
}

export function remember(sql: Sql, keyId: string, receipt: Receipt, answer: Remembered, atMs: number): void {
  const text = JSON.stringify(answer);
  const isShort = text.length <= BESIDE_CHARS;
  sql.run(WRITE, keyId, receipt.idempotencyKey, receipt.fingerprint, atMs, isShort ? text : null);
  if (!isShort) writeLongText(sql, 'receipt_text', textId(keyId, receipt), text);
}

/** Forgets answers past their week, and the oldest of too many. True when more are left to forget. */
export function forgetOldReceipts(sql: Sql, atMs: number, most: number = limits.receiptsKept): boolean {
  const lastTooMany = sql.row<{ at_ms: number }>(LAST_TOO_MANY, most)?.at_ms ?? Number.NEGATIVE_INFINITY;
  const beforeMs = Math.max(atMs - KEPT_MS, lastTooMany + 1);
  const ids = sql.rows<{ id: string }>(OLD, beforeMs, FORGOTTEN_AT_ONCE).map((row) => row.id);
  if (ids.length === 0) return false;
  sql.run(FORGET_TEXT, JSON.stringify(ids));
  sql.run(FORGET, JSON.stringify(ids));
  return ids.length === FORGOTTEN_AT_ONCE;
}
