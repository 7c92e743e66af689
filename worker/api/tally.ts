/** Counts and timings by route, of this instance of the service since it started; the log has the same for all of them. */
import * as z from 'zod';

/** Upper ends of the classes of time, milliseconds; the last class is open. */
const CLASS_MS = [5, 20, 100, 500, 2_000] as const;

const routeTally = z.strictObject({
  route: z.string(),
  count: z.number().int(),
  /** How many answers began with 2, 3, 4, 5. */
  byStatus: z.record(z.string(), z.number().int()),
  totalMs: z.number(),
  maxMs: z.number(),
  /** How many took up to 5, 20, 100, 500, 2000 ms, and more. */
  byMs: z.array(z.number().int()),
});
export const tallies = z.strictObject({ sinceMs: z.number(), routes: z.array(routeTally) });
type RouteTally = z.output<typeof routeTally>;

export class Tally {
  readonly #sinceMs: number;
  readonly #byRoute = new Map<string, RouteTally>();

  constructor(sinceMs: number) {
    this.#sinceMs = sinceMs;
  }

  add(route: string, status: number, ms: number): void {
    const now = this.#byRoute.get(route) ?? {
      route,
      count: 0,
      byStatus: {},
      totalMs: 0,
      maxMs: 0,
      byMs: [0, 0, 0, 0, 0, 0],
    };
    const begins = String(status)[0] ?? '';
    const at = CLASS_MS.findIndex((end) => ms <= end);
    this.#byRoute.set(route, {
      route,
      count: now.count + 1,
      byStatus: { ...now.byStatus, [begins]: (now.byStatus[begins] ?? 0) + 1 },
      totalMs: now.totalMs + ms,
      maxMs: Math.max(now.maxMs, ms),
      byMs: now.byMs.map((count, each) => (each === (at < 0 ? CLASS_MS.length : at) ? count + 1 : count)),
    });
  }

  all(): z.output<typeof tallies> {
    const routes = [...this.#byRoute.values()].sort((a, b) => a.route.localeCompare(b.route));
    return { sinceMs: this.#sinceMs, routes };
  }
}
