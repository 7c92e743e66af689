/**
 * Plans many small problems at random and has each plan re-checked: `node test/bench/random-plans.ts [COUNT] [FIRST SEED]`.
 * Prints how far it is; ends with an error at the first plan that a saw could not make.
 */
import { faultsFor, randomProblem } from '../planner/random-plans.ts';

const count = Number(process.argv[2] ?? 100_000);
const first = Number(process.argv[3] ?? 1);
let pieces = 0;
let wrong = 0;
for (let done = 0; done < count; done++) {
  const seed = first + done;
  const found = faultsFor(randomProblem(seed), seed);
  pieces += found.pieces;
  if (found.faults.length > 0) {
    wrong++;
    process.stderr.write(`seed ${seed}: ${found.faults.join('; ')}\n`);
  }
  if ((done + 1) % 1000 === 0) process.stdout.write(`${done + 1} plans, ${pieces} pieces, ${wrong} wrong\n`);
}
process.stdout.write(`${count} plans, ${pieces} pieces, ${wrong} wrong\n`);
if (wrong > 0) process.exitCode = 1;
