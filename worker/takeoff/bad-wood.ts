/** What a part may have on its faces, told as rectangles of a board that its blanks must stay clear of. */
import type { Board, Defect, DefectKind } from '../contract/board.ts';
import type { Faces } from '../contract/job.ts';
import type { RectNm } from '../contract/plan.ts';
import { overlaps } from '../wood/face-rect.ts';
import { NM_PER_INCH } from '../wood/unit.ts';

export const qualities: readonly Faces[] = ['clear-both', 'clear-one', 'sound-knots', 'hidden'];

export const qualityIndex = (faces: Faces): number => qualities.indexOf(faces);

/** No part takes these, wherever they are. */
const NEVER: ReadonlySet<DefectKind> = new Set(['pith', 'rot', 'split', 'shake', 'knot-loose', 'wane']);
const SOUND: ReadonlySet<DefectKind> = new Set(['knot-sound', 'stain', 'gum', 'sapwood']);
const IN_CASEWORK: ReadonlySet<DefectKind> = new Set([
  'knot-sound',
  'stain',
  'gum',
  'sapwood',
  'bark-pocket',
  'saw-mark',
  'worm',
]);

/** These run further along the grain than they show. */
const RUNS_ON: ReadonlySet<DefectKind> = new Set(['check', 'split', 'shake']);

/** A surface check up to this long closes under glue and finish where nobody looks. Common practice, no source. */
const SMALL_CHECK_NM = 3 * NM_PER_INCH;

type Face = Pick<Board, 'defects' | 'lengthNm' | 'widthNm'>;

/** Bad wood of a board, told for whoever asks that much of its faces. */
export interface BadWood<R extends RectNm = RectNm> {
  /** By quality: what its blanks must not touch whichever face is to show. */
  readonly always: readonly (readonly R[])[];
  /** Where one clear face is asked for: what spoils face a as the show face, and face b. A blank may touch one kind. */
  readonly ofShowFace: { readonly a: readonly R[]; readonly b: readonly R[] };
}

/**
 * Checks and splits are longer at both ends by the shop's end trim: a crack runs further than it shows (common practice,
 * no source).
 */
export function badWoodOf(board: Face, endTrimNm: number): BadWood<Defect> {
  const far = (defects: readonly Defect[]) => defects.map((defect) => asFarAsItRuns(defect, board.lengthNm, endTrimNm));
  const { defects } = board;
  const onlyOn = (face: 'a' | 'b') => far(defects.filter((one) => one.face === face && !spoilsCasework(one)));
  return {
    always: [
      far(defects),
      far(defects.filter((one) => one.face === 'through' || spoilsCasework(one))),
      far(defects.filter((one) => !SOUND.has(one.kind))),
      far(defects.filter(spoilsCasework)),
    ],
    ofShowFace: { a: onlyOn('a'), b: onlyOn('b') },
  };
}

/**
 * What blanks up to a length must stay clear of. With one clear face asked for, bad wood of both faces close enough for one
 * blank to touch both is a matter of choice: there the face with less of it is to show, stretch by stretch.
 */
export function blockedFor<R extends RectNm>(bad: BadWood<R>, quality: number, lengthNm: number): readonly R[] {
  const always = bad.always[quality] ?? [];
  if (quality !== CLEAR_ONE) return always;
  return [...always, ...spoiltByChoice(bad.ofShowFace.a, bad.ofShowFace.b, lengthNm)];
}

/** Where one clear face is asked for, short blanks find more places: they are told apart in these few steps of length. */
const CLASS_LENGTHS_NM = [12, 18, 24, 36, 48, 72].map((inches) => inches * NM_PER_INCH);

/** The step of length that a blank belongs to, for `blockedFor`. */
export const faceClassNm = (lengthNm: number): number =>
  CLASS_LENGTHS_NM.find((most) => lengthNm <= most) ?? Number.POSITIVE_INFINITY;

const CLEAR_ONE = qualityIndex('clear-one');

/** For each stretch in which bad wood of both faces hangs together, the face with less of it. */
function spoiltByChoice<R extends RectNm>(a: readonly R[], b: readonly R[], lengthNm: number): readonly R[] {
  const inOrder = [...a.map((rect) => ({ rect, face: 'a' })), ...b.map((rect) => ({ rect, face: 'b' }))].sort(
    (one, other) => one.rect.fromNm - other.rect.fromNm || one.rect.leftNm - other.rect.leftNm,
  );
  const stretches: { readonly reach: { a: number; b: number }; readonly rects: typeof inOrder }[] = [];
  for (const each of inOrder) {
    const other = each.face === 'a' ? 'b' : 'a';
    const near = stretches.filter(({ reach }) => each.rect.fromNm - reach[other] < lengthNm);
    const joined = {
      reach: { a: Number.NEGATIVE_INFINITY, b: Number.NEGATIVE_INFINITY },
      rects: [...near.flatMap(({ rects }) => rects), each],
    };
    for (const { rect, face } of joined.rects)
      joined.reach[face as 'a' | 'b'] = Math.max(joined.reach[face as 'a' | 'b'], rect.toNm);
    stretches.splice(0, stretches.length, ...stretches.filter((one) => !near.includes(one)), joined);
  }
  return stretches.flatMap(({ rects }) => {
    const of = (face: string) => rects.filter((each) => each.face === face).map(({ rect }) => rect);
    return faceM2(of('b')) < faceM2(of('a')) ? of('b') : of('a');
  });
}

function faceM2(rects: readonly RectNm[]): number {
  return rects.reduce((sum, r) => sum + ((r.toNm - r.fromNm) / 1e9) * ((r.rightNm - r.leftNm) / 1e9), 0);
}

/** The face that shows, where it is not the same which; 'none' where neither face is as clear as asked. */
export function showFaceOf(bad: BadWood, quality: number, piece: RectNm): 'a' | 'b' | 'either' | 'none' {
  if (quality !== CLEAR_ONE) return 'either';
  const touches = (rects: readonly RectNm[]) => rects.some((rect) => overlaps(rect, piece));
  const [a, b] = [touches(bad.ofShowFace.a), touches(bad.ofShowFace.b)];
  return a ? (b ? 'none' : 'b') : b ? 'a' : 'either';
}

function asFarAsItRuns(defect: Defect, lengthNm: number, endTrimNm: number): Defect {
  if (!RUNS_ON.has(defect.kind)) return defect;
  return {
    ...defect,
    fromNm: Math.max(0, defect.fromNm - endTrimNm),
    toNm: Math.min(lengthNm, defect.toNm + endTrimNm),
  };
}

function spoilsCasework(defect: Defect): boolean {
  if (NEVER.has(defect.kind)) return true;
  if (IN_CASEWORK.has(defect.kind)) return false;
  return defect.face === 'through' || defect.toNm - defect.fromNm > SMALL_CHECK_NM;
}
