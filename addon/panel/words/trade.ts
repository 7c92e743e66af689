/** The trade's words for what the wire names by keys. */
import type { DefectKind, Grain } from '../../../worker/contract/board.ts';
import type { Faces, Part, PieceState, UseClass } from '../../../worker/contract/job.ts';
import type { MovementKind } from '../../../worker/contract/movement.ts';
import type { AccountLine } from '../state/wood-account.ts';

export const defectWords: Record<DefectKind, string> = {
  'knot-sound': 'sound knot',
  'knot-loose': 'loose knot',
  split: 'split',
  check: 'check',
  wane: 'wane',
  'saw-mark': 'saw mark',
  stain: 'stain',
  pith: 'pith',
  rot: 'rot',
  worm: 'worm holes',
  shake: 'shake',
  'bark-pocket': 'bark pocket',
  gum: 'gum or pitch',
  sapwood: 'sapwood',
};

export const grainWords: Record<Grain, string> = {
  flat: 'flat sawn',
  rift: 'rift sawn',
  quarter: 'quarter sawn',
  unknown: 'not noted',
};

export const useWords: Record<UseClass, string> = {
  critical: 'long and seen',
  visible: 'seen',
  hidden: 'hidden',
};

export const facesWords: Record<Faces, string> = {
  'clear-both': 'both faces clear',
  'clear-one': 'one face clear',
  'sound-knots': 'sound knots allowed',
  hidden: 'faces not seen',
};

export const pieceWords: Record<PieceState, string> = {
  wanted: 'wanted',
  planned: 'planned',
  roughed: 'roughed',
  passed: 'passed',
  failed: 'failed',
  'glued-up': 'glued up',
  milled: 'milled',
};

export const pieceOrder: readonly PieceState[] = [
  'wanted',
  'planned',
  'roughed',
  'passed',
  'glued-up',
  'milled',
  'failed',
];

export const movementWords: Record<MovementKind, string> = {
  'yard-founded': 'Yard founded',
  'settings-changed': 'Shop figures changed',
  'boards-received': 'Boards received',
  'board-corrected': 'Board corrected',
  'moisture-read': 'Moisture read',
  'board-written-off': 'Written off',
  'job-opened': 'Job opened',
  'job-changed': 'Job changed',
  'cut-list-set': 'Cut list set',
  'plan-kept': 'Plan made',
  'plan-dropped': 'Plan dropped',
  reserved: 'Held',
  released: 'Released',
  'session-opened': 'Session opened',
  reconciled: 'Cut',
  'pieces-moved': 'Pieces moved on',
  undone: 'Undone',
  'key-made': 'Key made',
  'key-rotated': 'Key renewed',
  'key-revoked': 'Key taken back',
};

export const accountWords: Record<AccountLine, string> = {
  parts: 'parts',
  failed: 'failed',
  offcuts: 'offcuts',
  kerf: 'kerf',
  scrap: 'scrap',
  writeOff: 'write-off',
};

/** The rows of the cut list that a screen knows, to call the layers of a part what they are. */
export type Laminated = Pick<Part, 'key' | 'lamination'>;

/** One of the pieces that a part is glued up from: "ply 2", "stave 2"; "layer 2" where the part is not known here. */
export function layerName(element: number, part: Laminated | undefined): string {
  const kind = part?.lamination?.kind;
  return `${kind === 'plies' ? 'ply' : kind === 'staves' ? 'stave' : 'layer'} ${element + 1}`;
}

/** As it stands behind a part's name; nothing for the piece itself. */
export function layerWords(element: number | null, part: Laminated | undefined): string {
  return element === null ? '' : `, ${layerName(element, part)}`;
}

/** As `layerWords`, for so many pieces of one kind: staves of a part are all alike, and bear no number. */
export function layersOfKind(element: number | null, count: number, part: Laminated | undefined): string {
  if (element === null || part?.lamination?.kind !== 'staves') return layerWords(element, part);
  return count === 1 ? ', stave' : ', staves';
}

/** The plural that covers all layers of these parts. */
export function layersWord(parts: readonly Laminated[]): string {
  const kinds = new Set(parts.flatMap((part) => part.lamination?.kind ?? []));
  return kinds.size === 2
    ? 'plies and staves'
    : kinds.has('staves')
      ? 'staves'
      : kinds.has('plies')
        ? 'plies'
        : 'layers';
}
