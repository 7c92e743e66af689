/**
 * Times the reading of a board list of 2,000 rows, the table found and each row read; and of one whose woods are all
 * unknown, which looks for the nearest names. Prints the least of a few runs; ends with an error past 300 ms.
 */
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { blockOf } from '../sheet/block.ts';
import { hopelessBoardList, LARGE_ROWS, largeBoardList } from '../sheet/large-lists.ts';

const MS_MAX = 300;
const RUNS = 5;
const defaults = { system: 'in', readOn: '2026-11-02' } as const;

for (const [name, list] of [
  ['as a shop writes them', largeBoardList],
  ['of unknown woods', hopelessBoardList],
] as const) {
  const block = blockOf(list);
  const runsMs = Array.from({ length: RUNS }, () => {
    const startedMs = performance.now();
    const found = findTable(block, 'boards', defaults);
    if (!found.ok) throw new Error(found.help);
    const { rows, faults } = readBoardRows(block, found.mapping, defaults);
    const tookMs = performance.now() - startedMs;
    if (rows.length + faults.length !== LARGE_ROWS) throw new Error(`${rows.length} rows, ${faults.length} faults`);
    return tookMs;
  });
  const leastMs = Math.min(...runsMs);
  console.log(`${LARGE_ROWS} rows ${name}: ${leastMs.toFixed(0)} ms (least of ${RUNS})`);
  if (leastMs > MS_MAX) process.exitCode = 1;
}
