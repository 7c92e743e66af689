/**
 * Makes the pattern of one board with defects better by filling regions of it anew: a small region is taken back and
 * filled by chance, blank after blank in a corner of the clear wood left, and the rests round each in turn. Seldom the
 * best there is for a region, but some hundred thousand are tried in a second. A pattern somewhat worse is kept for a
 * while, less and less so, to get over a hill; and what a scarce blank is worth more than the wood that it takes counts
 * half, since it may be cut elsewhere as well. Numbers lie in flat arrays, which is what makes it quick.
 */
import { clearRects } from './clear-rects.ts';
import { CornerLook, RECT } from './corner-look.ts';
import type { Kerf, PlacedBlank } from './problem.ts';
import type { Random } from './random.ts';
import { RegionPick } from './region-pick.ts';
import type { View } from './view.ts';

export interface RefillTask {
  /** The board, not turned. */
  readonly view: View;
  readonly kerf: Kerf;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: readonly PlacedBlank[];
  /** No pattern is worth more. */
  readonly bound: number;
  readonly workMost: number;
}

export interface Refilled {
  readonly pieces: readonly PlacedBlank[];
  readonly value: number;
  readonly work: number;
}

/** Blanks in a region: at least, and how many more at most. */
const PIECES_LEAST = 1;
const PIECES_MORE = 12;
const PIECES_FEWER = 6;
/** Share of the whole worth that a step may lose at first. */
const HEAT = 0.02;
/** Steps of taking back a region and of settling what was found. */
const TURN_STEP = 60;
/** How much chance says in the order of blanks, at most. */
const NOISE = 0.6;
/** Blanks are ranked by price for this power of their area, one of these. */
const POWERS = [0, 0.6, 1, 1] as const;
/** Orders at hand, and how many fillings go by until one is made anew. */
const ORDERS = 32;
const ORDER_TURNS = 8;
/** Share of the blanks for which many corners are looked at; the others lie in any corner of the smallest clear wood. */
const LOOK_SHARE = 0.3;
/** Of so many blanks one lies in any clear wood that holds it, not in the smallest. */
const ANY_ONE_IN = 5;
/** Share of a scarce blank's worth over that of its wood which it may lose, and how that is rated by the pattern's own. */
const RENT_SHARE = 0.5;
const WOOD_SHARE = 0.8;
/** Turns until scarce blanks are looked up anew. */
const RENT_TURNS = 128;

/** Turns in which the four cuts round a blank may be made: before, behind, below and above it. */
const CROSSCUTS_FIRST = [0, 1, 2, 3] as const;
const RIPS_FIRST = [2, 3, 0, 1] as const;
const TURNS = turnsOf([0, 1, 2, 3]);

const ARENA = 1 << 16;
const RESTS_MOST = 4096;
const REST = 7;

/** Tells of the best so far now and then. */
export function* refillRegions(task: RefillTask, random: Random): Generator<Refilled, Refilled> {
  const filling = new Refilling(task, random);
  let told = 0;
  while (filling.work < task.workMost && filling.best < task.bound - 1e-9) {
    filling.turn();
    if (filling.work > told + task.workMost / 8) {
      told = filling.work;
      yield filling.found();
    }
  }
  return filling.found();
}

class Refilling {
  work = 0;
  best: number;
  readonly #random: Random;
  readonly #workMost: number;
  readonly #kerf: Kerf;
  readonly #pick: RegionPick;
  readonly #look: CornerLook;
  /** By item: blank, size, quality, price and copies left. */
  readonly #blank: Int32Array;
  readonly #along: Int32Array;
  readonly #across: Int32Array;
  readonly #quality: Int32Array;
  readonly #price: Float64Array;
  readonly #left: Int32Array;
  /** What an item counts when a turn is weighed. */
  readonly #weight: Float64Array;
  readonly #rank: Float64Array;
  readonly #orders: Int32Array[] = [];
  #turns = 0;
  #value = 0;
  #bestPieces: readonly PlacedBlank[];
  /** Clear wood of the board, then of the rests in hand. */
  readonly #arena = new Int32Array(ARENA);
  readonly #rectsEnd: number;
  #arenaEnd = 0;
  /** Rests: from, to, left, right, where in the order to go on, and where their clear wood begins and ends. */
  readonly #rests = new Int32Array(RESTS_MOST * REST);
  #restCount = 0;
  /** Least size of what may still be cut. */
  #shortest = 0;
  #narrowest = 0;

