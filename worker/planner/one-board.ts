/**
 * The best pattern found for one board when every blank is limited. Staged patterns are searched at prices less a
 * penalty for blanks used too often; the penalties learn from round to round, and each round's pattern is made right by
 * dropping what is too many and filling the gaps.
 */
import { fillRests } from './fill.ts';
import type { PlacedBlank, Problem } from './problem.ts';
import type { Random } from './random.ts';
import { type Sections, StagedSearch, sectionsOf, tablesFor } from './staged.ts';
import { placedOf, type View, viewOf } from './view.ts';

export interface Pattern {
  readonly board: number;
  readonly pieces: readonly PlacedBlank[];
  /** Sum of prices asked for. */
  readonly value: number;
}

export interface Depth {
  /** Rounds of learning penalties. */
  readonly rounds: number;
  /** Work allowed for sections in one pass; 0 for two-stage patterns only. */
  readonly sectionWork: number;
  /** Strip starts at most, where a board offers more. */
  readonly starts: number;
}

export class OneBoard {
  readonly board: number;
  readonly view: View;
  readonly #problem: Problem;
  readonly #searches: readonly StagedSearch[];
  readonly #sections: (Sections | null)[];
  work = 0;

  constructor(problem: Problem, board: number, depth: Depth) {
    this.board = board;
    this.#problem = problem;
    const views = [viewOf(problem, board, false), viewOf(problem, board, true)];
    this.view = views[0]!;
    const usable = views.filter((view) => view.items.length > 0);
    this.#searches = usable.map((view) => new StagedSearch(view, depth.starts));
    this.#sections = this.#searches.map((search) => {
      const strips = search.strips.behind.length;
      const room = Math.floor(Math.sqrt((2 * depth.sectionWork) / Math.max(1, strips)));
      const staged = this.#problem.maxStages === null || this.#problem.maxStages >= 4;
      return room >= 6 && staged ? sectionsOf(search.view, room) : null;
    });
  }

  /** Best pattern when copies are unlimited but for what one strip may hold. */
  unlimited(priceOf: Float64Array, limitOf: Int32Array): Pattern {
    let best: { view: View; value: number; spots: readonly import('./view.ts').Spot[] } | null = null;
    this.#searches.forEach((search, index) => {
      const tables = tablesFor(search.view, priceOf, limitOf);
      this.work += tables.chops.length * 20;
      if (tables.chops.at(-1)!.items.length === 0) return;
      const before = search.work;
      const sections = this.#sections[index];
      const found = sections ? search.threeStage(tables, sections) : search.twoStage(tables);
      this.work += search.work - before;
      if (!best || found.value > best.value + 1e-9) best = { view: search.view, ...found };
    });
    const found = best as { view: View; value: number; spots: readonly import('./view.ts').Spot[] } | null;
    if (!found) return { board: this.board, pieces: [], value: 0 };
    return { board: this.board, pieces: found.spots.map((spot) => placedOf(found.view, spot)), value: found.value };
  }

  /** Best pattern found within the limits. */
  limited(priceOf: Float64Array, limitOf: Int32Array, rounds: number, random: Random): Pattern {
    const penalties = new Float64Array(priceOf.length);
    const prices = priceOf.slice();
    let best: Pattern = { board: this.board, pieces: [], value: 0 };
    let bound = Number.POSITIVE_INFINITY;
    let stride = 1;
    let worse = 0;
    for (let round = 0; round < rounds; round++) {
      const found = this.unlimited(prices, limitOf);
      if (found.pieces.length === 0 && round === 0) return best;
      const counts = new Int32Array(priceOf.length);
      for (const piece of found.pieces) counts[piece.blank]!++;
      let relaxed = found.value;
      let excess = 0;
      let slack = 0;
      let norm = 0;
      for (let blank = 0; blank < counts.length; blank++) {
        const over = counts[blank]! - limitOf[blank]!;
        relaxed += penalties[blank]! * limitOf[blank]!;
        if (over > 0) excess += over;
        else slack -= penalties[blank]! * over;
        if (over > 0 || penalties[blank]! > 0) norm += over * over;
      }
      if (relaxed < bound - 1e-9) {
        bound = relaxed;
        worse = 0;
      } else if (++worse >= 3) {
        stride *= 0.6;
        worse = 0;
      }
      const right = this.#madeRight(found.pieces, priceOf, limitOf, counts, random);
      if (right.value > best.value + 1e-9) best = right;
      if ((excess === 0 && slack < 1e-9) || best.value >= bound - 1e-7 || norm === 0) break;
      const step = (stride * (Math.max(bound, relaxed) - best.value + 1e-3 * Math.abs(bound))) / norm;
      for (let blank = 0; blank < counts.length; blank++) {
        const over = counts[blank]! - limitOf[blank]!;
        const next = Math.max(0, penalties[blank]! + step * over);
        penalties[blank] = Math.min(next, Math.max(0, priceOf[blank]!));
        prices[blank] = priceOf[blank]! - penalties[blank]!;
      }
    }
    return best;
  }

  #madeRight(
    pieces: readonly PlacedBlank[],
    priceOf: Float64Array,
    limitOf: Int32Array,
    counts: Int32Array,
    random: Random,
  ): Pattern {
    const left = limitOf.slice();
    const kept: PlacedBlank[] = [];
    const over = counts.map((count, blank) => Math.max(0, count - limitOf[blank]!));
    const seen = counts.slice();
    for (const piece of pieces) {
      // Which copies go is a matter of chance, each as likely as the next.
      const drop = over[piece.blank]! > 0 && random.below(seen[piece.blank]!) < over[piece.blank]!;
      seen[piece.blank]!--;
      if (drop) {
        over[piece.blank]!--;
        continue;
      }
      kept.push(piece);
      left[piece.blank]!--;
    }
    const staged = this.#problem.maxStages !== null;
    const full = staged ? kept : fillRests(this.view, this.#problem.kerf, kept, priceOf, left);
    let value = 0;
    for (const piece of full) value += priceOf[piece.blank]!;
    return { board: this.board, pieces: full, value };
  }
}
