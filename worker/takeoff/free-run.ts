/** What of a board's length nobody holds. A run is full width, from one place along the board to another. */

export interface Run {
  readonly fromNm: number;
  readonly toNm: number;
}

/** The runs between the held ones, in order along the board; none of them empty. */
export function freeRuns(boardLengthNm: number, held: readonly Run[]): readonly Run[] {
  const free: Run[] = [];
  let fromNm = 0;
  for (const run of [...held].sort((a, b) => a.fromNm - b.fromNm)) {
    if (run.fromNm > fromNm) free.push({ fromNm, toNm: Math.min(run.fromNm, boardLengthNm) });
    fromNm = Math.max(fromNm, run.toNm);
    if (fromNm >= boardLengthNm) return free;
  }
  if (fromNm < boardLengthNm) free.push({ fromNm, toNm: boardLengthNm });
  return free;
}
