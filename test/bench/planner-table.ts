/**
 * The bench's last lines as a table in Markdown: `npm run -s bench:planner -- DIR | node test/bench/planner-table.ts`.
 * Ratios are to the optimum, or to the best known value; seconds are the processor's.
 */
import { createInterface } from 'node:readline';

interface FileLine {
  readonly file: string;
  readonly instances: number;
  readonly ratioMean: number;
  readonly ratioWorst: number;
  readonly optimumReached: number;
  readonly achievedSum: number;
  readonly optimumSum: number;
  readonly boundWrong: readonly string[];
  readonly faults: number;
  readonly busySecondsMean: number;
  readonly busySecondsWorst: number;
}

const rows: string[][] = [];
for await (const line of createInterface({ input: process.stdin })) {
  const read: Partial<FileLine> = line.startsWith('{') ? JSON.parse(line) : {};
  if (read.file !== undefined) rows.push(rowOf(read as FileLine));
}
const heads = [
  'instances',
  'count',
  'mean',
  'worst',
  'in sum',
  'best reached',
  'refused',
  'bound wrong',
  's mean',
  's worst',
];
for (const row of [heads, heads.map((_, i) => (i === 0 ? '---' : '--:')), ...rows])
  process.stdout.write(`| ${row.join(' | ')} |\n`);

function rowOf(line: FileLine): string[] {
  const over = 100 * (line.achievedSum / line.optimumSum - 1);
  return [
    line.file.replace(/\.json$/, ''),
    String(line.instances),
    line.ratioMean.toFixed(4),
    line.ratioWorst.toFixed(4),
    `${over >= 0 ? '+' : '-'}${Math.abs(over).toFixed(2)} %`,
    `${line.optimumReached} (${Math.round((100 * line.optimumReached) / line.instances)} %)`,
    String(line.faults),
    String(line.boundWrong.length),
    line.busySecondsMean.toFixed(2),
    line.busySecondsWorst.toFixed(2),
  ];
}
