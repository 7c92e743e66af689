/**
 * Measures the planner on instances with known optima: `node test/bench/planner.ts DIR [effort] [name pattern]`. One line of JSON
 * an instance, one a file at the end. Every layout is checked again by code that the search does not share. The first
 * instances of a file are solved once before, in little work and not measured, so that no instance pays for compiling.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Effort, Problem } from '../../worker/planner/problem.ts';
import { solve } from '../../worker/planner/solve.ts';
import { type Instance, problemOf } from './instance.ts';

const [directory, effortGiven, pattern] = process.argv.slice(2);
if (!directory) {
  process.stderr.write('Say which directory holds the instances: npm run bench:planner -- DIR\n');
  process.exit(2);
}
const effort: Effort = effortGiven === 'quick' || effortGiven === 'long' ? effortGiven : 'normal';
const wanted = new RegExp(pattern ?? '.');
const WARM = 3;

for (const file of readdirSync(directory).sort()) {
  if (!file.endsWith('.json')) continue;
  const read: Instance | Instance[] = JSON.parse(readFileSync(join(directory, file), 'utf8'));
  const instances = (Array.isArray(read) ? read : [read]).filter((one) => wanted.test(one.name) || wanted.test(file));
  if (instances.length === 0) continue;
  for (const instance of instances.slice(0, WARM)) solve(problemOf(instance), { effort: 'quick', seed: 1 });
  const results = instances.map(measure);
  const ratios = results.flatMap((result) => (result.ratio === null ? [] : [result.ratio]));
  const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);
  const fewest = instances[0]!.objective === 'boards';
  process.stdout.write(
    `${JSON.stringify({
      file,
      instances: instances.length,
      ratioMean: round(sum(ratios) / ratios.length),
      ratioWorst: fewest ? Math.max(...ratios) : Math.min(...ratios),
      optimumReached: results.filter((r) => r.ratio !== null && (fewest ? r.ratio <= 1 : r.ratio >= 1 - 1e-9)).length,
      achievedSum: round(sum(results.map((result) => result.achieved))),
      optimumSum: round(sum(instances.map((one) => one.optimum ?? 0))),
      boundRatioMean: round(sum(results.map((r) => r.achieved / r.bound)) / results.length),
      boundWrong: results.filter((r) => r.boundWrong).map((r) => r.name),
      faults: sum(results.map((result) => result.faults.length)),
      secondsMean: round(sum(results.map((result) => result.seconds)) / results.length),
      busySecondsMean: round(sum(results.map((result) => result.busySeconds)) / results.length),
      busySecondsWorst: Math.max(...results.map((result) => result.busySeconds)),
      secondsWorst: Math.max(...results.map((result) => result.seconds)),
    })}\n`,
  );
}

function measure(instance: Instance) {
  const problem: Problem = problemOf(instance);
  const started = performance.now();
  const busyBefore = process.cpuUsage().user;
  const solution = solve(problem, { effort, seed: 1 });
  const seconds = round((performance.now() - started) / 1000);
  const busySeconds = round((process.cpuUsage().user - busyBefore) / 1e6);
  const faults = checkSolution(problem, solution);
  const optimum = instance.optimum ?? null;
  const ratio = optimum === null ? null : solution.achieved / optimum;
  const proven = optimum !== null && instance.optimumIs === 'proven';
  const boundWrong =
    proven && (problem.objective === 'boards' ? solution.bound > optimum : solution.bound < optimum * (1 - 1e-9));
  const result = {
    name: instance.name,
    objective: instance.objective,
    achieved: solution.achieved,
    bound: solution.bound,
    optimum,
    ratio: ratio === null ? null : round(ratio),
    seconds,
    busySeconds,
    layouts: solution.layouts.map((layout) => ({
      board: problem.boards[layout.board]!.tag,
      pieces: layout.pieces.map(({ blank, from, to, left, right }) => ({
        part: problem.blanks[blank]!.part,
        from,
        to,
        left,
        right,
      })),
    })),
  };
  process.stdout.write(`${JSON.stringify(result)}\n`);
  for (const fault of faults) process.stderr.write(`${instance.name}: ${fault}\n`);
  return { ...result, ratio, faults, boundWrong };
}

function round(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
