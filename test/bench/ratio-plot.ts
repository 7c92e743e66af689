/** A plot of bars: how many times as long each thing takes per item in the large yard; the line is where it would be too long. */

export interface RatioRow {
  readonly name: string;
  /** Microseconds an item. */
  readonly smallUs: number;
  readonly largeUs: number;
  readonly ratio: number;
}

const WIDTH = 760;
const ROW = 26;
const LEFT = 230;
const TOP = 58;
const LIMIT = 2;
const END = 3;

const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

export function ratioPlot(rows: readonly RatioRow[], title: string): string {
  const x = (ratio: number) => LEFT + (Math.min(ratio, END) / END) * (WIDTH - LEFT - 150);
  const height = TOP + rows.length * ROW + 34;
  const bars = rows.map(({ name, smallUs, largeUs, ratio }, at) => {
    const y = TOP + at * ROW;
    return [
      `<text x="${LEFT - 10}" y="${y + 16}" text-anchor="end">${escaped(name)}</text>`,
      `<rect x="${LEFT}" y="${y + 4}" width="${(x(ratio) - LEFT).toFixed(1)}" height="16" class="${ratio > LIMIT ? 'over' : 'bar'}"/>`,
      `<text x="${(x(ratio) + 6).toFixed(1)}" y="${y + 16}" class="fine">${ratio.toFixed(2)}× (${smallUs} → ${largeUs} µs)</text>`,
    ].join('\n');
  });
  const marks = [0, 1, 2, 3].map(
    (mark) =>
      `<line x1="${x(mark)}" x2="${x(mark)}" y1="${TOP - 4}" y2="${height - 26}" class="${mark === LIMIT ? 'limit' : 'grid'}"/>` +
      `<text x="${x(mark)}" y="${height - 10}" text-anchor="middle" class="fine">${mark}×</text>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="${escaped(title)}">
<style>
svg { background: #fff; font: 13px system-ui, sans-serif; }
text { fill: #222; } .fine { fill: #555; font-size: 11px; } .title { font-weight: 600; font-size: 14px; }
.bar { fill: #2f6f4f; } .over { fill: #b3541e; } .grid { stroke: #ddd; } .limit { stroke: #b3541e; stroke-dasharray: 4 3; }
</style>
<text x="16" y="24" class="title">Time an item, ${escaped(title)}</text>
<text x="16" y="42" class="fine">Middle of fifteen turns each, turn by turn in one run; the dashed line is twice as long.</text>
${marks.join('\n')}
${bars.join('\n')}
</svg>
`;
}
