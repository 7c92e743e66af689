/**
 * The best pattern found for one board when every blank is limited. Staged patterns are searched at prices less a
 * penalty for blanks used too often; the penalties learn from round to round, and each round's pattern is made right by
 * dropping what is too many and filling the gaps.
 */

import { fillRests } from './fill.ts';
import { fillBar } from './fill-bar.ts';
import type { PlacedBlank, Problem } from './problem.ts';
import type { Random } from './random.ts';
import { rasterOf } from './raster.ts';
import { cutUp, groupsAlong } from './saw-cuts.ts';
import { type Sections, sectionsOf } from './sections.ts';
import { Sheet } from './sheet.ts';
import { type Priced, StagedSearch } from './staged.ts';
import { exactTablesFor, type SharedTables, tablesFor } from './staged-tables.ts';
import { hasNoDefects, placedOf, type Spot, type View, viewOf } from './view.ts';

export interface Pattern {
  readonly board: number;
  readonly pieces: readonly PlacedBlank[];
  /** Sum of prices asked for. */
  readonly value: number;
}

/** Work allowed for sections in one pass; none is for two-stage patterns only. */
const SECTION_WORK = [0, 100_000, 400_000, 2_000_000, 12_000_000] as const;

/** Work allowed for sections near a pattern's own, places for them at least, and among how many they are drawn. */
const NEAR_WORK = 150_000;
const NEAR_LEAST = 8;
const NEAR_AMONG = 120;

/** A sheet whose pass takes more steps is left to staged patterns where many boards are priced. */
const SHEET_PASS_MOST = 2_000_000;
/** And only with so few kinds of boards, since each keeps its tables. */
const SHEET_KINDS_MOST = 4;

/** Longer bars are filled by branching, with so many nodes. */
const BAR_TABLE_MOST = 12_000;
const BAR_NODES = 4000;

/** Three tables a state must stay well under 100 MB. */
const SHEET_STATES_MOST = 4_500_000;

/** And so few counts of blanks kept. */
const SHEET_COUNTS_MOST = 2_000_000;

/** How hard one pass looks: 0 for two stages, then ever more places for sections. */
export type Depth = 0 | 1 | 2 | 3 | 4;

interface Found {
  readonly view: View;
  readonly value: number;
  readonly spots: readonly Spot[];
}

export class OneBoard {
  readonly board: number;
  readonly view: View;
  /** Clear, and no two blanks beside each other. */
  readonly isBar: boolean;
  readonly #problem: Problem;
  readonly #searches: readonly StagedSearch[];
  readonly #sections = new Map<Depth, readonly (Sections | null)[]>();
  #sheet: Sheet | null = null;
  work = 0;

  constructor(problem: Problem, board: number, startsMost: number) {
    this.board = board;
    this.#problem = problem;
    const views = [viewOf(problem, board, false), viewOf(problem, board, true)].map((view) =>
      problem.maxStages === 1 ? fullAcross(view) : view,
    );
    this.view = views[0]!;
    // In one stage a blank as long as the board may be ripped off, so both ways are looked at.
    this.isBar =
      problem.maxStages !== 1 &&
      hasNoDefects(this.view) &&
      this.view.items.every((item) => 2 * item.across > this.view.across);
    if (this.isBar) views.pop();
    if (this.isBar && this.view.along >= BAR_TABLE_MOST) views.pop();
    const usable = views.filter((view) => view.items.length > 0);
    this.#searches = usable.map((view) => new StagedSearch(view, startsMost));
  }

