/** Answers by the key that a write came with: the same write sent again gets the same answer and has no second effect. */
import type { CommandAnswer, Receipt } from './command.ts';
import { readLongText, writeLongText } from './long-text.ts';
import type { Sql } from './sql.ts';

const KEPT_MS = 7 * 24 * 3_600_000;

const READ = 'SELECT fingerprint FROM receipt WHERE key_id = ? AND idempotency_key = ?';
const WRITE = 'INSERT INTO receipt (key_id, idempotency_key, fingerprint, at_ms) VALUES (?, ?, ?, ?)';
const HAS_OLD = 'SELECT 1 AS yes FROM receipt WHERE at_ms < ? LIMIT 1';
const FORGET_TEXT = `DELETE FROM receipt_text WHERE id IN
  (SELECT key_id || '/' || idempotency_key FROM receipt WHERE at_ms < ?)`;
const FORGET = 'DELETE FROM receipt WHERE at_ms < ?';

/** What was answered: without its replayed mark, which the second answer sets. */
export type Remembered = CommandAnswer extends infer A ? (A extends unknown ? Omit<A, 'replayed'> : never) : never;

function textId(keyId: string, receipt: Receipt): string {
  return `${keyId}/${receipt.idempotencyKey}`;
}

export function recall(sql: Sql, keyId: string, receipt: Receipt): CommandAnswer | null {
  const row = sql.row<{ fingerprint: string }>(READ, keyId, receipt.idempotencyKey);
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
  const text = readLongText(sql, 'receipt_text', textId(keyId, receipt));
  if (text === null) throw new Error(`receipt ${receipt.idempotencyKey} has lost its answer`);
  return { ...(JSON.parse(text) as Remembered), replayed: true } as CommandAnswer;
}

export function remember(sql: Sql, keyId: string, receipt: Receipt, answer: Remembered, atMs: number): void {
  sql.run(WRITE, keyId, receipt.idempotencyKey, receipt.fingerprint, atMs);
  writeLongText(sql, 'receipt_text', textId(keyId, receipt), JSON.stringify(answer));
}

export function forgetOldReceipts(sql: Sql, atMs: number): void {
  const beforeMs = atMs - KEPT_MS;
  if (!sql.row(HAS_OLD, beforeMs)) return;
  sql.run(FORGET_TEXT, beforeMs);
  sql.run(FORGET, beforeMs);
}
