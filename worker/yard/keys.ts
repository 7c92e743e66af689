/** Who may do what. A key is stored as a digest only; comparing takes the same time wherever two digests differ. */
import type { Asker, NewKey, Refusal } from './command.ts';
import type { Sql } from './sql.ts';

export interface ApiKey {
  readonly keyId: string;
  readonly label: string;
  readonly scopes: readonly string[];
}

type KeyRow = { digest: string; label: string; scopes: string; revoked_at_ms: number | null };
const READ_KEY = 'SELECT digest, label, scopes, revoked_at_ms FROM api_key WHERE key_id = ?';
const WRITE_KEY = 'INSERT INTO api_key (key_id, digest, label, scopes, made_at_ms) VALUES (?, ?, ?, ?, ?)';

export const WRONG_KEY: Refusal = {
  why: 'wrong-key',
  detail: 'This key opens no yard. Check that it was copied whole, or ask the owner for a new one.',
};

/** Reads every character whatever the first difference. Digests are public in length, so that may differ at once. */
export function digestsEqual(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  let difference = 0;
  for (let at = 0; at < a.length; at++) difference |= a.charCodeAt(at) ^ b.charCodeAt(at);
  return difference === 0;
}

export function addKey(sql: Sql, key: NewKey, atMs: number): void {
  sql.run(WRITE_KEY, key.keyId, key.digest, key.label, JSON.stringify(key.scopes), atMs);
}

export function hasKey(sql: Sql, keyId: string): boolean {
  return sql.row(READ_KEY, keyId) !== null;
}

/** The key, or why it may not. An unknown key is compared with a digest of its own length, so it takes no less time. */
export function admit(sql: Sql, asker: Asker): { readonly key: ApiKey } | { readonly refusal: Refusal } {
  const row = sql.row<KeyRow>(READ_KEY, asker.keyId);
  const matches = digestsEqual(asker.digest, row?.digest ?? '0'.repeat(asker.digest.length));
  if (!row || !matches || row.revoked_at_ms !== null) return { refusal: WRONG_KEY };
  const scopes = JSON.parse(row.scopes) as string[];
  if (!scopes.includes(asker.scope)) {
    return {
      refusal: {
        why: 'not-allowed',
        detail: `The key "${row.label}" may not do this: it needs "${asker.scope}", and has ${scopes.join(', ') || 'nothing'}.`,
      },
    };
  }
  return { key: { keyId: asker.keyId, label: row.label, scopes } };
}
