/**
 * Making, renewing and taking back keys. The journal says that it happened and to whose key; digests stand in the table
 * of keys alone, so that an export of the journal opens nothing.
 */

import { type Role, roleScopes } from '../contract/key.ts';
import { limits } from '../contract/limits.ts';
import type { MovementKind } from '../contract/movement.ts';
import { dayOfMs, dayText } from '../wood/day.ts';
import type { KeyCommand } from './command.ts';
import { type Decision, moved, notThere, refused } from './decision.ts';
import { addKey, type KeyRow, keyRow, keyViewOf, READ_KEY, scopesOf, USED_UP, works } from './keys.ts';
import { type Sql, soleRow } from './sql.ts';

const HOUR_MS = 3_600_000;
const WORKING = `SELECT count(*) AS n FROM api_key
  WHERE revoked_at_ms IS NULL AND (expires_at_ms IS NULL OR expires_at_ms > ?)`;
const OTHER_OWNERS = `SELECT count(*) AS n FROM api_key WHERE key_id <> ? AND revoked_at_ms IS NULL
  AND expires_at_ms IS NULL AND scopes LIKE '%"admin"%'`;
const REVOKE = 'UPDATE api_key SET revoked_at_ms = ? WHERE key_id = ?';
const END_BY = 'UPDATE api_key SET expires_at_ms = min(coalesce(expires_at_ms, ?1), ?1) WHERE key_id = ?2';
const USE_UP = 'UPDATE api_key SET scopes = ? WHERE key_id = ?';
const JOB = 'SELECT 1 AS yes FROM job WHERE id = ?';

export interface KeyOccasion {
  readonly atMs: number;
  /** The key that asks. */
  readonly askedWith: string;
}

const count = (sql: Sql, statement: string, value: string | number) => soleRow<{ n: number }>(sql, statement, value).n;
const what = (feed: unknown, scopes: readonly string[] = []) =>
  feed ? 'link' : scopes.includes('link') ? 'link code for' : 'key';
const until = (atMs: number | null) => (atMs === null ? '' : `, until ${dayText(dayOfMs(atMs))}`);

function done(sql: Sql, kind: MovementKind, keyId: string, summary: string, occasion: KeyOccasion): Decision {
  const row = soleRow<KeyRow>(sql, READ_KEY, keyId);
  return moved({ kind, summary, changes: [] }, { key: keyViewOf(row, occasion.atMs, occasion.askedWith) });
}

const taken = () =>
  refused('idempotency-key-reused', 'A key was made with this Idempotency-Key before. Take a new one for a new key.');

const isFull = (sql: Sql, atMs: number) => count(sql, WORKING, atMs) >= limits.keysPerYard;
const full = refused(
  'too-many-keys',
  `A yard has ${limits.keysPerYard} keys and links at most. Take back one that is not used.`,
);

/** Whether the yard would be left without an owner's key that has no end. */
function isLastOwner(sql: Sql, row: KeyRow): boolean {
  return row.expires_at_ms === null && scopesOf(row).includes('admin') && count(sql, OTHER_OWNERS, row.key_id) === 0;
}

function make(sql: Sql, { key }: Extract<KeyCommand, { do: 'make-key' }>, occasion: KeyOccasion): Decision {
  if (keyRow(sql, key.keyId)) return taken();
  if (isFull(sql, occasion.atMs)) return full;
  const jobId = key.feed?.jobId ?? null;
  if (jobId !== null && !sql.row(JOB, jobId)) return notThere('job', jobId);
  addKey(sql, key, occasion.atMs);
  const summary = `Made the ${what(key.feed, key.scopes)} "${key.label}"${until(key.expiresAtMs ?? null)}`;
  return done(sql, 'key-made', key.keyId, summary, occasion);
}

function rotate(sql: Sql, command: Extract<KeyCommand, { do: 'rotate-key' }>, occasion: KeyOccasion): Decision {
  const row = keyRow(sql, command.keyId);
  if (!row) return notThere('key', command.keyId);
  if (!works(row, occasion.atMs)) {
    return refused('not-found', `The key "${row.label}" does not work any more. Make a new one instead.`);
  }
  if (keyRow(sql, command.next.keyId)) return taken();
  if (command.oldHours > 0 && isFull(sql, occasion.atMs)) return full;
  const feed = row.feed === null ? null : JSON.parse(row.feed);
  const { label, expires_at_ms: expiresAtMs } = row;
  addKey(sql, { ...command.next, label, scopes: scopesOf(row), expiresAtMs, feed }, occasion.atMs);
  if (command.oldHours === 0) sql.run(REVOKE, occasion.atMs, row.key_id);
  else sql.run(END_BY, occasion.atMs + command.oldHours * HOUR_MS, row.key_id);
  const rest = command.oldHours === 0 ? 'at once' : `in ${command.oldHours} hours`;
  const summary = `Renewed the ${what(feed)} "${label}"; the one before stops ${rest}`;
  return done(sql, 'key-rotated', command.next.keyId, summary, occasion);
}

function revoke(sql: Sql, { keyId }: Extract<KeyCommand, { do: 'revoke-key' }>, occasion: KeyOccasion): Decision {
  const row = keyRow(sql, keyId);
  if (!row || row.revoked_at_ms !== null) return notThere('key', keyId);
  if (isLastOwner(sql, row)) {
    return refused(
      'last-owner-key',
      `"${row.label}" is the only owner's key without an end. Make another first, or nobody could give out keys any more.`,
    );
  }
  sql.run(REVOKE, occasion.atMs, keyId);
  return done(sql, 'key-revoked', keyId, `Took back the ${what(row.feed, scopesOf(row))} "${row.label}"`, occasion);
}

function changeCode(sql: Sql, { next }: Extract<KeyCommand, { do: 'use-link' }>, occasion: KeyOccasion): Decision {
  const row = keyRow(sql, occasion.askedWith);
  const role = row === null ? undefined : scopesOf(row)[1];
  if (row === null || role === undefined || !(role in roleScopes)) {
    return refused('key-expired', 'This link code was used already. Ask for a new one.');
  }
  if (keyRow(sql, next.keyId)) return taken();
  const { label } = row;
  addKey(sql, { ...next, label, scopes: roleScopes[role as Role], expiresAtMs: null }, occasion.atMs);
  sql.run(USE_UP, JSON.stringify(['link', USED_UP]), row.key_id);
  return done(sql, 'key-made', next.keyId, `Connected "${label}" by a link code`, occasion);
}

/** Within the caller's transaction. A refusal has written nothing. */
export function carryOutKeys(sql: Sql, command: KeyCommand, occasion: KeyOccasion): Decision {
  switch (command.do) {
    case 'make-key':
      return make(sql, command, occasion);
    case 'rotate-key':
      return rotate(sql, command, occasion);
    case 'revoke-key':
      return revoke(sql, command, occasion);
    case 'use-link':
      return changeCode(sql, command, occasion);
  }
}

export function isKeyCommand(command: { readonly do: string }): command is KeyCommand {
  return ['make-key', 'rotate-key', 'revoke-key', 'use-link'].includes(command.do);
}
