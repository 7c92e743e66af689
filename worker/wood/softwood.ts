/**
 * Softwood is sold by nominal size and is dressed smaller (American Softwood Lumber Standard, PS 20): a 2×4 tallies as
 * 2 × 4 in and holds 1½ × 3½ in of wood.
 */
import { requireWithin } from './result.ts';
import type { SourceFlag } from './source.ts';
import { NM_PER_INCH } from './unit.ts';

interface DressedRow {
  readonly nominalInch: number;
  readonly dryInch: number;
  readonly greenInch: number;
  readonly source: SourceFlag;
}

const row = (nominalInch: number, dryInch: number, greenInch: number, source: SourceFlag): DressedRow => ({
  nominalInch,
  dryInch,
  greenInch,
  source,
});

/** The dry sizes flagged second-hand stand in copies of PS 20; green sizes and the odd rows are from memory. */
const thicknesses: readonly DressedRow[] = [
  row(1, 3 / 4, 25 / 32, 'second-hand'),
  row(1.25, 1, 1 + 1 / 32, 'from-memory'),
  row(1.5, 1.25, 1 + 9 / 32, 'from-memory'),
  row(2, 1.5, 1 + 9 / 16, 'second-hand'),
  row(2.5, 2, 2 + 1 / 16, 'from-memory'),
  row(3, 2.5, 2 + 9 / 16, 'from-memory'),
  row(3.5, 3, 3 + 1 / 16, 'from-memory'),
  row(4, 3.5, 3 + 9 / 16, 'second-hand'),
];
const widths: readonly DressedRow[] = [
  row(2, 1.5, 1 + 9 / 16, 'from-memory'),
  row(3, 2.5, 2 + 9 / 16, 'from-memory'),
  row(4, 3.5, 3 + 9 / 16, 'second-hand'),
  row(5, 4.5, 4 + 5 / 8, 'from-memory'),
  row(6, 5.5, 5 + 5 / 8, 'second-hand'),
  row(8, 7.25, 7.5, 'second-hand'),
  row(10, 9.25, 9.5, 'second-hand'),
  row(12, 11.25, 11.5, 'second-hand'),
  row(14, 13.25, 13.5, 'from-memory'),
  row(16, 15.25, 15.5, 'from-memory'),
];

export interface SoftwoodSize {
  readonly thicknessNm: number;
  readonly widthNm: number;
  /** The weaker of the two figures' sources. */
  readonly source: SourceFlag;
}

/**
 * Dressed size of a nominal size in inches (2, 4 for a 2×4), surfaced dry or green; null for a size that the standard
 * does not list.
 */
export function softwoodDressed(
  nominalThicknessInch: number,
  nominalWidthInch: number,
  surfaced: 'dry' | 'green' = 'dry',
): SoftwoodSize | null {
  const thickness = thicknesses.find((t) => t.nominalInch === nominalThicknessInch);
  const width = widths.find((w) => w.nominalInch === nominalWidthInch);
  if (!thickness || !width) return null;
  const known = surfaced === 'dry' && thickness.source === 'second-hand' && width.source === 'second-hand';
  const of = (r: DressedRow) => (surfaced === 'dry' ? r.dryInch : r.greenInch) * NM_PER_INCH;
  return { thicknessNm: of(thickness), widthNm: of(width), source: known ? 'second-hand' : 'from-memory' };
}

/**
 * Shrinkage of unspecified-grain softwood lumber from green, percent of the green size: width 6.031 − 0.215 M,
 * thickness 5.062 − 0.181 M, for M from 8 to 19 % (Green 1989, FPL-RP-489). At 15 %: 2.806 and 2.347.
 */
export function softwoodShrinkPercent(moisturePercent: number): { widthPercent: number; thicknessPercent: number } {
  requireWithin('moisture content', moisturePercent, 8, 19);
  return { widthPercent: 6.031 - 0.215 * moisturePercent, thicknessPercent: 5.062 - 0.181 * moisturePercent };
}
