/** The remembered answers: each is whole and tells of a movement that is there. */
import type { Finding } from '../../contract/doctor.ts';
import { readLongText } from '../long-text.ts';
import type { Remembered } from '../receipts.ts';
import type { Sql } from '../sql.ts';

export const RECEIPTS_A_PART = 500;

const RECEIPTS = `SELECT key_id || '/' || idempotency_key AS id, answer FROM receipt
  WHERE (key_id, idempotency_key) > (?, ?) ORDER BY key_id, idempotency_key LIMIT ?`;
const HAS_MOVEMENT = 'SELECT 1 AS yes FROM journal WHERE seq = ?';

function receiptFault(sql: Sql, id: string, beside: string | null): string | null {
  const text = beside ?? readLongText(sql, 'receipt_text', id);
  if (text === null) return 'its answer is lost';
  let answer: Partial<Remembered>;
  try {
    answer = JSON.parse(text) as Partial<Remembered>;
  } catch {
    return 'its answer cannot be read';
  }
  if (answer.ok === true && answer.told) {
    return sql.row(HAS_MOVEMENT, answer.told.seq)
      ? null
      : `it tells of movement ${answer.told.seq}, which is not there`;
  }
  return answer.ok === false && 'refusal' in answer ? null : 'its answer is neither a yes nor a no';
}

/** after is "key id/idempotency key", or nothing. */
export function checkReceipts(
  sql: Sql,
  after: string,
): { readonly findings: readonly Finding[]; readonly looked: number; readonly last: string } {
  const slash = after.indexOf('/');
  const [keyId, key] = [after.slice(0, slash), after.slice(slash + 1)];
  const rows = sql.rows<{ id: string; answer: string | null }>(RECEIPTS, keyId, key, RECEIPTS_A_PART);
  const findings = rows.flatMap(({ id, answer }): Finding[] => {
    const fault = receiptFault(sql, id, answer);
    return fault === null ? [] : [{ rule: 'receipt', what: `receipt ${id}`, words: fault }];
  });
  return { findings, looked: rows.length, last: rows.at(-1)?.id ?? after };
}
