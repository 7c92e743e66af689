/** Rows whose three sizes are all ten or so times those of the others: measured in another unit, most likely. */
import { medianOf } from './column-units.ts';

interface Sized {
  readonly name: string;
  readonly lengthNm: number | string;
  readonly widthNm: number | string;
  readonly thicknessNm: number | string;
}

/** An inch has 25 millimetres; a knob beside a table top differs less in its thickness. */
const TIMES = 8;
const ROWS_MIN = 3;

export function scaleDoubts(rows: readonly Sized[]): string[] {
  if (rows.length < ROWS_MIN) return [];
  const sizes = rows.map((row) => [Number(row.lengthNm), Number(row.widthNm), Number(row.thicknessNm)] as const);
  const middle = [0, 1, 2].map((axis) => medianOf(sizes.map((size) => size[axis as 0 | 1 | 2])) ?? 0);
  const such = (test: (nm: number, median: number) => boolean) =>
    rows.flatMap((row, i) => ((sizes[i] ?? []).every((nm, axis) => test(nm, middle[axis] ?? 0)) ? [row.name] : []));
  const large = such((nm, median) => nm >= median * TIMES);
  const small = such((nm, median) => nm * TIMES <= median);
  return [
    ...(large.length === 0 ? [] : [doubt(large, 'larger')]),
    ...(small.length === 0 ? [] : [doubt(small, 'smaller')]),
  ];
}

const doubt = (names: readonly string[], how: string) =>
  `${names.length === 1 ? '1 row' : `${names.length} rows`} many times ${how} than the others in every size: in another unit? ${firstOf(names)}.`;

const NAMED = 5;
export const firstOf = (names: readonly string[]): string =>
  names.slice(0, NAMED).join(', ') + (names.length > NAMED ? ` and ${names.length - NAMED} more` : '');
