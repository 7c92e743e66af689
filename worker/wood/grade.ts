/**
 * The grade that a board's measured defects would give it, with the cuttings that show why. Advice only: it certifies
 * nothing, it finds cuttings by search, and it knows only the defects that were measured.
 */

import type { FaceRect } from './face-rect.ts';
import { bestCuttings, totalUnits } from './grade-cuttings.ts';
import {
  type CuttingMin,
  DRY_WIDTH_TOLERANCE_NM,
  type FaceGrade,
  type GradeNeed,
  gradeNeeds,
  gradeRules,
  SELECTS_BOARD_MIN,
} from './grade-rule.ts';
import { requireWithin } from './result.ts';
import { NM_PER_FOOT, NM_PER_INCH } from './unit.ts';
import { type Face, surfaceMeasure } from './volume.ts';

export type GradeDefectKind =
  | 'knot-sound'
  | 'knot-loose'
  | 'split'
  | 'check'
  | 'wane'
  | 'saw-mark'
  | 'stain'
  | 'pith'
  | 'rot'
  | 'worm'
  | 'shake'
  | 'bark-pocket'
  | 'gum'
  | 'sapwood';

export interface GradeDefect extends FaceRect {
  readonly kind: GradeDefectKind;
  readonly face: 'a' | 'b' | 'through';
}

export type HardwoodGrade = 'FAS' | 'F1F' | 'Selects' | 'No.1C' | 'No.2A' | 'No.3A' | 'below No.3A';

/** Best first: each takes all that those after it take. */
const GRADES: readonly HardwoodGrade[] = ['FAS', 'F1F', 'Selects', 'No.1C', 'No.2A', 'No.3A', 'below No.3A'];

export const gradeIsAtLeast = (made: HardwoodGrade, paid: HardwoodGrade): boolean =>
  GRADES.indexOf(made) <= GRADES.indexOf(paid);

/** Ways to write a grade, without spaces, points and signs. */
const GRADE_WORDS: readonly (readonly [HardwoodGrade, RegExp])[] = [
  ['F1F', /^(?:f1f|fas1f|fas1face|fasoneface|fas1)$/],
  ['FAS', /^(?:fas|firstsandseconds|firsts?seconds|prime|1s2s)$/],
  ['Selects', /^sel(?:ects?)?(?:&?btr|andbetter)?$/],
  ['No.1C', /^(?:no)?1(?:c|com|common)$/],
  ['No.2A', /^(?:no)?2(?:a|ac|acom|acommon|c|com|common)$/],
  ['No.3A', /^(?:no)?3(?:a|ac|acom|acommon|c|com|common)$/],
];

