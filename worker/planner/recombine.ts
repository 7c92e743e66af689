/**
 * Chooses anew, from all patterns known, for a few boards at a time: a branching search over one pattern a board within
 * the blanks left. Small enough to be searched to the end, or nearly.
 */
import type { Job } from './job.ts';
import type { Column, Master } from './master.ts';
import type { CutBoard } from './plan.ts';

/** Best set of patterns for these boards within `left`; null when nothing beats `floor`. */
export function recombined(
  job: Job,
  master: Master,
  boards: readonly number[],
  left: Int32Array,
  floor: number,
  nodesMost: number,
): readonly CutBoard[] | null {
  const choices = boards.map((board) =>
    master
      .of(board)
      .filter((column) => column.worth > 0 && fits(column, left))
      .sort((a, b) => b.worth - a.worth),
  );
  const order = choices
    .map((_, index) => index)
    .sort((a, b) => (choices[b]![0]?.worth ?? 0) - (choices[a]![0]?.worth ?? 0));
  const most = new Float64Array(order.length + 1);
  for (let i = order.length - 1; i >= 0; i--) most[i] = most[i + 1]! + (choices[order[i]!]![0]?.worth ?? 0);
  let best = floor + 1e-9;
  let answer: Column[] | null = null;
  let nodes = 0;
  const now: Column[] = [];
  const descend = (depth: number, worth: number): void => {
    if (worth > best) {
      best = worth + 1e-9;
      answer = now.slice();
    }
    if (depth === order.length) return;
    for (const column of choices[order[depth]!]!) {
      if (worth + column.worth + most[depth + 1]! <= best || nodes > nodesMost) break;
      nodes++;
      if (!fits(column, left)) continue;
      take(column, left, -1);
      now.push(column);
      descend(depth + 1, worth + column.worth);
      now.pop();
      take(column, left, 1);
    }
    if (worth + most[depth + 1]! > best && nodes <= nodesMost) descend(depth + 1, worth);
  };
  descend(0, 0);
  job.work += nodes * 20 + choices.reduce((sum, list) => sum + list.length, 0) * 10;
  return answer;
}

function fits(column: Column, left: Int32Array): boolean {
  for (let k = 0; k < column.counts.length; k += 2) if (column.counts[k + 1]! > left[column.counts[k]!]!) return false;
  return true;
}

function take(column: Column, left: Int32Array, sign: number): void {
  for (let k = 0; k < column.counts.length; k += 2) left[column.counts[k]!]! += sign * column.counts[k + 1]!;
}
