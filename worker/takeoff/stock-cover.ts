/**
 * What the yard's free boards cover of one wood. A board counts for a blank only where it can give it (the planner's own
 * rule) and is dry enough, and the blanks are laid on the boards one by one: what is short is blanks that found no place.
 */
import type { Settings } from '../contract/settings.ts';
import type { Species } from '../wood/species.ts';
import { PLANING_GIVE_NM } from './blank.ts';
import type { FreeBoard } from './free-board.ts';
import { laidOut, type Rests } from './lay-out.ts';
import { resawnFromNm } from './piece-on-board.ts';
import { shareOut } from './share-stock.ts';
import { kerfNm } from './usable-run.ts';
import { type DemandBlank, mostOn, type Want, wantOf } from './want.ts';

/** Blanks of one thickness call, as the stock must cover them. */
export interface Demand<Blank extends DemandBlank = DemandBlank> {
  readonly callThicknessNm: number;
  readonly blanks: readonly Blank[];
}

export interface Cover {
  readonly inStockM3: number;
  /** Of `inStockM3`: from boards of a thicker call. */
  readonly thickerM3: number;
  readonly inStockWetM3: number;
  readonly shortM3: number;
  /** Nothing proves that no plan finds a place for all that is short. False where nothing is. */
  readonly mayStillFit: boolean;
  readonly longestRunNm: number | null;
  readonly widestNm: number | null;
  /** Boards counted whose moisture nobody has read. */
  readonly unreadCount: number;
  /** Boards so thick that they would be resawn rather than planed down; not counted. */
  readonly resawCount: number;
  /** How many of each blank found no place. */
  readonly missing: ReadonlyMap<DemandBlank, number>;
  /** Blanks that no free board can give, however dry. */
  readonly withoutBoard: ReadonlySet<DemandBlank>;
}

export interface Covers {
  /** One a demand, in the order given. */
  readonly covers: readonly Cover[];
  /** What all blanks leave of the boards. */
  readonly rests: Rests;
}

/** Boards are those of the demands' wood. */
export function coverDemands(
  demands: readonly Demand[],
  boards: readonly FreeBoard[],
  species: Species | null,
  settings: Settings,
): Covers {
  const stock = boards.toSorted((a, b) => a.board.thicknessNm - b.board.thicknessNm || areaM2(a) - areaM2(b));
  const wants = demands.map(({ blanks }) => blanks.map((blank) => wantOf(blank, stock, species, settings)));
  const all = wants.flat();
  const kerf = kerfNm(settings);
  const proven = once(() => provenMissing(all, settings));
  const found = laidOut(all, stock, proven, settings);
  const byWant = new Map(
    all.map((want, at) => [want, { missing: found.missing[at] ?? 0, at, boards: found.boards[at] ?? NO_BOARDS }]),
  );
  const onBoards = (which: (demand: Demand) => boolean) =>
    new Set(
      demands.flatMap((demand, at) =>
        which(demand) ? (wants[at] ?? []).flatMap((want) => [...(byWant.get(want)?.boards ?? [])]) : [],
      ),
    );
  const covers = demands.map((demand, at) => {
    const thicker = onBoards((other) => other.callThicknessNm > demand.callThicknessNm);
    const own = onBoards((other) => other === demand);
    const left = stock.filter((from) => own.has(from) || !thicker.has(from));
    const mine = (wants[at] ?? []).map((want) => ({ want, ...(byWant.get(want) ?? { missing: 0, at: 0 }) }));
    const short = mine.filter((one) => one.missing > 0);
    return {
      ...stockFor(demand, wants[at] ?? [], left, settings),
      shortM3: short.reduce((sum, one) => sum + shortM3(one.want.blank, one.missing), 0),
      // Most that are short of boards are so by their count alone, which is soon told.
      mayStillFit:
        short.length > 0 &&
        mine.every(({ want }) => lackingByCount(want, kerf) === 0) &&
        mine.every((one) => proven()[one.at] === 0),
      missing: new Map(mine.map((one) => [one.want.blank, one.missing])),
    };
  });
  return { covers, rests: found.rests };
}

type Kerf = Parameters<typeof mostOn>[1];

const NO_BOARDS: ReadonlySet<FreeBoard> = new Set();

function once<T>(find: () => T): () => T {
  let known: { readonly value: T } | null = null;
  return () => {
    known ??= { value: find() };
    return known.value;
  };
}

