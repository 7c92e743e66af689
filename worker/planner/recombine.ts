/**
 * Chooses anew, from patterns known for a few boards, one pattern a board at most within the blanks left. The program over
 * these patterns says what each blank is worth to the rest, so each pattern has a loss: what it gives less than the best
 * of its board at those figures. No choice is worth more than the mix less all its losses, which ends most of the search.
 */
import { type Column, giveBack, isWithin, reducedWorth, take } from './column.ts';
import type { Job } from './job.ts';

export interface Choices {
  /** For each board to cut, the patterns known. */
  readonly boards: readonly (readonly Column[])[];
  /** What one more copy of each blank is worth in the mix; never below zero. */
  readonly rents: Float64Array;
  /** Copies left to cut. */
  readonly left: Int32Array;
}

/** A pattern for a board, or that it stays whole. */
interface Choice {
  readonly column: Column | null;
  readonly loss: number;
}

/** Steps of the search for each choice looked at. */
const CHOICE_STEP = 4;

/** The best patterns for these boards; null when nothing worth more than `floor` was found. */
export function recombined(job: Job, choices: Choices, floor: number, looksMost: number): readonly Column[] | null {
  const { rents } = choices;
  const left = choices.left.slice();
  let most = 0;
  for (let blank = 0; blank < left.length; blank++) most += rents[blank]! * left[blank]!;
  const lists = choices.boards.map((columns) => {
    const reduced = columns.map((column) => ({ column, value: reducedWorth(column, rents) }));
    const top = reduced.reduce((best, { value }) => Math.max(best, value), 0);
    most += top;
    const list: Choice[] = reduced.map(({ column, value }) => ({ column, loss: top - value }));
    list.push({ column: null, loss: top });
    return list.sort((a, b) => a.loss - b.loss);
  });
  let best = floor + 1e-9;
  let answer: readonly Column[] | null = null;
  let looks = 0;
  const now: Column[] = [];
  const descend = (open: readonly (readonly Choice[])[], loss: number, worth: number): void => {
    if (worth > best) {
      best = worth + 1e-9;
      answer = now.slice();
    }
    if (open.length === 0) return;
    // What can still be chosen, and the least that each board will lose.
    const fitting: Choice[][] = [];
    let least = loss;
    for (const list of open) {
      const kept: Choice[] = [];
      for (const choice of list) {
        looks++;
        if (loss + choice.loss > most - best) break;
        if (choice.column === null || isWithin(choice.column, left)) kept.push(choice);
      }
      if (kept.length === 0) return;
      least += kept[0]!.loss;
      fitting.push(kept);
    }
    if (least > most - best) return;
    let first = 0;
    for (let at = 1; at < fitting.length; at++) if (fitting[at]!.length < fitting[first]!.length) first = at;
    const rest = fitting.filter((_, at) => at !== first);
    const without = least - fitting[first]![0]!.loss;
    for (const { column, loss: more } of fitting[first]!) {
      if (without + more > most - best || looks > looksMost) return;
      if (column === null) {
        descend(rest, loss + more, worth);
        continue;
      }
      take(column, left);
      now.push(column);
      descend(rest, loss + more, worth + column.worth);
      now.pop();
      giveBack(column, left);
    }
  };
  descend(lists, 0, 0);
  job.work += looks * CHOICE_STEP + lists.length * 200;
  return answer;
}
