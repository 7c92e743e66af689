/** The port to a linear-programming engine. The planner has its own small one; a larger may be plugged in. */

export interface LpProblem {
  /** Greatest sum of cost * x over rows sum <= limit, x >= 0. Limits are never negative. */
  readonly limits: Float64Array;
  readonly columns: readonly LpColumn[];
}

export interface LpColumn {
  readonly worth: number;
  readonly rows: Int32Array;
  readonly amounts: Float64Array;
}

export interface LpAnswer {
  readonly value: number;
  readonly x: Float64Array;
  readonly duals: Float64Array;
}

export interface LpEngine {
  solve(problem: LpProblem): LpAnswer;
}