  constructor({ view, kerf, prices, limits, start, workMost }: RefillTask, random: Random) {
    this.#random = random;
    this.#workMost = workMost;
    this.#kerf = kerf;
    const { items } = view;
    this.#blank = Int32Array.from(items, (item) => item.blank);
    this.#along = Int32Array.from(items, (item) => item.along);
    this.#across = Int32Array.from(items, (item) => item.across);
    this.#quality = Int32Array.from(items, (item) => item.quality);
    this.#price = Float64Array.from(items, (item) => prices[item.blank]!);
    this.#left = Int32Array.from(items, (item) => limits[item.blank]!);
    this.#weight = new Float64Array(items.length);
    this.#rank = new Float64Array(items.length);
    this.#pick = new RegionPick({ from: 0, to: view.along, left: 0, right: view.across }, kerf);
    this.#look = new CornerLook(view, kerf, prices, limits);
    const itemOf = new Map(items.map((item, index) => [item.blank, index]));
    for (const piece of start) {
      const item = itemOf.get(piece.blank)!;
      this.#left[item]!--;
      this.#value += this.#price[item]!;
      this.#pick.add(item, piece.from, piece.to, piece.left, piece.right);
    }
    this.best = this.#value;
    this.#bestPieces = start;
    let end = 0;
    clearRects(view).forEach((list, quality) => {
      for (let at = 0; at < list.length && end < ARENA / 4; at += 4, end += RECT) {
        for (let side = 0; side < 4; side++) this.#arena[end + side] = list[at + side]!;
        this.#arena[end + 4] = quality;
      }
    });
    this.#rectsEnd = end;
    const paying = Int32Array.from(items.keys()).filter(
      (item) => this.#price[item]! > 0 && this.#limitOf(limits, item) > 0,
    );
    for (let at = 0; at < ORDERS; at++) this.#orders.push(this.#ordered(paying.slice()));
  }

