/**
 * Whether a cut plan can be trusted. Shares no code with the search: every cut is replayed on the bench, and what lies
 * there at the end must be exactly the pieces and rests that the plan states. An answer is a list of faults, each a
 * sentence with its figures; an empty list is a plan that a saw can make.
 */
import { edgeFaults } from './check-edges.ts';
import { rectArea, rectIsSound, rectText, replayCuts } from './check-replay.ts';
import type { BoardLayout, PlacedBlank, Problem, Rect, RestWorth, Solution, StockBoard } from './problem.ts';

/** Relative; figures of worth are sums of fractions. */
const TOLERANCE = 1e-6;

/** All faults of one board's layout. */
export function checkLayout(problem: Problem, layout: BoardLayout): string[] {
  const board = problem.boards[layout.board];
  if (!board) return [`board ${layout.board}: the problem has only ${problem.boards.length} boards`];
  const faults: string[] = [];
  for (const rect of [...layout.pieces, ...layout.rests])
    if (!rectIsSound(rect)) faults.push(`${rectText(rect)} is not a piece of wood on the grid`);
  if (faults.length > 0) return faults.map((fault) => `board ${board.tag}: ${fault}`);

  for (const [index, piece] of layout.pieces.entries()) faults.push(...pieceFaults(problem, board, piece, index));
  faults.push(...spacingFaults(problem, layout.pieces), ...edgeFaults(board, layout));

  const replay = replayCuts(board, layout.cuts, problem.kerf);
  faults.push(...replay.faults);
  if (problem.maxStages !== null && replay.stages > problem.maxStages)
    faults.push(`takes ${replay.stages} stages of cutting, at most ${problem.maxStages} are allowed`);
  faults.push(...benchFaults(layout, replay.left));

  const whole = BigInt(board.length) * BigInt(board.width);
  const stated = areaOf(layout.pieces) + areaOf(layout.rests) + replay.kerfArea;
  if (whole !== stated)
    faults.push(
      `its face is ${whole}, but pieces, rests and kerf come to ${stated}: ${whole - stated} unaccounted for`,
    );
  return faults.map((fault) => `board ${board.tag}: ${fault}`);
}

/** All faults of a plan: each layout's, and those of the whole. */
export function checkSolution(problem: Problem, solution: Solution): string[] {
  const faults = solution.layouts.flatMap((layout) => checkLayout(problem, layout));
  for (const [index, board] of problem.boards.entries()) {
    const used = solution.layouts.filter((layout) => layout.board === index).length;
    if (board.count !== null && used > board.count)
      faults.push(`board ${board.tag}: cut up ${used} times, there are only ${board.count}`);
  }
  if (problem.objective !== 'value')
    for (const layout of solution.layouts)
      if (layout.pieces.length === 0)
        faults.push(`board ${problem.boards[layout.board]?.tag ?? layout.board}: opened, but nothing is cut from it`);
  faults.push(...quantityFaults(problem, solution), ...matchFaults(problem, solution));
  if (faults.length === 0) faults.push(...figureFaults(problem, solution));
  return faults;
}

/** What a rest is worth: nothing below the smallest size, then more than its area. */
export function restWorth(worth: RestWorth | null, rest: Rect): number {
  if (!worth) return 0;
  const length = rest.to - rest.from;
  const width = rest.right - rest.left;
  if (length < worth.lengthMin || width < worth.widthMin) return 0;
  const longer = (length / worth.lengthRef) ** worth.lengthPower;
  const wider = (width / worth.widthRef) ** worth.widthPower;
  return worth.perArea * length * width * longer * wider;
}

/**
 * What a plan achieves, worked out afresh. value: worth of pieces and of rests. net: the same less the cost of the
 * boards opened. boards: how many are opened.
 */
export function achievedBy(problem: Problem, layouts: readonly BoardLayout[]): number {
  if (problem.objective === 'boards') return layouts.length;
  let sum = 0;
  for (const layout of layouts) {
    for (const piece of layout.pieces) sum += problem.blanks[piece.blank]?.value ?? 0;
    for (const rest of layout.rests) sum += restWorth(problem.rest, rest);
    if (problem.objective === 'net') sum -= problem.boards[layout.board]?.cost ?? 0;
  }
  return sum;
}

function pieceFaults(problem: Problem, board: StockBoard, piece: PlacedBlank, index: number): string[] {
  const blank = problem.blanks[piece.blank];
  if (!blank) return [`piece ${index + 1} is of blank ${piece.blank}, there are only ${problem.blanks.length}`];
  const name = `${blank.part} at ${rectText(piece)}`;
  const faults: string[] = [];
  if (piece.from < 0 || piece.left < 0 || piece.to > board.length || piece.right > board.width)
    faults.push(`${name} reaches outside the board of ${board.length} x ${board.width}`);
  const size = board.fits ? board.fits[piece.blank] : blank;
  const length = piece.to - piece.from;
  const width = piece.right - piece.left;
  if (!size) faults.push(`${name}: this board cannot give it`);
  else if (length !== size.length || width !== size.width)
    faults.push(`${name} is ${length} x ${width}, it must be ${size.length} x ${size.width}`);
  const blocked = board.blocked[blank.quality];
  if (!blocked) faults.push(`${name}: nothing says what quality ${blank.quality} must be clear of`);
  for (const bad of blocked ?? [])
    if (overlap(piece, bad)) faults.push(`${name} touches the bad wood ${rectText(bad)}`);
  return faults;
}

