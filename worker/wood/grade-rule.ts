/**
 * What the hardwood grades ask of a board, as two merchants' copies of the same one-page summary of the inspection
 * rules state it (second hand). The rule book itself was not read, so every answer built on this is advice.
 */
import { requireWithin } from './result.ts';
import type { SourceFlag } from './source.ts';
import { NM_PER_FOOT, NM_PER_INCH } from './unit.ts';

/** Grades that the yield of clear cuttings on one face decides, best first. */
export type FaceGrade = 'FAS' | 'No.1C' | 'No.2A' | 'No.3A';

export interface CuttingMin {
  readonly widthNm: number;
  readonly lengthNm: number;
}

export interface GradeRule {
  readonly grade: FaceGrade;
  readonly boardMin: CuttingMin;
  /** A cutting must reach one of these sizes. */
  readonly cuttingMins: readonly CuttingMin[];
  readonly source: SourceFlag;
}

/** So many cuttings may be taken, and they must hold so many cutting units (1 in × 1 ft of face). */
export interface GradeNeed {
  readonly cuttings: number;
  readonly units: number;
  /** Full-width cuttings only (the 97 % rule). */
  readonly fullWidth: boolean;
}

const size = (inches: number, feet: number): CuttingMin => ({
  widthNm: inches * NM_PER_INCH,
  lengthNm: feet * NM_PER_FOOT,
});

export const gradeRules: Readonly<Record<FaceGrade, GradeRule>> = {
  FAS: { grade: 'FAS', boardMin: size(6, 8), cuttingMins: [size(4, 5), size(3, 7)], source: 'second-hand' },
  'No.1C': { grade: 'No.1C', boardMin: size(3, 4), cuttingMins: [size(4, 2), size(3, 3)], source: 'second-hand' },
  'No.2A': { grade: 'No.2A', boardMin: size(3, 4), cuttingMins: [size(3, 2)], source: 'second-hand' },
  'No.3A': { grade: 'No.3A', boardMin: size(3, 4), cuttingMins: [size(3, 2)], source: 'second-hand' },
};

/** A Selects board, a better face of FAS on a board too small for F1F. */
export const SELECTS_BOARD_MIN = size(4, 6);

/**
 * Dry boards run narrow: graded boards of the 1998 red-oak data bank are FAS at 5¾ in. The rule's own sentence was not
 * read.
 */
export const DRY_WIDTH_TOLERANCE_NM = NM_PER_INCH / 4;

/** More cuttings than anyone takes: No.3A sets no number. */
export const CUTTINGS_ANY = 12;

const need = (cuttings: number, units: number, fullWidth = false): GradeNeed => ({ cuttings, units, fullWidth });

/**
 * The ways in which a face of this surface measure makes the grade; any one suffices. FAS of 10 ft²: 100 units in 2
 * cuttings, or 110 in 3. A fraction of a cutting is dropped (from memory).
 */
export function gradeNeeds(grade: FaceGrade, surfaceMeasure: number): readonly GradeNeed[] {
  requireWithin('surface measure', surfaceMeasure, 0, 1e6);
  const sm = surfaceMeasure;
  switch (grade) {
    case 'FAS':
      return fasNeeds(sm);
    case 'No.1C': {
      if (sm <= 1) return [need(1, 12 * sm)];
      if (sm === 2) return [need(1, 9 * sm)];
      const cuttings = Math.min(5, Math.floor((sm + 1) / 3));
      return [need(cuttings, 8 * sm), ...(sm <= 10 ? [need(cuttings + 1, 9 * sm)] : [])];
    }
    case 'No.2A': {
      if (sm <= 1) return [need(1, 8 * sm)];
      const cuttings = Math.min(7, Math.floor(sm / 2));
      return [need(cuttings, 6 * sm), ...(sm <= 7 ? [need(cuttings + 1, 8 * sm)] : [])];
    }
    case 'No.3A':
      return [need(CUTTINGS_ANY, 4 * sm)];
  }
}

function fasNeeds(sm: number): GradeNeed[] {
  const cuttings = Math.min(4, Math.floor(sm / 4));
  const needs = cuttings > 0 ? [need(cuttings, 10 * sm)] : [];
  if (sm >= 6 && sm <= 15) needs.push(need(cuttings + 1, 11 * sm));
  if (sm >= 6 && sm <= 12) needs.push(need(2, 11.64 * sm, true));
  return needs;
}
