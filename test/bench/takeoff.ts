/** How long the takeoff of 500 rows against 1,000 boards takes, half of them warped: npx node test/bench/takeoff.ts */
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { board, inch, mm, part, shopSettings } from '../takeoff/shop-cases.ts';

const TIMES = 9;
const parts = Array.from({ length: 500 }, (_, index) =>
  part({
    key: String(index),
    quantity: 1 + (index % 7),
    species: ['white-oak', 'black-walnut', 'hard-maple', 'cherry'][index % 4] ?? 'white-oak',
    lengthNm: inch(12 + (index % 80)),
    widthNm: inch(2 + (index % 9) / 2),
    thicknessNm: inch([0.75, 1, 1.75][index % 3] ?? 0.75),
    lamination: index % 10 === 0 ? { kind: 'staves', count: 5 } : null,
  }),
);
const boards = Array.from({ length: 1000 }, (_, index) =>
  board({
    species: ['white-oak', 'black-walnut', 'hard-maple', 'cherry'][index % 4] ?? 'white-oak',
    lengthNm: inch(60 + (index % 100)),
    widthNm: inch(4 + (index % 9)),
    thicknessNm: inch([1, 1.25, 2][index % 3] ?? 1),
    warp: index % 2 === 0 ? null : { bowNm: mm(3), crookNm: mm(index % 20), cupNm: mm(1), twistNm: mm(index % 11) },
    readings: [{ moisturePercent: 7 + (index % 60) / 10, on: '2026-03-01', meter: 'pin' }],
  }),
);
const settings = shopSettings();
const timesMs = Array.from({ length: TIMES }, () => {
  const from = performance.now();
  takeoff({ parts, boards, settings, jobId: null });
  return performance.now() - from;
});
const sorted = timesMs.slice(1).sort((a, b) => a - b);
console.log(
  JSON.stringify({ name: '500 rows, 1,000 boards', firstMs: timesMs[0], medianMs: sorted[sorted.length >> 1] }),
);