/** The grade that a bill's words mean ("FAS", "#1 Com", "2AC", "Sel & Btr"); null for anything else. */
export function readGrade(text: string): HardwoodGrade | null {
  const plain = text.toLowerCase().replaceAll(/[\s.#_-]/g, '');
  return GRADE_WORDS.find(([, words]) => words.test(plain))?.[0] ?? null;
}

export interface FaceAdvice {
  readonly face: 'a' | 'b';
  readonly grade: FaceGrade | null;
  /** Where the grade's cuttings lie. */
  readonly cuttings: readonly FaceRect[];
  readonly units: number;
  /** What the grade asked for; null where none was made. */
  readonly need: GradeNeed | null;
}

export interface GradeAdvice {
  readonly grade: HardwoodGrade;
  readonly surfaceMeasure: number;
  readonly better: FaceAdvice;
  readonly poorer: FaceAdvice;
  /** Why no better grade, in plain words. */
  readonly notes: readonly string[];
}

/** What a clear cutting may not show on its face. Stain, sapwood and saw marks are let pass (from memory). */
const NOT_CLEAR: readonly GradeDefectKind[] = [
  'knot-sound',
  'knot-loose',
  'split',
  'check',
  'wane',
  'pith',
  'rot',
  'worm',
  'shake',
  'bark-pocket',
  'gum',
];
/** What makes the reverse of a cutting unsound (from memory). */
const NOT_SOUND: readonly GradeDefectKind[] = ['knot-loose', 'split', 'wane', 'pith', 'rot', 'shake', 'bark-pocket'];

const FACE_GRADES: readonly FaceGrade[] = ['FAS', 'No.1C', 'No.2A', 'No.3A'];

/**
 * Grade by the poorer face, the reverse of its cuttings sound. A board that makes No.1 Common so is F1F, or Selects
 * where it is too small for that, if its better face alone cuts as FAS. Boards may be a quarter inch narrow (dry).
 * Surface measure rounds an exact half foot down.
 */
export function gradeAdvice(board: Face, defects: readonly GradeDefect[]): GradeAdvice {
  for (const defect of defects) requireOnBoard(defect, board);
  const sm = surfaceMeasure(board);
  const a = faceAdvice(board, ofFace('a', defects), 'a', sm);
  const b = faceAdvice(board, ofFace('b', defects), 'b', sm);
  const [better, poorerAlone] = isBetter(b, a) ? [b, a] : [a, b];
  const poorer = faceAdvice(board, ofFaceAndReverse(poorerAlone.face, defects), poorerAlone.face, sm);
  const large = isLarge(board, gradeRules.FAS.boardMin);
  const limits = poorer.grade === 'FAS' ? fasLimitNotes(board, defects, sm) : [];
  const notes = [...limits, ...(large ? [] : ['FAS takes boards from 6 in wide and 8 ft long'])];
  const byPoorer: HardwoodGrade = limits.length > 0 ? 'No.1C' : (poorer.grade ?? 'below No.3A');
  const oneFace = byPoorer === 'No.1C' ? fasAlone(board, defects, better.face, sm) : null;
  if (!oneFace || !isLarge(board, SELECTS_BOARD_MIN) || !waneIsSmall(board, defects, poorer.face)) {
    return { grade: byPoorer, surfaceMeasure: sm, better, poorer, notes };
  }
  return { grade: large ? 'F1F' : 'Selects', surfaceMeasure: sm, better: oneFace, poorer, notes };
}

function requireOnBoard(defect: GradeDefect, board: Face): void {
  requireWithin('defect begins', defect.fromNm, 0, defect.toNm);
  requireWithin('defect ends', defect.toNm, 0, board.lengthNm);
  requireWithin('left of the defect', defect.leftNm, 0, defect.rightNm);
  requireWithin('right of the defect', defect.rightNm, 0, board.widthNm);
}

/** Whether a board's size alone lets it into a grade, with the dry tolerance on width. */
export function isLarge(board: Face, min: CuttingMin): boolean {
  const feet = Math.floor(board.lengthNm / NM_PER_FOOT) * NM_PER_FOOT;
  return board.widthNm + DRY_WIDTH_TOLERANCE_NM >= min.widthNm && feet >= min.lengthNm;
}

const ofFace = (face: 'a' | 'b', defects: readonly GradeDefect[]) =>
  defects.filter((d) => (d.face === face || d.face === 'through') && NOT_CLEAR.includes(d.kind));

/** A clear-face cutting is clear on its face and sound on its reverse. */
const ofFaceAndReverse = (face: 'a' | 'b', defects: readonly GradeDefect[]) => [
  ...ofFace(face, defects),
  ...defects.filter((d) => d.face !== face && d.face !== 'through' && NOT_SOUND.includes(d.kind)),
];

function faceAdvice(board: Face, blocked: readonly FaceRect[], face: 'a' | 'b', sm: number): FaceAdvice {
  for (const grade of FACE_GRADES) {
    if (!isLarge(board, gradeRules[grade].boardMin)) continue;
    const made = makes(board, blocked, grade, sm);
    if (made) return { face, grade, ...made };
  }
  return { face, grade: null, cuttings: [], units: 0, need: null };
}

/**
 * FAS on one face, by its cuttings and limits. The reverse of its cuttings need not be sound for F1F and Selects (from
 * memory; board 1279 of the 1998 red-oak data is so graded).
 */
function fasAlone(board: Face, defects: readonly GradeDefect[], face: 'a' | 'b', sm: number): FaceAdvice | null {
  const shown = defects.filter((d) => d.face === face || d.face === 'through');
  if (fasLimitNotes(board, shown, sm).length > 0) return null;
  const made = makes(board, ofFace(face, defects), 'FAS', sm);
  return made && { face, grade: 'FAS', ...made };
}

function makes(board: Face, blocked: readonly FaceRect[], grade: FaceGrade, sm: number) {
  const needs = gradeNeeds(grade, sm);
  const countMax = Math.max(0, ...needs.map((n) => n.cuttings));
  const anywhere = bestCuttings(board, blocked, gradeRules[grade].cuttingMins, countMax);
  for (const need of needs) {
    const fullWidth = [{ widthNm: board.widthNm, lengthNm: 1 }];
    const found = need.fullWidth ? bestCuttings(board, blocked, fullWidth, need.cuttings) : anywhere;
    const cuttings = found[need.cuttings - 1] ?? [];
    const units = totalUnits(cuttings);
    if (units >= need.units) return { cuttings, units, need };
  }
  return null;
}

const rank = (advice: FaceAdvice) => (advice.grade === null ? FACE_GRADES.length : FACE_GRADES.indexOf(advice.grade));

function isBetter(one: FaceAdvice, other: FaceAdvice): boolean {
  return rank(one) < rank(other) || (rank(one) === rank(other) && one.units > other.units);
}

const inches = (nm: number) => nm / NM_PER_INCH;

const runInch = (defects: readonly GradeDefect[]) => defects.reduce((sum, d) => sum + inches(d.toNm - d.fromNm), 0);

/** Wane of a face, apart by the edge it is nearer to. */
function waneByEdge(board: Face, defects: readonly GradeDefect[], face: 'a' | 'b'): readonly GradeDefect[][] {
  const wane = defects.filter((d) => d.kind === 'wane' && (d.face === face || d.face === 'through'));
  const isLeft = (d: GradeDefect) => d.leftNm + d.rightNm < board.widthNm;
  return [wane.filter(isLeft), wane.filter((d) => !isLeft(d))];
}

/** The No.1 Common side of F1F and Selects: wane within a third of the width, both edges added, or half the length. */
function waneIsSmall(board: Face, defects: readonly GradeDefect[], face: 'a' | 'b'): boolean {
  const edges = waneByEdge(board, defects, face);
  const widestNm = edges.map((wane) => Math.max(0, ...wane.map((d) => d.rightNm - d.leftNm)));
  const across = widestNm.reduce((sum, nm) => sum + nm, 0) <= board.widthNm / 3;
  return across || edges.every((wane) => runInch(wane) <= inches(board.lengthNm) / 2);
}

/** FAS limits on pith, wane, knots and splits (second hand); those on the first foot of each end are left out. */
function fasLimitNotes(board: Face, defects: readonly GradeDefect[], sm: number): string[] {
  const ofKind = (...kinds: readonly GradeDefectKind[]) => defects.filter((d) => kinds.includes(d.kind));
  const notes: string[] = [];
  if (runInch(ofKind('pith')) > sm) notes.push(`pith is longer than ${sm} in`);
  const edges = [...waneByEdge(board, defects, 'a'), ...waneByEdge(board, defects, 'b')];
  if (edges.some((wane) => runInch(wane) > inches(board.lengthNm) / 2)) {
    notes.push('wane runs along more than half of an edge');
  }
  const acrossInch = (d: GradeDefect) => inches(d.toNm - d.fromNm + d.rightNm - d.leftNm) / 2;
  if (ofKind('knot-loose', 'knot-sound').some((knot) => acrossInch(knot) > sm / 3)) {
    notes.push(`a knot is wider than a third of the surface measure in inches (${(sm / 3).toFixed(1)} in)`);
  }
  const splitMaxInch = Math.max(2 * sm, 12);
  if (runInch(ofKind('split')) > splitMaxInch) notes.push(`splits are longer than ${splitMaxInch} in`);
  return notes;
}
