/** A board as the takeoff may count on it: what others leave of its length, how wet it is, and what of it is spoiled. */
import type { BoardView } from '../contract/board.ts';
import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { callOf, readThicknessCall } from '../wood/thickness.ts';
import { type BadWood, badWoodOf } from './bad-wood.ts';
import { latestMoisturePercent } from './dry-enough.ts';
import { freeRuns } from './free-run.ts';
import { longestRun, trimsOf, withoutTrims } from './usable-run.ts';

export interface FreeBoard {
  readonly board: BoardView;
  readonly callRoughNm: number;
  /** The longest length that nobody else holds, blades and trim included; 0 when all is held. */
  readonly freeNm: number;
  /** What may be cut up of it: a blade away from holds, without trim. null when nothing is. */
  readonly clear: RectNm | null;
  readonly moisturePercent: number | null;
  readonly bad: BadWood;
}

/** What other jobs leave of a board. jobId null: a cut list that belongs to no job yet. */
export function freeBoard(board: BoardView, jobId: string | null, settings: Settings): FreeBoard {
  const held = board.held.filter((run) => run.jobId !== jobId);
  const call = readThicknessCall(board.thicknessCall ?? callOf(board.thicknessNm));
  const run = longestRun(board, held, settings);
  const trimmed = run && withoutTrims(run, trimsOf(board, run, settings));
  return {
    board,
    callRoughNm: call?.roughNm ?? board.thicknessNm,
    freeNm: Math.max(0, ...freeRuns(board.lengthNm, held).map((free) => free.toNm - free.fromNm)),
    clear: trimmed && trimmed.toNm > trimmed.fromNm ? { ...trimmed, leftNm: 0, rightNm: board.widthNm } : null,
    moisturePercent: latestMoisturePercent(board.readings),
    bad: board.defects.length === 0 ? FLAWLESS : badWoodOf(board, settings.allowances.endTrimNm),
  };
}

const FLAWLESS: BadWood = { always: [], ofShowFace: { a: [], b: [] } };
