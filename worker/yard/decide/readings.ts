/** Moisture readings of days that have not come: most likely a slip of the year, and a wet board would count as dry. */
import type { Reading } from '../../contract/board.ts';
import type { Fault } from '../../contract/problem.ts';
import { dayAfter, dayOfMs, dayText } from '../../wood/day.ts';

/**
 * A fault for each reading after tomorrow by the yard's own clock, which counts days in UTC: where it is tomorrow already,
 * today's reading is good. `at` says where the readings stand in the request.
 */
export function readingsToCome(
  readings: readonly Reading[],
  atMs: number,
  at: { readonly pointer: string; readonly row?: number },
): readonly Fault[] {
  const last = dayAfter(dayOfMs(atMs), 1);
  return readings.flatMap(({ on }, index): Fault[] => {
    if (on <= last) return [];
    const help = 'this day is still to come; give the day on which the moisture was read';
    const row = at.row === undefined ? {} : { row: at.row };
    return [{ pointer: `${at.pointer}/${index}/on`, ...row, field: 'readings', read: dayText(on), help }];
  });
}
