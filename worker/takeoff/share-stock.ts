/**
 * Shares stock out among needs so that as little as possible stays short: a largest flow (Ford and Fulkerson 1956), first
 * straight and then along shortest paths that give one need's stock to another (Edmonds and Karp 1972).
 */

/** Less than a thousandth of a square millimetre is a sliver from summing fractions. */
const SLIVER_M2 = 1e-9;

export interface Shared {
  /** What each need is left without, in the order given. */
  readonly shortM2: readonly number[];
}

/** Earlier needs and earlier stock go first where it makes no difference. */
export function shareOut(
  needsM2: readonly number[],
  stockM2: readonly number[],
  serves: (stock: number, need: number) => boolean,
): Shared {
  const sharing = new Sharing(needsM2, stockM2, serves);
  sharing.giveStraight();
  sharing.giveAround();
  return { shortM2: sharing.openM2.map((m2) => (m2 > SLIVER_M2 ? m2 : 0)) };
}

class Sharing {
  readonly openM2: number[];
  private readonly leftM2: number[];
  /** By stock: how much of it each need has. */
  readonly givenM2: readonly Map<number, number>[];
  /** Stock that can't be set free any more, and is not looked at again. */
  private readonly closed: Uint8Array;
  private readonly serves: (stock: number, need: number) => boolean;

  constructor(
    needsM2: readonly number[],
    stockM2: readonly number[],
    serves: (stock: number, need: number) => boolean,
  ) {
    this.serves = serves;
    this.openM2 = [...needsM2];
    this.leftM2 = [...stockM2];
    this.givenM2 = stockM2.map(() => new Map());
    this.closed = new Uint8Array(stockM2.length);
  }

  giveStraight(): void {
    for (let need = 0; need < this.openM2.length; need += 1)
      for (let stock = 0; stock < this.leftM2.length && this.open(need) > SLIVER_M2; stock += 1) {
        const m2 = Math.min(this.open(need), this.left(stock));
        if (m2 > SLIVER_M2 && this.serves(stock, need)) this.move(stock, need, m2);
      }
  }

  giveAround(): void {
    for (let need = 0; need < this.openM2.length; need += 1)
      while (this.open(need) > SLIVER_M2) {
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
        if (this.left(stock) > SLIVER_M2) return this.stepsTo({ stock, need }, cameTo);
        for (const [other, m2] of this.givenM2[stock] ?? [])
          if (m2 > SLIVER_M2 && !seenNeeds.has(other)) {
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
    let m2 = Math.min(this.open(start), this.left(last.stock));
    for (const [at, { stock }] of steps.entries()) {
      const holder = steps[at + 1]?.need;
      if (holder !== undefined) m2 = Math.min(m2, this.givenM2[stock]?.get(holder) ?? 0);
    }
    // From the far end: each need gets its new stock before it gives up the old.
    for (const { stock, need } of [...steps].reverse()) this.move(stock, need, m2);
    for (const [at, { stock }] of steps.entries()) {
      const holder = steps[at + 1]?.need;
      if (holder !== undefined) this.move(stock, holder, -m2);
    }
  }

  private move(stock: number, need: number, m2: number): void {
    this.openM2[need] = this.open(need) - m2;
    this.leftM2[stock] = this.left(stock) - m2;
    const given = this.givenM2[stock];
    const nowM2 = (given?.get(need) ?? 0) + m2;
    if (nowM2 > SLIVER_M2) given?.set(need, nowM2);
    else given?.delete(need);
  }

  private open(need: number): number {
    return this.openM2[need] ?? 0;
  }

  private left(stock: number): number {
    return this.leftM2[stock] ?? 0;
  }
}

interface Step {
  readonly stock: number;
  readonly need: number;
}