/** Gross wood of so many of the blanks. */
export const shortM3 = ({ grossM3, count }: DemandBlank, missing: number): number => (grossM3 * missing) / count;

function stockFor(demand: Demand, wants: readonly Want[], boards: readonly FreeBoard[], settings: Settings) {
  const { blanks, callThicknessNm } = demand;
  const thinnestNm = Math.min(...blanks.map((blank) => blank.rough.thicknessNm)) - PLANING_GIVE_NM;
  const thickestNm = Math.max(...blanks.map((blank) => blank.finished.thicknessNm));
  const thickEnough = boards.filter(({ board }) => board.thicknessNm >= thinnestNm);
  const tooThickNm = resawnFromNm(thickestNm, settings);
  const usable = thickEnough.filter(({ board }) => board.thicknessNm < tooThickNm);
  const free = usable.filter(({ freeNm }) => freeNm > 0);
  const dryGivers = new Set<FreeBoard>();
  const wetGivers = new Set<FreeBoard>();
  for (const { able } of wants)
    for (const { from, isDry } of able) if (!dryGivers.has(from)) (isDry ? dryGivers : wetGivers).add(from);
  const dry = free.filter((from) => dryGivers.has(from));
  const wet = free.filter((from) => wetGivers.has(from) && !dryGivers.has(from));
  const m3 = ({ freeNm, board }: FreeBoard) => (freeNm / 1e9) * (board.widthNm / 1e9) * (callThicknessNm / 1e9);
  const sumM3 = (list: readonly FreeBoard[]) => list.reduce((sum, from) => sum + m3(from), 0);
  return {
    inStockM3: sumM3(dry),
    thickerM3: sumM3(dry.filter(({ callRoughNm }) => callRoughNm > callThicknessNm)),
    inStockWetM3: sumM3(wet),
    longestRunNm: largest(free.map(({ freeNm }) => freeNm)),
    widestNm: largest(free.map(({ board }) => board.widthNm)),
    unreadCount: dry.filter(({ moisturePercent }) => moisturePercent === null).length,
    resawCount: thickEnough.length - usable.length,
    withoutBoard: new Set(wants.filter(({ able }) => able.length === 0).map(({ blank }) => blank)),
  };
}

/**
 * How many of each want no plan at all can place: more than its boards hold with nothing else on them, or than their
 * faces together. A bound, not a count: what is zero here may be missing all the same.
 */
function provenMissing(wants: readonly Want[], settings: Settings): readonly number[] {
  const kerf = kerfNm(settings);
  const dry = wants.map(({ able }) => able.filter(({ isDry }) => isDry));
  const givers = dry.map((list) => new Set(list.map(({ from }) => from)));
  const stock = [...new Set(dry.flatMap((list) => list.map(({ from }) => from)))];
  const eachM2 = dry.map((list) =>
    list.reduce(
      (least, { given }) => Math.min(least, (given.lengthNm / 1e9) * (given.straightWidthNm / 1e9)),
      Infinity,
    ),
  );
  const { shortM2 } = shareOut(
    wants.map(({ blank }, at) => (dry[at]?.length ? blank.count * (eachM2[at] ?? 0) : 0)),
    stock.map(areaM2),
    (board, need) => {
      const from = stock[board];
      return from !== undefined && (givers[need]?.has(from) ?? false);
    },
  );
  return wants.map((want, at) => {
    const lacking = Math.ceil((shortM2[at] ?? 0) / (eachM2[at] ?? 1) - 1e-9);
    return Math.max(lackingByCount(want, kerf), lacking);
  });
}

/** How many of a kind its dry boards cannot hold, with nothing else on them. */
function lackingByCount({ blank, able }: Want, kerf: Kerf): number {
  let lacking = blank.count;
  for (const one of able) {
    if (one.isDry) lacking -= mostOn(one, kerf);
    if (lacking <= 0) return 0;
  }
  return lacking;
}

const areaM2 = ({ clear }: FreeBoard): number =>
  clear === null ? 0 : ((clear.toNm - clear.fromNm) / 1e9) * ((clear.rightNm - clear.leftNm) / 1e9);

function largest(lengthsNm: readonly number[]): number | null {
  let most: number | null = null;
  for (const lengthNm of lengthsNm) if (most === null || lengthNm > most) most = lengthNm;
  return most;
}
