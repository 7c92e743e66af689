/**
 * What plans of made jobs save by each aim: `node test/bench/aims.ts [JOBS] [quick|normal]`. One line of JSON a job, then
 * how often the plan searched for an aim is beaten at it by a plan searched for another, and the sums by aim.
 */
import { planAim } from '../../worker/contract/plan.ts';
import { figuresByAim } from '../planner/made-jobs.ts';

const count = Number(process.argv[2] ?? 20);
const effort = process.argv[3] === 'normal' ? 'normal' : 'quick';
const from = process.cpuUsage().user;
const jobs = Array.from({ length: count }, (_, at) => {
  const figures = figuresByAim(at + 1, effort);
  process.stdout.write(`${JSON.stringify({ seed: at + 1, ...figures })}\n`);
  return figures;
});
const byAim = planAim.options.map((aim) => {
  const beaten = jobs.filter((plans) => planAim.options.some((other) => plans[other][aim] < plans[aim][aim])).length;
  const sums = planAim.options.map((saved) => [saved, jobs.reduce((sum, plans) => sum + plans[aim][saved], 0)]);
  return [aim, { beaten, ...Object.fromEntries(sums) }];
});
const seconds = Math.round((process.cpuUsage().user - from) / 1e6);
process.stdout.write(`${JSON.stringify({ jobs: count, effort, ...Object.fromEntries(byAim), seconds })}\n`);
