/**
 * Shares stock out among needs so that as little as possible stays short: a largest flow (Ford and Fulkerson 1956), first
 * straight and then along shortest paths that give one need's stock to another (Edmonds and Karp 1972).
 */

/** Less than a cubic millimetre is a sliver from summing fractions. */
const SLIVER_M3 = 1e-12;

export interface Shared {
  /** What each need is left without, m³, in the order given. */
  readonly shortM3: readonly number[];
  /** Whether anything of each stock was given away. */
  readonly isUsed: readonly boolean[];
}

/** Earlier needs and earlier stock go first where it makes no difference. */
export function shareOut(
  needsM3: readonly number[],
  stockM3: readonly number[],
  serves: (stock: number, need: number) => boolean,
): Shared {
  const sharing = new Sharing(needsM3, stockM3, serves);
  sharing.giveStraight();
  sharing.giveAround();
  return {
    shortM3: sharing.openM3.map((m3) => (m3 > SLIVER_M3 ? m3 : 0)),
    isUsed: sharing.givenM3.map((given) => given.size > 0),
  };
}

class Sharing {
  readonly openM3: number[];
  private readonly leftM3: number[];
  /** By stock: how much of it each need has. */
  readonly givenM3: readonly Map<number, number>[];
  /** Stock that can't be set free any more, and is not looked at again. */
  private readonly closed: Uint8Array;
  private readonly serves: (stock: number, need: number) => boolean;

  constructor(
    needsM3: readonly number[],
    stockM3: readonly number[],
    serves: (stock: number, need: number) => boolean,
  ) {
    this.serves = serves;
    this.openM3 = [...needsM3];
    this.leftM3 = [...stockM3];
    this.givenM3 = stockM3.map(() => new Map());
    this.closed = new Uint8Array(stockM3.length);
  }

  giveStraight(): void {
    for (let need = 0; need < this.openM3.length; need += 1)
      for (let stock = 0; stock < this.leftM3.length && this.open(need) > SLIVER_M3; stock += 1) {
        const m3 = Math.min(this.open(need), this.left(stock));
        if (m3 > SLIVER_M3 && this.serves(stock, need)) this.move(stock, need, m3);
      }
  }

  giveAround(): void {
    for (let need = 0; need < this.openM3.length; need += 1)
      while (this.open(need) > SLIVER_M3) {
        const path = this.pathFrom(need);
        if (path === null) break;
        this.follow(need, path);
      }
  }

  /** Stock to take, each time from the need before it to the one after; the last has some left. */
  private pathFrom(start: number): readonly Step[] | null {
    const seen = Uint8Array.from(this.closed);
    const cameTo = new Map<number, Step>();
    const needs = [start];
    const seenNeeds = new Set(needs);
    for (const need of needs)
      for (let stock = 0; stock < seen.length; stock += 1) {
        if (seen[stock] !== 0 || !this.serves(stock, need)) continue;
        seen[stock] = 1;
        if (this.left(stock) > SLIVER_M3) return this.stepsTo({ stock, need }, cameTo);
        for (const [other, m3] of this.givenM3[stock] ?? [])
          if (m3 > SLIVER_M3 && !seenNeeds.has(other)) {
            seenNeeds.add(other);
            cameTo.set(other, { stock, need });
            needs.push(other);
          }
      }
    this.closed.set(seen);
    return null;
  }

  private stepsTo(last: Step, cameTo: ReadonlyMap<number, Step>): readonly Step[] {
    const steps = [last];
    for (let step = cameTo.get(last.need); step; step = cameTo.get(step.need)) steps.unshift(step);
    return steps;
  }

  private follow(start: number, steps: readonly Step[]): void {
    const last = steps.at(-1);
    if (!last) return;
    let m3 = Math.min(this.open(start), this.left(last.stock));
    for (const [at, { stock }] of steps.entries()) {
      const holder = steps[at + 1]?.need;
      if (holder !== undefined) m3 = Math.min(m3, this.givenM3[stock]?.get(holder) ?? 0);
    }
    // From the far end: each need gets its new stock before it gives up the old.
    for (const { stock, need } of [...steps].reverse()) this.move(stock, need, m3);
    for (const [at, { stock }] of steps.entries()) {
      const holder = steps[at + 1]?.need;
      if (holder !== undefined) this.move(stock, holder, -m3);
    }
  }

  private move(stock: number, need: number, m3: number): void {
    this.openM3[need] = this.open(need) - m3;
    this.leftM3[stock] = this.left(stock) - m3;
    const given = this.givenM3[stock];
    const nowM3 = (given?.get(need) ?? 0) + m3;
    if (nowM3 > SLIVER_M3) given?.set(need, nowM3);
    else given?.delete(need);
  }

  private open(need: number): number {
    return this.openM3[need] ?? 0;
  }

  private left(stock: number): number {
    return this.leftM3[stock] ?? 0;
  }
}

interface Step {
  readonly stock: number;
  readonly need: number;
}
