/**
 * What a part may have on its faces, told as rectangles of a board that its blanks must stay clear of: one list for each
 * quality, in the order of `qualities`.
 */
import type { Board, Defect, DefectKind } from '../contract/board.ts';
import type { Faces } from '../contract/job.ts';
import { NM_PER_INCH } from '../wood/unit.ts';

export const qualities: readonly Faces[] = ['clear-both', 'clear-one', 'sound-knots', 'hidden'];

export const qualityIndex = (faces: Faces): number => qualities.indexOf(faces);

/** No part takes these, wherever they are. */
const NEVER: ReadonlySet<DefectKind> = new Set(['pith', 'rot', 'split', 'knot-loose', 'wane']);
const SOUND: ReadonlySet<DefectKind> = new Set(['knot-sound', 'stain']);
const IN_CASEWORK: ReadonlySet<DefectKind> = new Set(['knot-sound', 'stain', 'saw-mark', 'worm']);

/** These run further along the grain than they show. */
const RUNS_ON: ReadonlySet<DefectKind> = new Set(['check', 'split']);

/** A surface check up to this long closes under glue and finish where nobody looks. Common practice, no source. */
const SMALL_CHECK_NM = 3 * NM_PER_INCH;

type Face = Pick<Board, 'defects' | 'lengthNm' | 'widthNm'>;

/**
 * For each quality the defects that its blanks must not touch, checks and splits longer at both ends by the shop's end
 * trim: a crack runs further than it shows (common practice, no source).
 */
export function blockedBy(board: Face, endTrimNm: number): readonly (readonly Defect[])[] {
  const clearFace = betterFace(board.defects);
  return [
    board.defects,
    board.defects.filter((defect) => spoilsOneClearFace(defect, clearFace)),
    board.defects.filter((defect) => !SOUND.has(defect.kind)),
    board.defects.filter(spoilsCasework),
  ].map((defects) => defects.map((defect) => asFarAsItRuns(defect, board.lengthNm, endTrimNm)));
}

function asFarAsItRuns(defect: Defect, lengthNm: number, endTrimNm: number): Defect {
  if (!RUNS_ON.has(defect.kind)) return defect;
  return {
    ...defect,
    fromNm: Math.max(0, defect.fromNm - endTrimNm),
    toNm: Math.min(lengthNm, defect.toNm + endTrimNm),
  };
}

/** One clear face: the better face of the board is the show face, the other may be as casework. */
function spoilsOneClearFace(defect: Defect, clearFace: 'a' | 'b'): boolean {
  return defect.face === 'through' || defect.face === clearFace || spoilsCasework(defect);
}

function spoilsCasework(defect: Defect): boolean {
  if (NEVER.has(defect.kind)) return true;
  if (IN_CASEWORK.has(defect.kind)) return false;
  return defect.face === 'through' || defect.toNm - defect.fromNm > SMALL_CHECK_NM;
}

/** The face with less of it spoiled; face a when they are equal. */
function betterFace(defects: readonly Defect[]): 'a' | 'b' {
  const spoiled = { a: 0, b: 0 };
  for (const defect of defects)
    if (defect.face !== 'through')
      spoiled[defect.face] += ((defect.toNm - defect.fromNm) / 1e6) * ((defect.rightNm - defect.leftNm) / 1e6);
  return spoiled.b < spoiled.a ? 'b' : 'a';
}
