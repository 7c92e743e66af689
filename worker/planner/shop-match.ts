/**
 * Parts that should come from one board, for colour and grain: which boards can give a whole group, and a problem in
 * which a group can only be cut from the boards chosen for it.
 */
import type { JobWithParts } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import { mostOf } from './offcut-search.ts';
import type { MatchOutcome } from './present.ts';
import type { Problem, Solution } from './problem.ts';
import type { ShopBoard } from './shop-board.ts';
import type { Candidate, ShopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';

export interface MatchGroup {
  readonly name: string;
  /** Indices of its kinds among the wanted. */
  readonly kinds: readonly number[];
  readonly pieceCount: number;
  /** Boards that gave pieces of it before. */
  readonly cutFrom: ReadonlySet<string>;
}

/** Boards, by index, that give a whole group between them: one board wherever one can. */
export type Home = readonly number[];

/** Boards looked at for one group, nearest fits first. */
const BOARDS_TRIED = 24;
/** A group that takes more boards than this is as good as scattered. */
const BOARDS_SHARING = 3;

/** Groups with more than one piece, counting those cut before; pieces of another wood are another group. */
export function matchGroups(wanted: readonly Wanted[], job: Pick<JobWithParts, 'parts'>): readonly MatchGroup[] {
  const kindsOf = new Map<string, number[]>();
  for (const [kind, { part, wood }] of wanted.entries()) {
    if (part.matchGroup === null || part.matchGroup === '') continue;
    const key = `${wood.key}\n${part.matchGroup}`;
    kindsOf.set(key, [...(kindsOf.get(key) ?? []), kind]);
  }
  return [...kindsOf.values()]
    .map((kinds): MatchGroup => {
      const name = wanted[kinds[0] ?? 0]?.part.matchGroup ?? '';
      const pieceCount = kinds.reduce((sum, kind) => sum + (wanted[kind]?.pieces.length ?? 0), 0);
      return { name, kinds, pieceCount, cutFrom: boardsCutFrom(job, name) };
    })
    .filter((group) => group.pieceCount + group.cutFrom.size > 1);
}

function boardsCutFrom(job: Pick<JobWithParts, 'parts'>, name: string): ReadonlySet<string> {
  const pieces = job.parts.filter((part) => part.matchGroup === name).flatMap((part) => part.pieces);
  const cut = pieces.filter((piece) => piece.state !== 'wanted' && piece.state !== 'failed');
  return new Set(cut.flatMap((piece) => piece.boardId ?? []));
}

/** The board itself, or an offcut of it. */
export function isSister({ board }: ShopBoard, cutFrom: ReadonlySet<string>): boolean {
  const parentId = board.origin.kind === 'offcut' ? board.origin.parentId : null;
  return cutFrom.has(board.id) || (parentId !== null && cutFrom.has(parentId));
}

/**
 * Homes of a group, best first: wood of a board that gave pieces of it before, then the nearest fits. Where no board gives
 * the whole group, the fewest that do; empty where that takes too many.
 */
export function homesOf(
  group: MatchGroup,
  wanted: readonly Wanted[],
  candidates: readonly Candidate[],
  settings: Settings,
): readonly Home[] {
  const asks = group.kinds.flatMap((kind) => wanted[kind] ?? []);
  const ranked = candidates
    .map((candidate, index) => ({ ...candidate, index, fits: group.kinds.map((kind) => candidate.fits[kind] ?? null) }))
    .filter(({ fits }) => fits.some((fit) => fit !== null))
    .sort((a, b) => rank(a.on, group) - rank(b.on, group) || faceOf(a.on) - faceOf(b.on) || a.index - b.index);
  const whole = ranked
    .filter(({ on, fits }) => areaAsked(asks, fits) <= faceOf(on))
    .slice(0, BOARDS_TRIED)
    .filter((candidate) => total(mostOf(asks, candidate, settings)) === group.pieceCount)
    .map(({ index }): Home => [index]);
  return whole.length > 0 ? whole : sharedHome(asks, ranked, settings);
}

/** Taking the board that gives most, and again for what is left. */
function sharedHome(
  asks: readonly Wanted[],
  ranked: readonly (Candidate & { readonly index: number })[],
  settings: Settings,
): readonly Home[] {
  const byFace = [...ranked].sort((a, b) => faceOf(b.on) - faceOf(a.on)).slice(0, BOARDS_TRIED);
  const home: number[] = [];
  let left = asks.map(({ pieces }) => pieces.length);
  while (home.length < BOARDS_SHARING && total(left) > 0) {
    const open = asks.flatMap((one, kind) => (left[kind] ? [{ one, kind }] : []));
    let best: { readonly index: number; readonly counts: readonly number[] } | null = null;
    for (const { index, fits, ...rest } of byFace) {
      if (home.includes(index)) continue;
      const some = open.map(({ one, kind }) => ({ ...one, pieces: one.pieces.slice(0, left[kind]) }));
      const counts = mostOf(some, { ...rest, fits: open.map(({ kind }) => fits[kind] ?? null) }, settings);
      if (!best || total(counts) > total(best.counts)) best = { index, counts };
    }
    if (!best || total(best.counts) === 0) return [];
    home.push(best.index);
    for (const [at, count] of best.counts.entries()) {
      const kind = open[at]?.kind ?? 0;
      left = left.map((still, each) => (each === kind ? still - count : still));
    }
  }
  return total(left) === 0 ? [home] : [];
}

const total = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);

