/** What of a board's length may be cut up: clear of the holds in the way by a blade, and of sawn mill ends by the trim. */
import type { Board, BoardView } from '../contract/board.ts';
import type { Settings } from '../contract/settings.ts';
import { freeRuns, type Run } from './free-run.ts';
import { gridNm, roundedUpNm } from './grid.ts';

/** The blade's width as planned: whole steps of the grid. */
export function kerfNm(settings: Pick<Settings, 'kerf' | 'shown'>): {
  readonly ripNm: number;
  readonly crosscutNm: number;
} {
  const stepNm = gridNm(settings);
  return {
    ripNm: roundedUpNm(settings.kerf.ripNm, stepNm),
    crosscutNm: roundedUpNm(settings.kerf.crosscutNm, stepNm),
  };
}

/** A free run less the blade that parts it from what is held: it is taken from the free side. Nothing of a sliver. */
export function withoutBlades({ lengthNm }: Pick<Board, 'lengthNm'>, { fromNm, toNm }: Run, bladeNm: number): Run {
  const run = { fromNm: fromNm === 0 ? 0 : fromNm + bladeNm, toNm: toNm === lengthNm ? toNm : toNm - bladeNm };
  return { ...run, toNm: Math.max(run.fromNm, run.toNm) };
}

type Trimmed = Pick<BoardView, 'lengthNm' | 'origin'>;

/** Mill ends are trimmed for checks and squareness; an offcut's ends and a fresh crosscut are sound and square. */
export function trimsOf(board: Trimmed, run: Run, settings: Pick<Settings, 'allowances'>): readonly Run[] {
  const trimNm = board.origin.kind === 'offcut' ? 0 : settings.allowances.endTrimNm;
  if (trimNm === 0) return [];
  const trims: Run[] = [];
  if (run.fromNm === 0) trims.push({ fromNm: 0, toNm: trimNm });
  if (run.toNm === board.lengthNm) trims.push({ fromNm: board.lengthNm - trimNm, toNm: board.lengthNm });
  return trims;
}

/** Never less than nothing. */
export function withoutTrims(run: Run, trims: readonly Run[]): Run {
  let { fromNm, toNm } = run;
  for (const trim of trims) {
    if (trim.fromNm <= run.fromNm) fromNm = Math.max(fromNm, trim.toNm);
    else toNm = Math.min(toNm, trim.fromNm);
  }
  return { fromNm, toNm: Math.max(fromNm, toNm) };
}

/** The longest run that is clear of what others hold, a blade away from it; the one that is cut up. null when all is held. */
export function longestRun(
  board: Pick<Board, 'lengthNm'>,
  held: readonly Run[],
  settings: Pick<Settings, 'kerf' | 'shown'>,
): Run | null {
  const bladeNm = kerfNm(settings).crosscutNm;
  let longest: Run | null = null;
  for (const free of freeRuns(board.lengthNm, held)) {
    const run = withoutBlades(board, free, bladeNm);
    const lengthNm = run.toNm - run.fromNm;
    if (lengthNm > 0 && (longest === null || lengthNm > longest.toNm - longest.fromNm)) longest = run;
  }
  return longest;
}
