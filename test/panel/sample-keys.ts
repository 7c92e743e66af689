/** The keys of the sample yard. */
import type { Answer } from '../../worker/contract/wire.ts';

type Key = Answer<'listKeys'>['keys'][number];

const madeAtMs = Date.parse('2026-09-01T08:00:00Z');
const key = (id: string, label: string, over: Partial<Key> = {}): Key => ({
  id,
  label,
  role: 'owner',
  feed: null,
  madeAtMs,
  lastUsedAtMs: Date.parse('2026-11-20T09:00:00Z'),
  expiresAtMs: null,
  revokedAtMs: null,
  works: true,
  yours: false,
  ...over,
});

export const sampleKeys: Key[] = [
  key('owner000', 'first key', { yours: true }),
  key('tablet00', 'Bench tablet by the big window, next to the planer', {
    role: 'hand',
    expiresAtMs: Date.parse('2026-12-24T17:00:00Z'),
  }),
  key('prices00', 'Price sheet', { role: 'feed', feed: { list: 'stock', jobId: null }, lastUsedAtMs: null }),
  key('gone0000', 'Old phone', { role: 'viewer', revokedAtMs: madeAtMs, works: false }),
];