function areaAsked(asks: readonly Wanted[], fits: Candidate['fits']): number {
  return asks.reduce((sum, { pieces, finished }, kind) => {
    if (!fits[kind]) return Number.POSITIVE_INFINITY;
    return sum + pieces.length * finished.lengthNm * finished.widthNm;
  }, 0);
}

const faceOf = (on: ShopBoard): number => (on.trimmed ? on.trimmed.toNm - on.trimmed.fromNm : 0) * on.board.widthNm;

function rank(on: ShopBoard, { cutFrom }: MatchGroup): number {
  return (isSister(on, cutFrom) ? 0 : 4) + (on.held.length > 0 ? 2 : 0) + (on.board.origin.kind === 'offcut' ? 0 : 1);
}

/** The same problem with each group cut from its home only; null leaves a group free. */
export function keptTogether(
  shop: ShopProblem,
  groups: readonly MatchGroup[],
  homes: readonly (Home | null)[],
): ShopProblem {
  const homeOf = new Map(groups.flatMap(({ kinds }, at) => kinds.map((kind) => [kind, homes[at] ?? null] as const)));
  const boards = shop.problem.boards.map((board, index) => {
    const fits = (board.fits ?? []).map((fit, kind) => {
      const home = homeOf.get(kind);
      return home && !home.includes(index) ? null : fit;
    });
    return { ...board, fits };
  });
  const groupOf = new Map(
    groups.flatMap(({ kinds }, at) =>
      kinds.map((kind) => [kind, homes[at]?.length === 1 ? `group ${at + 1}` : null] as const),
    ),
  );
  const blanks = shop.problem.blanks.map((blank, kind) => ({ ...blank, matchGroup: groupOf.get(kind) ?? null }));
  const problem: Problem = { ...shop.problem, boards, blanks };
  return { ...shop, problem };
}

/** How the groups of any plan match. */
export function matchesIn(
  { wanted }: ShopProblem,
  candidates: readonly Candidate[],
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
  { layouts }: Pick<Solution, 'layouts'>,
): readonly MatchOutcome[] {
  return matchGroups(wanted, job).map((group) => {
    const from = layouts.filter(({ pieces }) => pieces.some(({ blank }) => group.kinds.includes(blank)));
    return {
      group,
      isKept: from.length < 2,
      hasHome: homesOf(group, wanted, candidates, settings)[0]?.length === 1,
    };
  });
}

/** Pieces of a group that come from one board, counted once more where pieces cut before came from it too. */
export function matchingPieces(
  { kinds, cutFrom, pieceCount }: MatchGroup,
  boards: readonly ShopBoard[],
  layouts: Solution['layouts'],
): number {
  const [from, ...others] = layouts.filter(({ pieces }) => pieces.some(({ blank }) => kinds.includes(blank)));
  const on = from && boards[from.board];
  if (!on || others.length > 0) return 0;
  return isSister(on, cutFrom) ? 2 * pieceCount : pieceCount;
}