  /** Best pattern when copies are unlimited but for what one strip may hold. shared: tables at just these prices and limits. */
  unlimited(priceOf: Float64Array, limitOf: Int32Array, depth: Depth, shared: SharedTables | null = null): Pattern {
    const bar = this.#bar(priceOf, limitOf);
    if (bar) return bar;
    let best: Found | null = null;
    const sectionsHere = this.#sectionsAt(depth);
    const stages = this.#problem.maxStages ?? Number.POSITIVE_INFINITY;
    this.#searches.forEach((search, index) => {
      const before = search.work;
      const keep = (found: Priced): void => {
        if (!best || found.value > best.value + 1e-9) best = { view: search.view, ...found };
      };
      const sections = sectionsHere[index];
      // A strip of mixed widths takes a rip more than one of just its blanks' width.
      if (stages >= 3) {
        const tables = shared ? shared.of(search) : tablesFor(search.view, priceOf, limitOf);
        if (!shared) for (const table of tables.chops) this.work += (table.items.length * search.view.along) >> 2;
        if (tables.chops.at(-1)!.items.length === 0) return;
        keep(sections && stages >= 4 ? search.threeStage(tables, sections) : search.twoStage(tables));
      }
      if (stages <= 3) {
        const tables = exactTablesFor(search.view, priceOf, limitOf);
        for (const table of tables.chops) this.work += (table.items.length * search.view.along) >> 2;
        if (tables.chops.at(-1)!.items.length === 0) return;
        keep(sections && stages === 3 ? search.threeStage(tables, sections) : search.twoStage(tables));
      }
      this.work += search.work - before;
    });
    const found = best as Found | null;
    if (!found) return { board: this.board, pieces: [], value: 0 };
    return { board: this.board, pieces: found.spots.map((spot) => placedOf(found.view, spot)), value: found.value };
  }

  /** Best pattern found within the limits. */
  limited(
    priceOf: Float64Array,
    limitOf: Int32Array,
    depth: Depth,
    rounds: number,
    random: Random,
    shared: SharedTables | null = null,
  ): Pattern {
    const penalties = new Float64Array(priceOf.length);
    const prices = priceOf.slice();
    let best: Pattern = { board: this.board, pieces: [], value: 0 };
    const sheet = this.#problem.boards.length <= SHEET_KINDS_MOST ? this.sheet(SHEET_PASS_MOST) : null;
    if (sheet && sheet.states * priceOf.length <= SHEET_COUNTS_MOST) {
      const spots = sheet.limited(priceOf, limitOf);
      this.work += sheet.passWork + sheet.states * 10;
      best = this.fromSpots(spots, priceOf, limitOf, random);
    }
    let bound = Number.POSITIVE_INFINITY;
    let stride = 1;
    let worse = 0;
    for (let round = 0; round < rounds; round++) {
      const found = this.unlimited(prices, limitOf, depth, round === 0 ? shared : null);
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

  /** Most that a bar can hold at these prices; null where that was not searched to the end. */
  exactBar(priceOf: Float64Array, limitOf: Int32Array): number | null {
    const { view } = this;
    if (view.along >= BAR_TABLE_MOST) {
      const found = fillBar(view.items, priceOf, limitOf, view.kerfAlong, view.along + view.kerfAlong, 400_000);
      this.work += found.nodes * 4;
      return found.exact ? found.value : null;
    }
    return this.unlimited(priceOf, limitOf, 0).value;
  }

  /** A board one blank wide and clear, in units too fine for tables; null where it is not. */
  #bar(priceOf: Float64Array, limitOf: Int32Array): Pattern | null {
    const { view } = this;
    if (!this.isBar || view.along < BAR_TABLE_MOST) return null;
    const found = fillBar(view.items, priceOf, limitOf, view.kerfAlong, view.along + view.kerfAlong, BAR_NODES);
    this.work += found.nodes * 4 + 1000;
    let along = 0;
    const pieces = found.items.map((item) => {
      const placed = placedOf(view, { item, along, across: 0 });
      along += item.along + view.kerfAlong;
      return placed;
    });
    return { board: this.board, pieces, value: found.value };
  }

  /** The board as a clear sheet for cuts in any number of stages; null where it is not one, or too fine for that. */
  sheet(passMost: number): Sheet | null {
    if (this.#problem.maxStages !== null || this.view.items.length === 0) return null;
    if (!hasNoDefects(this.view)) return null;
    if (this.isBar) return null;
    this.#sheet ??= new Sheet(this.view);
    return this.#sheet.passWork <= passMost && this.#sheet.states <= SHEET_STATES_MOST ? this.#sheet : null;
  }

  /** A pattern from spots in the board's own axes, made right within the limits. */
  fromSpots(spots: readonly Spot[], priceOf: Float64Array, limitOf: Int32Array, random: Random): Pattern {
    const pieces = spots.map((spot) => placedOf(this.view, spot));
    return this.withinLimits(pieces, priceOf, limitOf, random);
  }

  /**
   * From now on depth 2 looks at sections where a pattern has them, and at others by chance. False where there is no
   * need: on a clear board all are looked at.
   */
  lookNear(pieces: readonly PlacedBlank[], random: Random): boolean {
    if (this.#sectionsAt(2).every((sections) => sections === null)) return false;
    if (hasNoDefects(this.view)) return false;
    const { kerf } = this.#problem;
    const sections = this.#searches.map(({ view, strips }) => {
      const axis = view.turned ? 'rip' : 'crosscut';
      const end = view.along + view.kerfAlong;
      const room = Math.floor(Math.sqrt((2 * NEAR_WORK) / Math.max(1, strips.count)));
      const edges = new Set([0, end]);
      for (const group of groupsAlong(pieces, kerf, axis)) {
        edges.add(group.low);
        edges.add(Math.min(group.high + kerf[axis], end));
      }
      const others = sectionsOf(view, NEAR_AMONG).edges;
      const free = Array.from(others, (at) => ({ at, turn: random.next() })).sort((a, b) => a.turn - b.turn);
      for (const { at } of free) if (edges.size < Math.max(NEAR_LEAST, room)) edges.add(at);
      return { edges: Int32Array.from([...edges].sort((a, b) => a - b)) };
    });
    this.#sections.set(2, sections);
    return true;
  }

  #sectionsAt(depth: Depth): readonly (Sections | null)[] {
    let found = this.#sections.get(depth);
    if (!found) {
      found = this.#searches.map((search) => {
        const { view } = search;
        const strips = search.strips.count;
        if ((this.#problem.maxStages ?? 4) < 3 || this.isBar || depth === 0) return null;
        if (hasNoDefects(view)) {
          // Without defects a section is worth what its length is, so every length may be looked at.
          const blades = view.items.map((item) => item.along + view.kerfAlong);
          const edges = rasterOf(blades, view.along + view.kerfAlong).at;
          if ((edges.length * strips) / 4 <= SECTION_WORK[depth]) return { edges };
        }
        const room = Math.floor(Math.sqrt((2 * SECTION_WORK[depth]) / Math.max(1, strips)));
        return room >= 6 ? sectionsOf(view, room) : null;
      });
      this.#sections.set(depth, found);
    }
    return found;
  }

  /** A pattern with no more copies than allowed, gaps filled where a price says so. */
  withinLimits(pieces: readonly PlacedBlank[], priceOf: Float64Array, limitOf: Int32Array, random: Random): Pattern {
    const counts = new Int32Array(priceOf.length);
    for (const piece of pieces) counts[piece.blank]!++;
    return this.#madeRight(pieces, priceOf, limitOf, counts, random);
  }

  /** Those that take no stage too many, in turn. */
  #addedWithinStages(kept: readonly PlacedBlank[], more: readonly PlacedBlank[]): readonly PlacedBlank[] {
    let pieces = kept;
    for (const piece of more) {
      const tried = [...pieces, piece];
      if (this.#withinStages(tried)) pieces = tried;
    }
    return pieces;
  }

  #withinStages(pieces: readonly PlacedBlank[]): boolean {
    const { maxStages, kerf } = this.#problem;
    if (maxStages === null) return true;
    const parted = cutUp({ from: 0, to: this.view.along, left: 0, right: this.view.across }, pieces, kerf, null);
    return parted !== null && parted.stages <= maxStages;
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
    const filled = fillRests(this.view, this.#problem.kerf, kept, priceOf, left);
    const full = this.#withinStages(filled) ? filled : this.#addedWithinStages(kept, filled.slice(kept.length));
    let value = 0;
    for (const piece of full) value += priceOf[piece.blank]!;
    return { board: this.board, pieces: full, value };
  }
}

/** Only blanks as wide as the board: all that cuts in one direction can give. */
function fullAcross(view: View): View {
  return { ...view, items: view.items.filter((item) => item.across === view.across) };
}
