/**
 * A board as the planner may use it: the longest run that nobody else holds, how wet it is, and what of it is spoiled
 * for each quality. Positions stay in nanometres on the board.
 */
import type { BoardView, Held } from '../contract/board.ts';
import type { JobWithParts } from '../contract/job.ts';
import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { type BadWood, badWoodOf } from '../takeoff/bad-wood.ts';
import { latestMoisturePercent } from '../takeoff/dry-enough.ts';
import type { Run } from '../takeoff/free-run.ts';
import { longestRun, trimsOf, withoutTrims } from '../takeoff/usable-run.ts';
import type { Wood } from '../takeoff/which-wood.ts';

export interface ShopBoard {
  readonly board: BoardView;
  readonly wood: Wood;
  readonly moisturePercent: number | null;
  /** What may be cut up: free of other holds, and a blade away from them. null when all of it is held. */
  readonly run: Run | null;
  /** The same without the trim at sawn mill ends. */
  readonly trimmed: Run | null;
  /** Holds that stand in the way. */
  readonly held: readonly Held[];
  /** The job that is planned for holds of it already. */
  readonly isOurs: boolean;
  /** What a board leaves that this plan cuts anyway. */
  readonly isOpened: boolean;
  /** Spoiled wood and end trim; without other holds. */
  readonly bad: BadWood;
}

/**
 * A hold stands in the way unless it is this job's own; a run held by a plan of this job does as long as pieces of that
 * plan still wait to be cut from it.
 */
export function holdsInTheWay(board: BoardView, job: Pick<JobWithParts, 'id' | 'parts'> | null): readonly Held[] {
  return board.held.filter((held) => {
    if (!job || held.jobId !== job.id) return true;
    return (
      held.planId !== null &&
      job.parts.some((part) => part.pieces.some((p) => p.state === 'planned' && p.planId === held.planId))
    );
  });
}

export function shopBoard(board: BoardView, wood: Wood, held: readonly Held[], settings: Settings): ShopBoard {
  const run = longestRun(board, held, settings);
  const trims = run ? trimsOf(board, run, settings) : [];
  const spoilt = badWoodOf(board, settings.allowances.endTrimNm);
  const across = { leftNm: 0, rightNm: board.widthNm };
  return {
    board,
    wood,
    moisturePercent: latestMoisturePercent(board.readings),
    run,
    trimmed: run ? withoutTrims(run, trims) : null,
    held,
    isOurs: held.length < board.held.length,
    isOpened: false,
    bad: {
      always: spoilt.always.map((defects) => [
        ...trims.map((trim) => ({ ...trim, ...across })),
        ...defects.map(bareRect),
      ]),
      ofShowFace: { a: spoilt.ofShowFace.a.map(bareRect), b: spoilt.ofShowFace.b.map(bareRect) },
    },
  };
}

const bareRect = ({ fromNm, toNm, leftNm, rightNm }: RectNm): RectNm => ({ fromNm, toNm, leftNm, rightNm });
