/**
 * How long the two offcut questions take over 1,000 boards and 50 kinds of parts, in processor time of this process, so
 * that work beside it counts little: npx node test/bench/offcut-questions.ts
 */
import { homesFor, usesOf } from '../../worker/planner/offcut.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const TIMES = 8;
const settings = shopSettings();
const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const boards = Array.from({ length: 1000 }, (_, index) =>
  board({ ...sizes(24 + (index % 90), 3 + (index % 7), 1), tag: `B-${index}` }),
);
const parts = Array.from({ length: 50 }, (_, index) =>
  part({
    ...sizes(10 + index, 1.5 + (index % 5) / 2, 0.75),
    key: String(index),
    label: `Part ${index}`,
    quantity: 4,
  }),
);
const owner = job(parts);
const snapshot = { worth: COMMON_WORTH, settings, boards, jobs: [owner] };

function cpuMs(ask: () => unknown): number[] {
  return Array.from({ length: TIMES }, () => {
    const from = process.cpuUsage();
    ask();
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000;
  });
}

const report = (name: string, times: readonly number[]) => {
  const sorted = times.slice(1).sort((a, b) => a - b);
  console.log(JSON.stringify({ name, firstMs: times[0], medianMs: sorted[sorted.length >> 1] }));
};
report(
  'the best home for one part',
  cpuMs(() => homesFor({ question: { jobId: owner.id, partKey: '20', element: null }, snapshot })),
);
report(
  'what one board can still make',
  cpuMs(() => usesOf({ question: { boardId: boards[40]?.id }, snapshot })),
);
