/** Who may do what. A key is stored as a digest only; comparing takes the same time wherever two digests differ. */
import { type Feed, type KeyView, roleScopes } from '../contract/key.ts';
import { dayOfMs, dayText } from '../wood/day.ts';
import type { Asker, NewKey, Refusal } from './command.ts';
import type { Sql } from './sql.ts';

export interface ApiKey {
  readonly keyId: string;
  readonly label: string;
  readonly scopes: readonly string[];
  readonly feed: Feed | null;
}

export type KeyRow = {
  key_id: string;
  digest: string;
  label: string;
  scopes: string;
  made_at_ms: number;
  revoked_at_ms: number | null;
  expires_at_ms: number | null;
  last_used_at_ms: number | null;
  feed: string | null;
};
export const READ_KEY = 'SELECT * FROM api_key WHERE key_id = ?';
const WRITE_KEY = `INSERT INTO api_key (key_id, digest, label, scopes, made_at_ms, expires_at_ms, feed)
  VALUES (?, ?, ?, ?, ?, ?, ?)`;
const RENEW = 'UPDATE api_key SET digest = ? WHERE key_id = ?';
const USED = 'UPDATE api_key SET last_used_at_ms = ? WHERE key_id = ?';
const KEYS = `SELECT * FROM api_key WHERE coalesce(revoked_at_ms, ?1) >= ?2 AND coalesce(expires_at_ms, ?1) >= ?2
  ORDER BY made_at_ms DESC, key_id LIMIT 1000`;

/** A use is noted once an hour, so that reading costs a write that seldom. */
const USE_NOTED_EVERY_MS = 3_600_000;
/** Keys that ended stay in sight this long. */
const ENDED_SHOWN_MS = 90 * 24 * 3_600_000;

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
  const feed = key.feed ? JSON.stringify(key.feed) : null;
  const scopes = JSON.stringify(key.scopes);
  sql.run(WRITE_KEY, key.keyId, key.digest, key.label, scopes, atMs, key.expiresAtMs ?? null, feed);
}

export function keyRow(sql: Sql, keyId: string): KeyRow | null {
  return sql.row<KeyRow>(READ_KEY, keyId);
}

export const scopesOf = (row: KeyRow) => JSON.parse(row.scopes) as string[];
/**
 * A link code is a key whose one scope is "link"; behind it stands the role that it stands for, or that it is used up. It
 * is not revoked then, so that the same request sent again after a lost answer still finds that answer.
 */
export const USED_UP = 'used-up';

export const works = (row: KeyRow, atMs: number) =>
  row.revoked_at_ms === null && (row.expires_at_ms === null || row.expires_at_ms > atMs);

/** Keys of before there were roles carry scopes alone: the role is the most that they may. */
function roleOf(scopes: readonly string[]): KeyView['role'] {
  if (scopes.includes('link')) return 'link';
  if (scopes.includes('feed')) return 'feed';
  if (scopes.includes('admin')) return 'owner';
  return roleScopes.hand.some((scope) => scope !== 'read' && scopes.includes(scope)) ? 'hand' : 'viewer';
}

export function keyViewOf(row: KeyRow, atMs: number, askedWith: string): KeyView {
  return {
    id: row.key_id,
    label: row.label,
    role: roleOf(scopesOf(row)),
    feed: row.feed === null ? null : (JSON.parse(row.feed) as Feed),
    madeAtMs: row.made_at_ms,
    lastUsedAtMs: row.last_used_at_ms,
    expiresAtMs: row.expires_at_ms,
    revokedAtMs: row.revoked_at_ms,
    works: works(row, atMs) && !scopesOf(row).includes(USED_UP),
    yours: row.key_id === askedWith,
  };
}

/** Newest first. */
export function keyRows(sql: Sql, atMs: number): readonly KeyRow[] {
  return sql.rows<KeyRow>(KEYS, atMs, atMs - ENDED_SHOWN_MS);
}

/**
 * Keys as they were last read. The object is the only writer of its database, so they stay true until it writes keys
 * itself or takes something back; then all are forgotten.
 */
export class KnownKeys {
  readonly #sql: Sql;
  readonly #rows = new Map<string, KeyRow>();

  constructor(sql: Sql) {
    this.#sql = sql;
  }

  /** Unknown ones are looked for each time, so that guesses fill no memory. */
  row(keyId: string): KeyRow | null {
    const known = this.#rows.get(keyId);
    if (known) return known;
    const row = keyRow(this.#sql, keyId);
    if (row) this.#rows.set(keyId, row);
    return row;
  }

  /** The key is kept under the new pepper from now on. */
  renew(row: KeyRow, digest: string): KeyRow {
    this.#sql.run(RENEW, digest, row.key_id);
    const renewed = { ...row, digest };
    this.#rows.set(row.key_id, renewed);
    return renewed;
  }

  noteUse(row: KeyRow, atMs: number): void {
    this.#sql.run(USED, atMs, row.key_id);
    this.#rows.set(row.key_id, { ...row, last_used_at_ms: atMs });
  }

  forget(): void {
    this.#rows.clear();
  }
}

/** The key, or why it may not. An unknown key is compared with a digest of its own length, so it takes no less time. */
export function admit(
  keys: KnownKeys,
  asker: Asker,
  atMs: number,
): { readonly key: ApiKey } | { readonly refusal: Refusal } {
  const row = keys.row(asker.keyId);
  const kept = row?.digest ?? '0'.repeat(asker.digest.length);
  const matches = digestsEqual(asker.digest, kept);
  const matchesFormer = asker.formerDigest !== undefined && digestsEqual(asker.formerDigest, kept);
  if (!row || !(matches || matchesFormer) || row.revoked_at_ms !== null) return { refusal: WRONG_KEY };
  if (!works(row, atMs)) {
    const until = dayText(dayOfMs(row.expires_at_ms ?? 0));
    return { refusal: { why: 'key-expired', detail: `This key ran out on ${until}. Ask the owner for a new one.` } };
  }
  const scopes = scopesOf(row);
  if (!scopes.includes(asker.scope)) {
    return {
      refusal: {
        why: 'not-allowed',
        detail: `The key "${row.label}" may not do this: it needs "${asker.scope}", and has ${scopes.join(', ') || 'nothing'}.`,
      },
    };
  }
  const current = matches ? row : keys.renew(row, asker.digest);
  if (atMs - (row.last_used_at_ms ?? 0) >= USE_NOTED_EVERY_MS) keys.noteUse(current, atMs);
  const feed = row.feed === null ? null : (JSON.parse(row.feed) as Feed);
  return { key: { keyId: row.key_id, label: row.label, scopes, feed } };
}