/** Neighbours must leave room for a blade, along or across. */
function spacingFaults(problem: Problem, pieces: readonly PlacedBlank[]): string[] {
  const faults: string[] = [];
  for (const [index, a] of pieces.entries())
    for (const b of pieces.slice(index + 1)) {
      const along = Math.max(b.from - a.to, a.from - b.to);
      const across = Math.max(b.left - a.right, a.left - b.right);
      if (along < 0 && across < 0) faults.push(`pieces overlap: ${rectText(a)} and ${rectText(b)}`);
      else if (along < problem.kerf.crosscut && across < problem.kerf.rip)
        faults.push(
          `no room for the blade between ${rectText(a)} and ${rectText(b)}: ${along} along, ${across} across, ` +
            `a crosscut takes ${problem.kerf.crosscut} and a rip ${problem.kerf.rip}`,
        );
    }
  return faults;
}

/** The bench after the last cut must hold exactly what the layout states. */
function benchFaults(layout: BoardLayout, left: readonly Rect[]): string[] {
  const onBench = new Set(left.map(rectText));
  const faults: string[] = [];
  for (const [kind, rects] of [
    ['piece', layout.pieces],
    ['rest', layout.rests],
  ] as const)
    for (const rect of rects)
      if (!onBench.delete(rectText(rect))) faults.push(`the cuts do not free the ${kind} ${rectText(rect)}`);
  for (const extra of onBench) faults.push(`the cuts leave ${extra}, which the layout does not list`);
  return faults;
}

/** Blanks of one match group lie on one board. */
function matchFaults(problem: Problem, solution: Solution): string[] {
  const homes = new Map<string, Set<number>>();
  for (const [at, layout] of solution.layouts.entries())
    for (const piece of layout.pieces) {
      const group = problem.blanks[piece.blank]?.matchGroup ?? null;
      if (group !== null) homes.set(group, (homes.get(group) ?? new Set()).add(at));
    }
  return [...homes].flatMap(([group, layouts]) => {
    if (layouts.size < 2) return [];
    const tags = [...layouts].map((at) => problem.boards[solution.layouts[at]?.board ?? -1]?.tag ?? '?');
    return [`match group ${group} comes from ${layouts.size} boards (${tags.join(', ')}), it must come from one`];
  });
}

function quantityFaults(problem: Problem, solution: Solution): string[] {
  const faults: string[] = [];
  const placed = problem.blanks.map(() => 0);
  for (const layout of solution.layouts)
    for (const piece of layout.pieces) placed[piece.blank] = (placed[piece.blank] ?? 0) + 1;
  if (solution.placed.length !== placed.length)
    faults.push(`states how many were placed of ${solution.placed.length} blanks, there are ${placed.length}`);
  for (const [index, blank] of problem.blanks.entries()) {
    const count = placed[index] ?? 0;
    if (blank.quantity !== null && count > blank.quantity)
      faults.push(`${blank.part}: ${count} placed, only ${blank.quantity} wanted`);
    if (solution.placed[index] !== count)
      faults.push(`${blank.part}: ${solution.placed[index]} stated as placed, the layouts hold ${count}`);
    if (problem.objective === 'boards' && blank.quantity !== null && count < blank.quantity) {
      const home = problem.boards.find((board) => alwaysGives(board, problem, index));
      if (home)
        faults.push(`${blank.part}: ${count} of ${blank.quantity} placed, though ${home.tag} gives as many as needed`);
    }
  }
  return faults;
}

/** Whether any number of this blank can be had from this kind of board without looking for a place on it. */
function alwaysGives(board: StockBoard, problem: Problem, blankIndex: number): boolean {
  const blank = problem.blanks[blankIndex];
  const size = blank && (board.fits ? board.fits[blankIndex] : blank);
  if (!blank || !size || board.count !== null) return false;
  return size.length <= board.length && size.width <= board.width && board.blocked[blank.quality]?.length === 0;
}

function figureFaults(problem: Problem, solution: Solution): string[] {
  const achieved = achievedBy(problem, solution.layouts);
  const slack = TOLERANCE * Math.max(1, Math.abs(achieved));
  const faults: string[] = [];
  if (!(Math.abs(achieved - solution.achieved) <= slack))
    faults.push(`states ${solution.achieved} as achieved, the layouts come to ${achieved}`);
  const short = problem.objective === 'boards' ? solution.bound - achieved : achieved - solution.bound;
  if (!(short <= slack)) faults.push(`its bound ${solution.bound} is beaten by the ${achieved} that it achieved`);
  return faults;
}

const areaOf = (rects: readonly Rect[]): bigint => rects.reduce((sum, rect) => sum + rectArea(rect), 0n);

const overlap = (a: Rect, b: Rect): boolean => a.from < b.to && b.from < a.to && a.left < b.right && b.left < a.right;
