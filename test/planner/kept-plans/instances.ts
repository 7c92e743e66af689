/** Reads `instances.txt`: boards and blanks of the literature and of the shop. */
import { readFileSync } from 'node:fs';
import type { Problem } from '../../../worker/planner/problem.ts';
import { type Instance, problemOf } from '../../bench/instance.ts';

export interface KnownInstance {
  readonly name: string;
  readonly problem: Problem;
  /** Published, or found by an exact search of its own. */
  readonly optimum: number;
}

const any = (word: string | undefined): number | null => (word === undefined || word === '-' ? null : Number(word));
const fours = (list: readonly number[]) =>
  Array.from(
    { length: list.length / 4 },
    (_, no) => list.slice(4 * no, 4 * no + 4) as [number, number, number, number],
  );

export function knownInstances(): readonly KnownInstance[] {
  const text = readFileSync(new URL('instances.txt', import.meta.url), 'utf8');
  return text.split('\n## ').slice(1).map(instanceOf);
}

function instanceOf(text: string): KnownInstance {
  const [name = '', , facts = '', ...lines] = text.trim().split('\n');
  const [objective = '', rip, crosscut, stages, optimum] = facts.split(' ');
  if (objective !== 'value' && objective !== 'boards' && objective !== 'net') throw new Error(`${name}: ${objective}?`);
  const rows = lines.map((line) => line.split(' '));
  const instance: Instance = {
    name,
    objective,
    kerf: { rip: Number(rip), crosscut: Number(crosscut) },
    maxStages: any(stages),
    boards: rows
      .filter(([first]) => first === 'board')
      .map(([, tag = '', length, width, count, cost, ...defects]) => ({
        tag,
        length: Number(length),
        width: Number(width),
        count: any(count),
        ...(any(cost) === null ? {} : { cost: Number(cost) }),
        defects: fours(defects.map(Number)).map(([from, to, left, right]) => ({ from, to, left, right })),
      })),
    blanks: rows
      .filter(([first]) => first !== 'board')
      .map(([length, width, quantity, value], no) => ({
        part: `p${no + 1}`,
        length: Number(length),
        width: Number(width),
        quantity: any(quantity),
        ...(any(value) === null ? {} : { value: Number(value) }),
      })),
  };
  return { name, problem: problemOf(instance), optimum: Number(optimum) };
}
