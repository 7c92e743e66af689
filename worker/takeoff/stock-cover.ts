/**
 * What the yard's free boards cover of one species. A board counts for a blank only where it is long, wide, thick and
 * flat enough for it (the planner's own rule) and dry enough. Thick stock serves thick blanks first and lends only what
 * they leave to thinner ones. No board is counted twice for a shortage.
 */
import type { BoardView } from '../contract/board.ts';
import type { Settings } from '../contract/settings.ts';
import type { Grain } from '../wood/shrinkage.ts';
import type { Species } from '../wood/species.ts';
import { callOf, readThicknessCall } from '../wood/thickness.ts';
import type { Size } from '../wood/unit.ts';
import { PLANING_GIVE_NM } from './blank.ts';
import { latestMoisturePercent } from './dry-enough.ts';
import { freeRuns } from './free-run.ts';
import { canResaw, grainServes, type PieceAtCutting, pieceAtCutting, pieceOnBoard } from './piece-on-board.ts';
import { shareOut } from './share-stock.ts';
import { clearLengthNm } from './usable-run.ts';

/** Blanks of one thickness call, as the stock must cover them. */
export interface Demand<Blank extends DemandBlank = DemandBlank> {
  readonly callThicknessNm: number;
  readonly blanks: readonly Blank[];
}
export interface DemandBlank {
  readonly finished: Size;
  /** As cut from the wettest stock that it may be cut from. */
  readonly rough: Size;
  /** What it asks for; unknown takes any. */
  readonly grain: Grain;
  readonly grossM3: number;
  readonly limitPercent: number;
  /** Whether wood without a reading will do. */
  readonly takesUnread: boolean;
}

interface FreeRun {
  readonly lengthNm: number;
  /** Without blade and end trim, which the waste factor pays for. */
  readonly clearNm: number;
}

/** What one board can lend: its free runs and how wet they are. */
export interface FreeBoard {
  readonly board: BoardView;
  readonly callRoughNm: number;
  readonly runs: readonly FreeRun[];
  readonly moisturePercent: number | null;
}

export interface Cover {
  readonly inStockM3: number;
  /** Of `inStockM3`: from boards of a thicker call. */
  readonly thickerM3: number;
  readonly inStockWetM3: number;
  readonly shortM3: number;
  readonly longestRunNm: number | null;
  readonly widestNm: number | null;
  /** Boards counted whose moisture nobody has read. */
  readonly unreadCount: number;
  /** Boards so thick that they would be resawn rather than planed down; not counted. */
  readonly resawCount: number;
  /** Of `shortM3`: what each blank is left without. */
  readonly shortOfM3: ReadonlyMap<DemandBlank, number>;
  /** Blanks that no free board can give, however dry. */
  readonly withoutBoard: ReadonlySet<DemandBlank>;
}

/** What other jobs leave of a board. jobId null: a cut list that belongs to no job yet. */
export function freeBoard(board: BoardView, jobId: string | null, settings: Settings): FreeBoard {
  const held = board.held.filter((run) => run.jobId !== jobId);
  const call = readThicknessCall(board.thicknessCall ?? callOf(board.thicknessNm));
  return {
    board,
    callRoughNm: call?.roughNm ?? board.thicknessNm,
    runs: freeRuns(board.lengthNm, held).map((free) => ({
      lengthNm: free.toNm - free.fromNm,
      clearNm: clearLengthNm(board, free, settings),
    })),
    moisturePercent: latestMoisturePercent(board.readings),
  };
}

/** One answer a demand, in the order given. Boards are those of the demands' species. */
export function coverDemands(
  demands: readonly Demand[],
  boards: readonly FreeBoard[],
  species: Species | null,
  settings: Settings,
): readonly Cover[] {
  const covers = new Map<Demand, Cover>();
  let left = [...boards].sort((a, b) => a.board.thicknessNm - b.board.thicknessNm);
  for (const demand of [...demands].sort((a, b) => b.callThicknessNm - a.callThicknessNm)) {
    const { cover, taken } = coverOne(demand, left, species, settings);
    covers.set(demand, cover);
    left = left.filter((board) => !taken.has(board));
  }
  return demands.flatMap((demand) => covers.get(demand) ?? []);
}

/** A free run and what it gives at the called thickness. */
interface Supply {
  readonly from: FreeBoard;
  readonly clearNm: number;
  readonly m3: number;
}

