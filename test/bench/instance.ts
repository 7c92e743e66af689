/** Instances as they lie in files, and the planner's problem made from one. */
import type { Problem, Rect } from '../../worker/planner/problem.ts';

export interface Instance {
  readonly name: string;
  readonly objective: Problem['objective'];
  readonly kerf: Problem['kerf'];
  /** A number, or anything else for any number of stages. */
  readonly maxStages?: unknown;
  readonly boards: readonly {
    readonly tag: string;
    readonly length: number;
    readonly width: number;
    readonly count?: number | null;
    readonly cost?: number;
    readonly defects?: readonly Rect[];
  }[];
  readonly blanks: readonly {
    readonly part: string;
    readonly length: number;
    readonly width: number;
    readonly quantity: number | null;
    readonly value?: number;
  }[];
  readonly optimum?: number;
  readonly optimumIs?: 'proven' | 'best known';
  readonly bound?: number;
}

export function problemOf(instance: Instance): Problem {
  // In one dimension a board is as wide as its blanks, so one crosscut after another is all there is to do.
  const oneWidth = instance.boards.every((board) => instance.blanks.every((blank) => blank.width === board.width));
  const stages = typeof instance.maxStages === 'number' && !oneWidth ? instance.maxStages : null;
  return {
    kerf: instance.kerf,
    maxStages: stages,
    objective: instance.objective,
    rest: null,
    boards: instance.boards.map((board) => ({
      tag: board.tag,
      length: board.length,
      width: board.width,
      count: board.count ?? null,
      cost: board.cost ?? (instance.objective === 'value' ? 0 : 1),
      blocked: [board.defects ?? []],
      fits: null,
    })),
    blanks: instance.blanks.map((blank) => ({
      part: blank.part,
      length: blank.length,
      width: blank.width,
      quantity: blank.quantity,
      value: blank.value ?? blank.length * blank.width,
      tier: 1,
      quality: 0,
      matchGroup: null,
    })),
  };
}