  found(): Refilled {
    return { pieces: this.#bestPieces, value: this.best, work: this.work };
  }

  /** Takes back a region and fills it anew. */
  turn(): void {
    const random = this.#random;
    const pick = this.#pick;
    const left = this.#left;
    const cool = Math.max(0, 1 - this.work / this.#workMost);
    if (this.#turns++ % RENT_TURNS === 0) this.#weigh(cool);
    const more = random.below(2) === 0 ? PIECES_MORE : PIECES_FEWER;
    this.work += TURN_STEP + pick.choose(PIECES_LEAST + random.below(more), random);
    const { inside, insideFrom, count } = pick;
    const insideTo = insideFrom + pick.insideCount;
    let before = 0;
    let weighedBefore = 0;
    for (let at = insideFrom; at < insideTo; at++) {
      const item = pick.item[inside[at]!]!;
      left[item]!++;
      before += this.#price[item]!;
      weighedBefore += this.#weight[item]!;
    }
    this.#fill();
    let after = 0;
    let weighedAfter = 0;
    for (let at = count; at < pick.count; at++) {
      const item = pick.item[at]!;
      after += this.#price[item]!;
      weighedAfter += this.#weight[item]!;
    }
    const value = this.#value + after - before;
    const allowed = HEAT * this.best * cool * cool * -Math.log(1 - random.next());
    if (weighedAfter < weighedBefore - allowed - 1e-9 && value <= this.best + 1e-9) {
      for (let at = count; at < pick.count; at++) left[pick.item[at]!]!++;
      pick.count = count;
      for (let at = insideFrom; at < insideTo; at++) left[pick.item[inside[at]!]!]!--;
      return;
    }
    pick.dropInside();
    this.#value = value;
    if (value > this.best + 1e-9) {
      this.best = value;
      this.#bestPieces = pick.placed(this.#blank);
    }
  }

  /** A blank of which no copy is left counts less the more it is worth than other blanks on as much wood, at first. */
  #weigh(cool: number): void {
    let area = 0;
    for (let at = 0; at < this.#pick.count; at++) area += this.#areaOf(this.#pick.item[at]!);
    const wood = area > 0 ? (WOOD_SHARE * this.#value) / area : 0;
    const share = area > 0 ? RENT_SHARE * cool : 0;
    for (let item = 0; item < this.#weight.length; item++) {
      const price = this.#price[item]!;
      const over = this.#left[item]! > 0 ? 0 : Math.max(0, price - wood * this.#areaOf(item));
      this.#weight[item] = price - share * over;
    }
    this.work += this.#weight.length;
  }

  #areaOf(item: number): number {
    return (this.#along[item]! + this.#kerf.crosscut) * (this.#across[item]! + this.#kerf.rip);
  }

  #limitOf(limits: Int32Array, item: number): number {
    return limits[this.#blank[item]!]!;
  }

  /** Fills the region chosen with pieces, which stand behind those there are. */
  #fill(): void {
    const pick = this.#pick;
    const along = this.#along;
    const across = this.#across;
    const left = this.#left;
    const rests = this.#rests;
    const order = this.#nextOrder();
    this.#shortest = 0x3fffffff;
    this.#narrowest = 0x3fffffff;
    for (let turn = 0; turn < order.length; turn++) {
      const item = order[turn]!;
      if (left[item]! <= 0) continue;
      if (along[item]! < this.#shortest) this.#shortest = along[item]!;
      if (across[item]! < this.#narrowest) this.#narrowest = across[item]!;
    }
    this.#arenaEnd = this.#rectsEnd;
    this.#restCount = 0;
    let looked = order.length;
    this.#push(pick.from, pick.to, pick.left, pick.right, 0, 0, this.#rectsEnd);
    while (this.#restCount > 0) {
      const at = --this.#restCount * REST;
      const long = rests[at + 1]! - rests[at]!;
      const wide = rests[at + 3]! - rests[at + 2]!;
      const a = rests[at + 5]!;
      const z = rests[at + 6]!;
      for (let turn = rests[at + 4]!; turn < order.length; turn++) {
        const item = order[turn]!;
        looked++;
        if (left[item]! <= 0 || along[item]! > long || across[item]! > wide) continue;
        looked += (z - a) >> 4;
        const held = this.#random.below(ANY_ONE_IN) === 0 ? this.#anyOf(item, a, z) : this.#smallest(item, a, z);
        if (held < 0) continue;
        left[item]!--;
        this.#place(item, held, at, turn);
        break;
      }
    }
    this.work += looked;
  }

  /** Any clear wood that holds an item, likewise. */
  #anyOf(item: number, a: number, z: number): number {
    const arena = this.#arena;
    const count = (z - a) / RECT;
    const first = this.#random.below(count);
    for (let turn = 0; turn < count; turn++) {
      const at = a + ((first + turn) % count) * RECT;
      const long = arena[at + 1]! - arena[at]!;
      const wide = arena[at + 3]! - arena[at + 2]!;
      if (long < this.#along[item]! || wide < this.#across[item]!) continue;
      if (arena[at + 4] === this.#quality[item]!) return at;
    }
    return -1;
  }

  /** The smallest clear wood that holds an item; below zero where none does. */
  #smallest(item: number, a: number, z: number): number {
    const arena = this.#arena;
    const along = this.#along[item]!;
    const across = this.#across[item]!;
    const quality = this.#quality[item]!;
    let smallest = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let at = a; at < z; at += RECT) {
      const long = arena[at + 1]! - arena[at]!;
      const wide = arena[at + 3]! - arena[at + 2]!;
      if (long < along || wide < across || long * wide >= least || arena[at + 4] !== quality) continue;
      smallest = at;
      least = long * wide;
    }
    return smallest;
  }

  /** Puts an item into a rest, held by the clear wood given or another, and keeps the rests round it. */
  #place(item: number, held: number, rest: number, turn: number): void {
    const arena = this.#arena;
    const rests = this.#rests;
    const random = this.#random;
    const { crosscut, rip } = this.#kerf;
    const along = this.#along[item]!;
    const across = this.#across[item]!;
    let from = rests[rest]!;
    let to = rests[rest + 1]!;
    let near = rests[rest + 2]!;
    let far = rests[rest + 3]!;
    const a = rests[rest + 5]!;
    const z = rests[rest + 6]!;
    let low: number;
    let below: number;
    let turns: readonly number[];
    if (random.next() < LOOK_SHARE) {
      const look = this.#look;
      const before = look.work;
      look.choose(arena, a, z, along, across, this.#quality[item]!, random);
      this.work += look.work - before;
      low = look.from;
      below = look.left;
      turns = look.crosscutFirst ? CROSSCUTS_FIRST : RIPS_FIRST;
    } else {
      const corner = random.below(8);
      low = (corner & 1) === 0 ? arena[held]! : arena[held + 1]! - along;
      below = (corner & 2) === 0 ? arena[held + 2]! : arena[held + 3]! - across;
      const longest = Math.max(low - from, to - low - along) - crosscut;
      const widest = Math.max(below - near, far - below - across) - rip;
      // As the larger rest or chance will have it.
      if ((corner & 4) === 0) turns = TURNS[random.below(TURNS.length)]!;
      else turns = longest * (far - near) >= widest * (to - from) ? CROSSCUTS_FIRST : RIPS_FIRST;
    }
    const high = low + along;
    const above = below + across;
    this.#pick.add(item, low, high, below, above);
    for (let cut = 0; cut < 4; cut++) {
      const side = turns[cut]!;
      if (side === 0) {
        this.#push(from, low - crosscut, near, far, turn, a, z);
        from = low;
      } else if (side === 1) {
        this.#push(high + crosscut, to, near, far, turn, a, z);
        to = high;
      } else if (side === 2) {
        this.#push(from, to, near, below - rip, turn, a, z);
        near = below;
      } else {
        this.#push(from, to, above + rip, far, turn, a, z);
        far = above;
      }
    }
  }

  /** Keeps a rest with what lies in it of the clear wood from `a` to `z`, where something may still be cut from it. */
  #push(from: number, to: number, near: number, far: number, turn: number, a: number, z: number): void {
    const shortest = this.#shortest;
    const narrowest = this.#narrowest;
    if (to - from < shortest || far - near < narrowest || this.#restCount >= RESTS_MOST) return;
    const arena = this.#arena;
    const first = this.#arenaEnd;
    if (first + z - a > ARENA) return;
    let end = first;
    for (let at = a; at < z; at += RECT) {
      const low = Math.max(arena[at]!, from);
      const high = Math.min(arena[at + 1]!, to);
      if (high - low < shortest) continue;
      const below = Math.max(arena[at + 2]!, near);
      const above = Math.min(arena[at + 3]!, far);
      if (above - below < narrowest) continue;
      arena[end] = low;
      arena[end + 1] = high;
      arena[end + 2] = below;
      arena[end + 3] = above;
      arena[end + 4] = arena[at + 4]!;
      end += RECT;
    }
    this.work += (z - a) >> 3;
    if (end === first) return;
    this.#arenaEnd = end;
    const rests = this.#rests;
    const rest = this.#restCount++ * REST;
    rests[rest] = from;
    rests[rest + 1] = to;
    rests[rest + 2] = near;
    rests[rest + 3] = far;
    rests[rest + 4] = turn;
    rests[rest + 5] = first;
    rests[rest + 6] = end;
  }

  #nextOrder(): Int32Array {
    const order = this.#orders[this.#random.below(ORDERS)]!;
    return this.#turns % ORDER_TURNS === 0 ? this.#ordered(order) : order;
  }

  /** Items in an order made by chance, those that pay most for their wood rather first. */
  #ordered(order: Int32Array): Int32Array {
    const random = this.#random;
    const rank = this.#rank;
    const power = POWERS[random.below(POWERS.length)]!;
    const noise = NOISE * random.next();
    for (const item of order)
      rank[item] = (this.#price[item]! / this.#areaOf(item) ** power) * (1 - noise * random.next());
    order.sort((a, b) => rank[b]! - rank[a]! || a - b);
    this.work += 4 * order.length;
    return order;
  }
}

function turnsOf(sides: readonly number[]): number[][] {
  if (sides.length === 0) return [[]];
  return sides.flatMap((first) => turnsOf(sides.filter((side) => side !== first)).map((rest) => [first, ...rest]));
}
