/**
 * The planner's own language: rectangles on a whole-number grid (one unit is a fraction of the shop's tape, or a
 * millimetre), x along the grain, y across the board. It knows no wood: shop.ts translates boards, moisture, warp and
 * quality into what fits where. Parts never turn, since the grain decides.
 */

/** from <= x < to along the grain, left <= y < right across. */
export interface Rect {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
}

export interface Kerf {
  /** Width of the blade's cut along the grain. */
  readonly rip: number;
  /** Width of the blade's cut across the grain. */
  readonly crosscut: number;
}

export interface Blank {
  readonly part: string;
  readonly length: number;
  readonly width: number;
  /** Copies wanted; null takes as many as pay. */
  readonly quantity: number | null;
  /** Worth of one copy. */
  readonly value: number;
  /** 1 is planned first and never given up for a later tier. */
  readonly tier: number;
  /** Index into each board's blocked lists: what this blank must be clear of. */
  readonly quality: number;
  /** Blanks of one group come from one board; whoever sets the problem sees to it by `fits`. null for none. */
  readonly matchGroup: string | null;
}

export interface StockBoard {
  readonly tag: string;
  readonly length: number;
  readonly width: number;
  /** Boards of this very kind; null means as many as needed. */
  readonly count: number | null;
  /** What opening one costs, in the blanks' unit of value. */
  readonly cost: number;
  /** For each quality, the rectangles that a blank of that quality must not touch. Not enlarged by any kerf. */
  readonly blocked: readonly (readonly Rect[])[];
  /**
   * Size that each blank (by index) needs on this board, or null where the board cannot give it at all (too thin, too
   * wet, warped over that length). null altogether: every blank at its own size.
   */
  readonly fits: readonly ({ readonly length: number; readonly width: number } | null)[] | null;
  /** Left out where both long edges are straight. */
  readonly edges?: RoughEdges;
}

/** Where an edge cannot lie against a fence. */
export interface UnevenEdge {
  readonly side: 'left' | 'right';
  readonly from: number;
  readonly to: number;
}

/** Long edges that are not straight. What straightening takes is in `blocked`, for sections as parted here. */
export interface RoughEdges {
  /** How hollow an edge is over the whole length: a straight line over a stretch of it takes (stretch / length)² of that. */
  readonly crook: number;
  readonly uneven: readonly UnevenEdge[];
  /** Crosscuts that come before any rip, near side of the blade: short stretches are less hollow. */
  readonly partedAt: readonly number[];
}

/** What is left may be worth keeping: zero below the smallest size, then growing faster than its area. */
export interface RestWorth {
  readonly lengthMin: number;
  readonly widthMin: number;
  /** Worth of the smallest keepable piece for one unit of its area. */
  readonly perArea: number;
  /** Reference sizes: worth = perArea * area * (length / lengthRef)^lengthPower * (width / widthRef)^widthPower. */
  readonly lengthRef: number;
  readonly lengthPower: number;
  readonly widthRef: number;
  readonly widthPower: number;
}

export interface Problem {
  readonly kerf: Kerf;
  /** Most stages of cutting (a rip after a crosscut is the next stage); null for any number. */
  readonly maxStages: number | null;
  readonly boards: readonly StockBoard[];
  readonly blanks: readonly Blank[];
  /** value: most worth from the boards given. boards: all blanks from the fewest. net: worth less the cost of boards opened, tier by tier. */
  readonly objective: 'value' | 'boards' | 'net';
  readonly rest: RestWorth | null;
  /** What each cut and each setting of fence or stop costs, where cuts are to be saved. Only for net; no bound counts it. */
  readonly cutCost?: number;
}

export interface PlacedBlank extends Rect {
  /** Index into the problem's blanks. */
  readonly blank: number;
}

/** The blade takes at..at + kerf of the stock `of`, edge to edge; what lies outside `of` is air. */
export interface SawCut {
  readonly axis: 'rip' | 'crosscut';
  readonly of: Rect;
  readonly at: number;
  readonly kerf: number;
}

/** One board cut up. Cuts stand in the order of the saw; each cuts a piece of stock that the cuts before it left. */
export interface BoardLayout {
  /** Index into the problem's boards. */
  readonly board: number;
  readonly pieces: readonly PlacedBlank[];
  readonly cuts: readonly SawCut[];
  /** What remains uncut, apart from the pieces: offcuts and scrap, not yet told apart. */
  readonly rests: readonly Rect[];
}

export type Effort = 'quick' | 'normal' | 'long';

export interface Solution {
  readonly layouts: readonly BoardLayout[];
  /** value and net: what was achieved by the objective; boards: how many were opened. */
  readonly achieved: number;
  /** Proven: no plan does better than this (above achieved for value and net, below it for boards). */
  readonly bound: number;
  /** How many of each blank (by index) were placed. */
  readonly placed: readonly number[];
  /** Work done, in the search's own steps: the same for the same input. */
  readonly steps: number;
}

/** How far a search has come. */
export interface Progress {
  /** As in Solution; never worse than in the step before. */
  readonly achieved: number;
  /** As in Solution: proven already, infinite (0 for boards) until something is; never weaker than in the step before. */
  readonly bound: number;
  /** Work done so far, in the search's own steps. */
  readonly stepsDone: number;
  /** Work allowed. A search ends sooner where nothing better can exist or nothing more is to be tried. */
  readonly stepsTotal: number;
  /** The best so far as a whole answer, for whoever stops here. Made when asked for; asked for before the next step. */
  readonly best: () => Solution;
}
