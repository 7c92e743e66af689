/**
 * Blanks laid on boards as a saw could cut them, one kind after another, each cut edge to edge and clear of defects. It
 * is a quick look, tried in a few orders, not a plan: what it places a plan can place too, what it leaves out a plan may
 * still find room for.
 */
import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { overlaps } from '../wood/face-rect.ts';
import type { FreeBoard } from './free-board.ts';
import { kerfNm } from './usable-run.ts';
import type { Able, Given, Want } from './want.ts';

/** What may still be cut up of each board, small pieces first. */
export type Rests = ReadonlyMap<FreeBoard, readonly RectNm[]>;

export interface LaidOut {
  /** In the order of the wants: how many found no place. */
  readonly missing: readonly number[];
  /** In the order of the wants: the boards that they lie on. */
  readonly boards: readonly ReadonlySet<FreeBoard>[];
  /** Of every board, in their order. */
  readonly rests: Rests;
}

interface Kerf {
  readonly ripNm: number;
  readonly crosscutNm: number;
}

/** Tries of a kind on a board, in all ways together: so that a long list on a large stock stays quick. */
const TRIES_MOST = 8_000;

/**
 * boards: thin before thick, and of one thickness the smallest first. leastMissing: of each want, what no plan can place;
 * the look ends where no more than that is missing.
 */
export function laidOut(
  wants: readonly Want[],
  boards: readonly FreeBoard[],
  leastMissing: () => readonly number[],
  settings: Settings,
): LaidOut {
  const kerf = kerfNm(settings);
  const first = oneWay(wants, boards, [byTier, byLength], 'larger', kerf);
  const triesEach = wants.reduce((sum, { able }) => sum + 1 + able.length, 0);
  const waysMost = Math.floor(TRIES_MOST / triesEach);
  if (waysMost === 0 || first.missing.every((count) => count === 0)) return first;
  const least = leastMissing();
  const isLeast = ({ missing }: LaidOut) => missing.every((count, at) => count <= (least[at] ?? 0));
  const scarce = scarceFirst(wants);
  const backwards = wants.map(({ blank, able }) => ({ blank, able: able.toReversed() }));
  const ways: readonly (readonly [readonly Want[], Orders, Parting])[] = [
    [scarce, [byTier, byLength], 'larger'],
    [wants, [byThickness, byLength], 'larger'],
    [wants, [byTier, byLength], 'ripped'],
    [scarce, [byLength, byWidth], 'ripped'],
    [scarce, [byWidth, byLength], 'larger'],
    [backwards, [byTier, byWidth], 'larger'],
  ];
  let best = first;
  for (const [same, orders, parting] of ways.slice(0, waysMost)) {
    if (isLeast(best)) break;
    const found = oneWay(same, boards, orders, parting, kerf);
    if (isBetter(wants, found, best)) best = found;
  }
  return best;
}

/** The same wants, each with its boards of one thickness in another order: those that serve few kinds first. */
function scarceFirst(wants: readonly Want[]): readonly Want[] {
  const uses = new Map<FreeBoard, number>();
  for (const { able } of wants)
    for (const { from, isDry } of able) if (isDry) uses.set(from, (uses.get(from) ?? 0) + 1);
  const byUse = ({ from: a }: Able, { from: b }: Able) =>
    a.board.thicknessNm - b.board.thicknessNm || (uses.get(a) ?? 0) - (uses.get(b) ?? 0);
  return wants.map(({ blank, able }) => ({ blank, able: able.toSorted(byUse) }));
}

type Order = (a: Want, b: Want) => number;
const byTier: Order = ({ blank: a }, { blank: b }) => a.tier - b.tier || a.limitPercent - b.limitPercent;
const byThickness: Order = (a, b) => b.blank.rough.thicknessNm - a.blank.rough.thicknessNm;
const byLength: Order = (a, b) => b.blank.rough.lengthNm - a.blank.rough.lengthNm;
const byWidth: Order = (a, b) => b.blank.rough.widthNm - a.blank.rough.widthNm;

type Orders = readonly [Order, Order];

/** Less missing of the most urgent, then of the next. */
function isBetter(wants: readonly Want[], a: LaidOut, b: LaidOut): boolean {
  const tiers = [...new Set(wants.map(({ blank }) => blank.tier))].sort((one, other) => one - other);
  for (const tier of tiers) {
    const missingM3 = ({ missing }: LaidOut) =>
      wants.reduce(
        (sum, { blank }, at) => (blank.tier === tier ? sum + (blank.grossM3 * (missing[at] ?? 0)) / blank.count : sum),
        0,
      );
    const [ofA, ofB] = [missingM3(a), missingM3(b)];
    if (ofA !== ofB) return ofA < ofB;
  }
  return false;
}

function oneWay(
  wants: readonly Want[],
  boards: readonly FreeBoard[],
  [first, second]: Orders,
  parting: Parting,
  kerf: Kerf,
): LaidOut {
  const rests = new Map(wholeOf(boards));
  const order = wants.toSorted((a, b) => first(a, b) || second(a, b) || byThickness(a, b) || byWidth(a, b));
  const found = new Map(order.map((want) => [want, laid(want, rests, parting, kerf)]));
  return {
    missing: wants.map((want) => found.get(want)?.missing ?? 0),
    boards: wants.map((want) => found.get(want)?.boards ?? new Set()),
    rests,
  };
}

const wholeOf = (boards: readonly FreeBoard[]): Rests =>
  new Map(boards.map((from) => [from, from.clear === null ? [] : [from.clear]]));

