/**
 * Keys of a yard and its feed links. A key says who may do what; a link lets a spreadsheet's import function read one
 * list and nothing else. The secret of either is shown once, when it is made: the yard keeps a digest only.
 */
import * as z from 'zod';
import { limits } from './limits.ts';
import type { Scope } from './routes.ts';
import * as s from './scalar.ts';

/** owner: everything, keys too. hand: stock, jobs and the saw. viewer: looks. */
export const role = z.enum(['owner', 'hand', 'viewer']);
export type Role = z.output<typeof role>;

export const roleScopes: Readonly<Record<Role, readonly Scope[]>> = {
  owner: ['read', 'stock', 'plan', 'hold', 'admin'],
  hand: ['read', 'stock', 'plan', 'hold'],
  viewer: ['read'],
};

/** stock: boards in stock. held: who holds what. cut-list: where each part of one job stands. */
export const feedList = z.enum(['stock', 'held', 'cut-list']);
export type FeedList = z.output<typeof feedList>;

export const feed = z.strictObject({ list: feedList, jobId: s.jobId.nullable() });
export type Feed = z.output<typeof feed>;

export const keyId = z.string().regex(/^[0-9a-z]{8}$/, 'an id of eight letters and digits');
const label = z
  .string()
  .trim()
  .min(1, 'say whose it is, or where it is used')
  .max(60)
  .regex(/^\P{Cc}*$/u);

export const keyDraft = z.strictObject({
  label,
  role,
  /** How long it works, whole days; null for until it is taken back. */
  days: z.number().int().min(1).max(limits.keyDaysMax).nullable().default(null),
});

export const feedDraft = z.strictObject({
  label,
  list: feedList,
  /** For cut-list: whose. */
  jobId: s.jobId.nullable().default(null),
  days: z.number().int().min(1).max(limits.keyDaysMax).nullable().default(null),
});

/** How long the secret before still works, whole hours: time to carry the new one to where the old one is used. */
export const keyRotation = z.strictObject({ oldHours: z.number().int().min(0).max(168).default(24) });

export const keyView = z.strictObject({
  id: keyId,
  label: z.string(),
  /** link: a code for connecting, not used yet or used up. */
  role: z.enum([...role.options, 'feed', 'link']),
  feed: feed.nullable(),
  madeAtMs: s.atMs,
  /** To the hour; null while nobody used it. */
  lastUsedAtMs: s.atMs.nullable(),
  expiresAtMs: s.atMs.nullable(),
  revokedAtMs: s.atMs.nullable(),
  works: z.boolean(),
  /** The key that this was asked with. */
  yours: z.boolean(),
});
export type KeyView = z.output<typeof keyView>;

/** The key that comes of a link code bears this label and role. */
export const linkCodeDraft = z.strictObject({ label, role });

/** code: eight letters and digits. address: goes with it, and says which yard. */
export const linkCodeMade = z.strictObject({
  code: z.string(),
  address: z.string(),
  endsAtMs: s.atMs,
  key: keyView,
});

export const keyList = z.strictObject({ keys: z.array(keyView) });
/** secret: the whole key, or for a link its whole address. Never to be had again. */
export const keyMade = z.strictObject({ key: keyView, secret: z.string() });
