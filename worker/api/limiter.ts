/**
 * How often one key and one address may ask. The platform counts by its own binding where there is one (per place of
 * the world, and about right: protection, not accounting); else a bucket in this instance does. Both take these rates.
 */
export type RateName = 'read' | 'write' | 'plan' | 'address' | 'failure' | 'link';

/**
 * Requests in PERIOD_S seconds. read, write, plan: by key. address: all of one address. failure: its wrong keys and links.
 * link: link codes tried at one yard, from wherever: 300 in the ten minutes that one of 10^12 codes lives.
 */
export const rates: Readonly<Record<RateName, number>> = {
  read: 300,
  write: 150,
  plan: 30,
  address: 600,
  failure: 30,
  link: 5,
};
export const PERIOD_S = 10;

export interface Limiter {
  /** Counts one request; false when it is one too many. */
  allow(rate: RateName, who: string): Promise<boolean>;
}

/** The platform's rate limiting binding. */
export interface RateLimit {
  limit(options: { readonly key: string }): Promise<{ readonly success: boolean }>;
}

export type RateBindings = { readonly [N in `RATE_${Uppercase<RateName>}`]?: RateLimit };

/** The bindings where they are there; bucket for the rates that have none. */
export function boundLimiter(bindings: RateBindings, bucket: Limiter): Limiter {
  return {
    async allow(rate, who) {
      const bound = bindings[`RATE_${rate.toUpperCase() as Uppercase<RateName>}`];
      return bound ? (await bound.limit({ key: who })).success : bucket.allow(rate, who);
    },
  };
}

interface Bucket {
  tokens: number;
  atMs: number;
}

/** So many callers are remembered; then those whose bucket is full again are forgotten. */
const CALLERS_MAX = 10_000;

/** A token bucket each: full at first, filled again evenly within PERIOD_S. */
export class BucketLimiter implements Limiter {
  readonly #nowMs: () => number;
  readonly #buckets = new Map<string, Bucket>();

  constructor(nowMs: () => number) {
    this.#nowMs = nowMs;
  }

  get callers(): number {
    return this.#buckets.size;
  }

  async allow(rate: RateName, who: string): Promise<boolean> {
    const atMs = this.#nowMs();
    const key = `${rate} ${who}`;
    const before = this.#buckets.get(key);
    const tokens = before ? this.#filled(before, rates[rate], atMs) : rates[rate];
    if (!before && this.#buckets.size >= CALLERS_MAX) this.#forget(atMs);
    const isAllowed = tokens >= 1;
    this.#buckets.set(key, { tokens: isAllowed ? tokens - 1 : tokens, atMs });
    return isAllowed;
  }

  #filled({ tokens, atMs }: Bucket, rate: number, nowMs: number): number {
    return Math.min(rate, tokens + ((nowMs - atMs) / (PERIOD_S * 1_000)) * rate);
  }

  #forget(nowMs: number): void {
    for (const [key, { atMs }] of this.#buckets) {
      if (nowMs - atMs >= PERIOD_S * 1_000) this.#buckets.delete(key);
    }
    // Most of them asked just now: the first half goes too, so that the memory stays bounded and this scan is seldom.
    let over = this.#buckets.size - CALLERS_MAX / 2;
    for (const key of this.#buckets.keys()) {
      if (over <= 0) break;
      this.#buckets.delete(key);
      over -= 1;
    }
  }
}