/** All of one kind on what others leave: the rests after it; null where one finds no place. */
export function laidOnRests(want: Want, rests: Rests, settings: Settings): Rests | null {
  if (want.able.length === 0) return null;
  const after = new Map(rests);
  return laid(want, after, 'larger', kerfNm(settings)).missing === 0 ? after : null;
}

/** Boards in the order of the want. */
function laid({ blank, able }: Want, rests: Map<FreeBoard, readonly RectNm[]>, parting: Parting, kerf: Kerf) {
  const boards = new Set<FreeBoard>();
  let missing = blank.count;
  for (const { from, given, isDry } of able) {
    if (missing === 0) break;
    let left: readonly RectNm[] | null = isDry ? (rests.get(from) ?? []) : null;
    while (left !== null && missing > 0) {
      left = cutFrom(left, given, parting, kerf);
      if (left === null) break;
      rests.set(from, left);
      boards.add(from);
      missing -= 1;
    }
  }
  return { missing, boards };
}

/** Whether what lies beside a blank keeps its length, or whichever keeps the larger piece whole. */
type Parting = 'ripped' | 'larger';

/** The rests after one more blank, small ones first; null where it finds no place. */
function cutFrom(rests: readonly RectNm[], given: Given, parting: Parting, kerf: Kerf): readonly RectNm[] | null {
  for (const [at, rest] of rests.entries()) {
    const place = placeIn(rest, given, kerf);
    if (place === null) continue;
    const parts = partedRound(rest, place, parting, kerf);
    return [...rests.filter((_, other) => other !== at), ...parts].sort((a, b) => areaM2(a) - areaM2(b));
  }
  return null;
}

/** The leftmost clear place, and of several along the grain the tightest. */
export function placeIn(rest: RectNm, { lengthNm, widthNm, blocked }: Given, kerf: Kerf): RectNm | null {
  if (rest.toNm - rest.fromNm < lengthNm || rest.rightNm - rest.leftNm < widthNm) return null;
  if (blocked.length === 0) {
    const { fromNm, leftNm } = rest;
    return { fromNm, toNm: fromNm + lengthNm, leftNm, rightNm: leftNm + widthNm };
  }
  const inside = blocked.filter((bad) => overlaps(bad, rest));
  // The blade that frees a strip from bad wood before it runs in that wood or beside it.
  const starts = [rest.leftNm, ...inside.map((b) => Math.max(b.rightNm, rest.leftNm + kerf.ripNm))];
  for (const leftNm of starts.sort((a, b) => a - b)) {
    const rightNm = leftNm + widthNm;
    if (rightNm > rest.rightNm) continue;
    const fromNm = tightestStart(
      rest,
      inside.filter((b) => b.leftNm < rightNm && b.rightNm > leftNm),
      lengthNm,
      kerf,
    );
    if (fromNm !== null) return { fromNm, toNm: fromNm + lengthNm, leftNm, rightNm };
  }
  return null;
}

function tightestStart(rest: RectNm, across: readonly RectNm[], lengthNm: number, kerf: Kerf): number | null {
  let atNm = rest.fromNm;
  const gaps: { readonly fromNm: number; readonly slackNm: number }[] = [];
  for (const bad of [...across].sort((a, b) => a.fromNm - b.fromNm)) {
    gaps.push({ fromNm: atNm, slackNm: bad.fromNm - atNm - lengthNm });
    atNm = Math.max(atNm, bad.toNm, rest.fromNm + kerf.crosscutNm);
  }
  gaps.push({ fromNm: atNm, slackNm: rest.toNm - atNm - lengthNm });
  const wide = gaps.filter(({ slackNm }) => slackNm >= 0).sort((a, b) => a.slackNm - b.slackNm);
  return wide[0]?.fromNm ?? null;
}

/** What is left of a rest round a place, a blade away from it. */
export function partedRound(rest: RectNm, place: RectNm, parting: Parting, kerf: Kerf): readonly RectNm[] {
  const beforeNm = place.fromNm - kerf.crosscutNm;
  const behindNm = place.toNm + kerf.crosscutNm;
  const lowNm = place.leftNm - kerf.ripNm;
  const highNm = place.rightNm + kerf.ripNm;
  const { fromNm, toNm, leftNm, rightNm } = place;
  const ripped: readonly RectNm[] = [
    { ...rest, rightNm: lowNm },
    { ...rest, leftNm: highNm },
    { fromNm: rest.fromNm, toNm: beforeNm, leftNm, rightNm },
    { fromNm: behindNm, toNm: rest.toNm, leftNm, rightNm },
  ].filter(isPiece);
  if (parting === 'ripped') return ripped;
  const crosscut: readonly RectNm[] = [
    { ...rest, toNm: beforeNm },
    { ...rest, fromNm: behindNm },
    { fromNm, toNm, leftNm: rest.leftNm, rightNm: lowNm },
    { fromNm, toNm, leftNm: highNm, rightNm: rest.rightNm },
  ].filter(isPiece);
  const largest = (rects: readonly RectNm[]) => Math.max(0, ...rects.map(areaM2));
  return largest(crosscut) > largest(ripped) ? crosscut : ripped;
}

const isPiece = (rect: RectNm): boolean => rect.toNm > rect.fromNm && rect.rightNm > rect.leftNm;

const areaM2 = (rect: RectNm): number => ((rect.toNm - rect.fromNm) / 1e9) * ((rect.rightNm - rect.leftNm) / 1e9);
