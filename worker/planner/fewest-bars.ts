/** All blanks from the fewest bars of one kind: boards so narrow that no two blanks lie beside each other. */
import { packBars } from './bar-packing.ts';
import { boardOf, type Job, UNLIMITED } from './job.ts';
import type { CutBoard, Plan } from './plan.ts';
import { type Item, placedOf } from './view.ts';

export interface PackedBars {
  readonly plan: Plan;
  readonly bound: number;
}

/** Steps of packing that count as one of the job's. */
const STEPS_PER_WORK = 2.5;

/** Whether the bars of this job can be packed: one kind, as many as any packing may take, and each blank fits. */
export function isBarJob(job: Job, start: Plan): boolean {
  const { boards, blanks } = job.problem;
  if (boards.length !== 1 || job.wanted.some((copies) => copies >= UNLIMITED)) return false;
  const { isBar, view } = boardOf(job, 0);
  const placed = start.reduce((sum, cut) => sum + cut.pieces.length, 0);
  const wanted = job.wanted.reduce((sum, copies) => sum + copies, 0);
  return isBar && view.items.length === blanks.length && placed === wanted;
}

/** start: a plan that holds all blanks. */
export function* fewestBars(job: Job, start: Plan, bound: number): Generator<PackedBars, PackedBars> {
  const { view } = boardOf(job, 0);
  const groups = new Map<number, Item[]>();
  for (const item of [...view.items].sort((a, b) => a.along - b.along || a.blank - b.blank)) {
    const size = item.along + view.kerfAlong;
    groups.set(size, [...(groups.get(size) ?? []), item]);
  }
  const items = [...groups.values()];
  const groupOf = new Map(items.flatMap((group, index) => group.map((item) => [item.blank, index] as const)));
  const wanted = Int32Array.from(items, (group) => group.reduce((sum, item) => sum + job.wanted[item.blank]!, 0));
  const before = job.work;
  const steps = packBars({
    sizes: Int32Array.from(groups.keys()),
    capacity: view.along + view.kerfAlong,
    wanted,
    start: start.map((cut) => countsOf(cut, groupOf)),
    bound,
    workMost: (job.workMost - before) * STEPS_PER_WORK,
    random: job.random,
  });
  for (;;) {
    const step = steps.next();
    const { bars, bound: proven, work } = step.value;
    job.work = before + Math.round(work / STEPS_PER_WORK);
    const packed = { plan: planOf(job, bars, items), bound: proven };
    if (step.done) return packed;
    yield packed;
  }
}

function countsOf(cut: CutBoard, groupOf: ReadonlyMap<number, number>): readonly number[] {
  const counts = new Map<number, number>();
  for (const piece of cut.pieces) {
    const group = groupOf.get(piece.blank)!;
    counts.set(group, (counts.get(group) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => a[0] - b[0]).flat();
}

/** Longest first on each bar; blanks of one size in turn. */
function planOf(job: Job, bars: readonly (readonly number[])[], groups: readonly (readonly Item[])[]): Plan {
  const { view } = boardOf(job, 0);
  const waiting = groups.map((group) => group.flatMap((item) => new Array<Item>(job.wanted[item.blank]!).fill(item)));
  return bars.map((bar) => {
    let along = 0;
    const chosen: Item[] = [];
    for (let k = 0; k < bar.length; k += 2) chosen.push(...waiting[bar[k]!]!.splice(0, bar[k + 1]));
    const pieces = chosen
      .sort((a, b) => b.along - a.along)
      .map((item) => {
        const placed = placedOf(view, { item, along, across: 0 });
        along += item.along + view.kerfAlong;
        return placed;
      });
    return { board: 0, pieces };
  });
}
