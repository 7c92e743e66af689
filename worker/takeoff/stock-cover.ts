/**
 * What the yard's free boards cover of one species. Thick stock serves thick blanks first and lends only what they
 * leave to thinner ones; dry stock likewise goes first to the parts that ask for it. No board is counted twice for a
 * shortage.
 */
import type { BoardView } from '../contract/board.ts';
import type { Size } from '../wood/unit.ts';
import { PLANING_GIVE_NM } from './blank.ts';
import { latestMoisturePercent } from './dry-enough.ts';
import { freeRuns } from './free-run.ts';

/** Blanks of one thickness call, as the stock must cover them. */
export interface Demand {
  readonly callThicknessNm: number;
  readonly blanks: readonly DemandBlank[];
}
export interface DemandBlank {
  readonly rough: Size;
  readonly grossM3: number;
  readonly limitPercent: number;
  /** Whether wood without a reading will do. */
  readonly takesUnread: boolean;
}

/** What one board can lend: its free runs and how wet they are. */
export interface FreeBoard {
  readonly widthNm: number;
  readonly thicknessNm: number;
  readonly runsNm: readonly number[];
  readonly moisturePercent: number | null;
}

export interface Cover {
  readonly inStockM3: number;
  readonly inStockWetM3: number;
  readonly shortM3: number;
  readonly longestRunNm: number | null;
  readonly widestNm: number | null;
  /** Boards counted whose moisture nobody has read. */
  readonly unreadCount: number;
  /** Boards so thick that they would be resawn rather than planed down; not counted. */
  readonly resawCount: number;
}

/** What other jobs leave of a board. jobId null: a cut list that belongs to no job yet. */
export function freeBoard(board: BoardView, jobId: string | null): FreeBoard {
  const held = board.held.filter((run) => run.jobId !== jobId);
  return {
    widthNm: board.widthNm,
    thicknessNm: board.thicknessNm,
    runsNm: freeRuns(board.lengthNm, held).map((run) => run.toNm - run.fromNm),
    moisturePercent: latestMoisturePercent(board.readings),
  };
}

/** One answer a demand, in the order given. Boards are those of the demands' species. */
export function coverDemands(
  demands: readonly Demand[],
  boards: readonly FreeBoard[],
  kerfNm: number,
): readonly Cover[] {
  const covers = new Map<Demand, Cover>();
  let left = [...boards].sort((a, b) => a.thicknessNm - b.thicknessNm);
  for (const demand of [...demands].sort((a, b) => b.callThicknessNm - a.callThicknessNm)) {
    const { cover, taken } = coverOne(demand, left, kerfNm);
    covers.set(demand, cover);
    left = left.filter((board) => !taken.has(board));
  }
  return demands.flatMap((demand) => covers.get(demand) ?? []);
}

interface Candidate {
  readonly board: FreeBoard;
  readonly m3: number;
  /** The moisture content it counts as, per cent. */
  readonly asPercent: number;
}

function coverOne(demand: Demand, boards: readonly FreeBoard[], kerfNm: number) {
  const thinnestNm = Math.min(...demand.blanks.map((blank) => blank.rough.thicknessNm)) - PLANING_GIVE_NM;
  const resawFromNm = 2 * demand.callThicknessNm + kerfNm;
  const thickEnough = boards.filter((board) => board.thicknessNm >= thinnestNm);
  const usable = thickEnough.filter((board) => board.thicknessNm < resawFromNm);
  const smallest = smallestFaces(demand.blanks);
  const unreadAsPercent = Math.min(...demand.blanks.filter((b) => b.takesUnread).map((b) => b.limitPercent));

  const candidates = usable.flatMap((board): Candidate[] => {
    const m3 = usefulM3(board, smallest, demand.callThicknessNm);
    return m3 > 0 ? [{ board, m3, asPercent: board.moisturePercent ?? unreadAsPercent }] : [];
  });
  const limitMost = Math.max(...demand.blanks.map((blank) => blank.limitPercent));
  const dry = candidates.filter((candidate) => candidate.asPercent <= limitMost);
  const { taken, shortM3 } = allot(demand.blanks, dry);
  const sum = (list: readonly Candidate[]) => list.reduce((total, { m3 }) => total + m3, 0);
  const cover: Cover = {
    inStockM3: sum(dry),
    inStockWetM3: sum(candidates) - sum(dry),
    shortM3,
    longestRunNm: largest(usable.flatMap((board) => board.runsNm)),
    widestNm: largest(usable.filter((board) => board.runsNm.length > 0).map((board) => board.widthNm)),
    unreadCount: dry.filter(({ board }) => board.moisturePercent === null).length,
    resawCount: thickEnough.length - usable.length,
  };
  return { cover, taken };
}

/**
 * Gives boards to blanks, driest demand first, until each limit's blanks are covered by boards that dry or drier.
 * What is short is the worst of those limits, since drier wood serves every wetter limit too.
 */
function allot(blanks: readonly DemandBlank[], dry: readonly Candidate[]) {
  const taken = new Set<FreeBoard>();
  let needM3 = 0;
  let takenM3 = 0;
  let shortM3 = 0;
  for (const limit of [...new Set(blanks.map((blank) => blank.limitPercent))].sort((a, b) => a - b)) {
    for (const blank of blanks) if (blank.limitPercent === limit) needM3 += blank.grossM3;
    for (const { board, m3, asPercent } of dry) {
      if (takenM3 + shortM3 >= needM3) break;
      if (asPercent > limit || taken.has(board)) continue;
      taken.add(board);
      takenM3 += m3;
    }
    shortM3 = Math.max(shortM3, needM3 - takenM3);
  }
  return { taken, shortM3: Math.max(0, shortM3) };
}

/** Free wood in runs that give at least one of the blanks, at the called thickness. */
function usefulM3(board: FreeBoard, smallest: readonly Face[], callThicknessNm: number): number {
  let lengthNm = 0;
  for (const runNm of board.runsNm)
    if (smallest.some((face) => face.lengthNm <= runNm && face.widthNm <= board.widthNm)) lengthNm += runNm;
  return (lengthNm / 1e9) * (board.widthNm / 1e9) * (callThicknessNm / 1e9);
}

interface Face {
  readonly lengthNm: number;
  readonly widthNm: number;
}

/** The blanks' faces without those that a smaller one makes needless to ask for. */
function smallestFaces(blanks: readonly DemandBlank[]): readonly Face[] {
  const faces: Face[] = [];
  const byLength = blanks.map((blank) => blank.rough).sort((a, b) => a.lengthNm - b.lengthNm || a.widthNm - b.widthNm);
  for (const { lengthNm, widthNm } of byLength) {
    const narrowest = faces.at(-1);
    if (!narrowest || widthNm < narrowest.widthNm) faces.push({ lengthNm, widthNm });
  }
  return faces;
}

function largest(lengthsNm: readonly number[]): number | null {
  let most: number | null = null;
  for (const lengthNm of lengthsNm) if (most === null || lengthNm > most) most = lengthNm;
  return most;
}