function coverOne(demand: Demand, boards: readonly FreeBoard[], species: Species | null, settings: Settings) {
  const { blanks, callThicknessNm } = demand;
  const thinnestNm = Math.min(...blanks.map((blank) => blank.rough.thicknessNm)) - PLANING_GIVE_NM;
  const thickestNm = Math.max(...blanks.map((blank) => blank.finished.thicknessNm));
  const thickEnough = boards.filter(({ board }) => board.thicknessNm >= thinnestNm);
  const usable = thickEnough.filter(({ board }) => !canResaw(board.thicknessNm, thickestNm, settings));

  // The hardest to serve first: driest, then longest.
  const wants = blanks
    .map((blank) => new Want(blank, species, settings))
    .sort((a, b) => a.blank.limitPercent - b.blank.limitPercent || b.lengthNm - a.lengthNm);
  const shortFirst = [...wants].sort((a, b) => a.lengthNm - b.lengthNm);
  const dry: Supply[] = [];
  const wet: Supply[] = [];
  for (const from of usable) {
    for (const { lengthNm, clearNm } of from.runs) {
      const supply = { from, clearNm, m3: (lengthNm / 1e9) * (from.board.widthNm / 1e9) * (callThicknessNm / 1e9) };
      if (shortFirst.some((want) => want.isDryEnough(from) && want.fits(supply))) dry.push(supply);
      else if (shortFirst.some((want) => want.fits(supply))) wet.push(supply);
    }
  }
  const shared = shareOut(
    wants.map(({ blank }) => blank.grossM3),
    dry.map(({ m3 }) => m3),
    (stock, need) => {
      const [supply, want] = [dry[stock], wants[need]];
      return supply !== undefined && (want?.isDryEnough(supply.from) ?? false) && (want?.fits(supply) ?? false);
    },
  );
  const all = [...dry, ...wet];
  const cover: Cover = {
    inStockM3: sumM3(dry),
    thickerM3: sumM3(dry.filter(({ from }) => from.callRoughNm > callThicknessNm)),
    inStockWetM3: sumM3(wet),
    shortM3: shared.shortM3.reduce((sum, m3) => sum + m3, 0),
    shortOfM3: new Map(wants.map(({ blank }, at) => [blank, shared.shortM3[at] ?? 0])),
    longestRunNm: largest(usable.flatMap(({ runs }) => runs.map(({ lengthNm }) => lengthNm))),
    widestNm: largest(usable.filter(({ runs }) => runs.length > 0).map(({ board }) => board.widthNm)),
    unreadCount: new Set(dry.filter(({ from }) => from.moisturePercent === null).map(({ from }) => from)).size,
    resawCount: thickEnough.length - usable.length,
    withoutBoard: new Set(wants.filter((want) => !all.some((one) => want.fits(one))).map(({ blank }) => blank)),
  };
  return { cover, taken: new Set(dry.filter((_, at) => shared.isUsed[at]).map(({ from }) => from)) };
}

/** One kind of blank, asked against many boards: its size is worked out once for each moisture and grain. */
class Want {
  readonly blank: DemandBlank;
  readonly lengthNm: number;
  private readonly species: Species | null;
  private readonly settings: Settings;
  private readonly sizes = new Map<Grain, Map<number, PieceAtCutting>>();

  constructor(blank: DemandBlank, species: Species | null, settings: Settings) {
    this.blank = blank;
    this.species = species;
    this.settings = settings;
    this.lengthNm = blank.rough.lengthNm;
  }

  isDryEnough({ moisturePercent }: FreeBoard): boolean {
    return moisturePercent === null ? this.blank.takesUnread : moisturePercent <= this.blank.limitPercent;
  }

  /** Whether the board gives it; a wet one, once it is dry enough. */
  fits({ from: { board, moisturePercent }, clearNm }: Supply): boolean {
    const { finished, grain, limitPercent } = this.blank;
    if (this.lengthNm > clearNm || finished.widthNm > board.widthNm || !grainServes(grain, board.grain)) return false;
    if (canResaw(board.thicknessNm, finished.thicknessNm, this.settings)) return false;
    const piece = this.pieceAt(Math.min(moisturePercent ?? limitPercent, limitPercent), board.grain);
    const there = pieceOnBoard(piece, board, this.settings);
    return there.isThickEnough && there.widthNm <= board.widthNm;
  }

  private pieceAt(moisturePercent: number, grain: Grain): PieceAtCutting {
    const byMoisture = this.sizes.get(grain) ?? new Map<number, PieceAtCutting>();
    this.sizes.set(grain, byMoisture);
    const known = byMoisture.get(moisturePercent);
    if (known) return known;
    const wood = { species: this.species, moisturePercent, grain };
    const piece = pieceAtCutting(this.blank.finished, this.settings, wood);
    byMoisture.set(moisturePercent, piece);
    return piece;
  }
}

const sumM3 = (supplies: readonly Supply[]): number => supplies.reduce((sum, { m3 }) => sum + m3, 0);

function largest(lengthsNm: readonly number[]): number | null {
  let most: number | null = null;
  for (const lengthNm of lengthsNm) if (most === null || lengthNm > most) most = lengthNm;
  return most;
}
