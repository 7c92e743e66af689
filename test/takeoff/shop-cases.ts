/** Rows, boards and settings for the cases of takeoff and cutting: everything that a case does not name is plain. */
import type { BoardView } from '../../worker/contract/board.ts';
import type { JobWithParts, Part, Piece } from '../../worker/contract/job.ts';
import { type Settings, settings } from '../../worker/contract/settings.ts';
import { elementsOf } from '../../worker/takeoff/elements.ts';
import { nmFromInch, nmFromMm } from '../../worker/wood/unit.ts';

export const inch = (value: number): number => nmFromInch(value);
export const mm = (value: number): number => nmFromMm(value);

/** The shop's figures as they stand at first, with the changes of the case. */
export function shopSettings(changes: Partial<Settings> = {}): Settings {
  return { ...settings.parse({}), ...changes };
}

/** A shop whose stock is as dry as its furniture will be: no shrinkage in the sums. */
export const drySettings = (changes: Partial<Settings> = {}): Settings =>
  shopSettings({ moistureMax: { critical: 8, visible: 8, hidden: 8, layer: 8 }, ...changes });

export function part(changes: Partial<Part> & Pick<Part, 'lengthNm' | 'widthNm' | 'thicknessNm'>): Part {
  return {
    key: 'A',
    label: 'Part A',
    quantity: 1,
    species: 'white-oak',
    use: 'visible',
    faces: 'clear-one',
    grain: 'unknown',
    lamination: null,
    moisturePercentMax: null,
    matchGroup: null,
    shapeNote: '',
    measuredIn: 'in',
    ...changes,
  };
}

let boardCount = 0;

export function board(
  changes: Partial<BoardView> & Pick<BoardView, 'lengthNm' | 'widthNm' | 'thicknessNm'>,
): BoardView {
  boardCount += 1;
  return {
    id: `bd_${String(boardCount).padStart(8, '0')}`,
    tag: `B${boardCount}`,
    species: 'white-oak',
    thicknessCall: null,
    grain: 'flat',
    grade: null,
    defects: [],
    warp: null,
    readings: [{ moisturePercent: 8, on: '2026-03-01', meter: 'pin' }],
    place: '',
    costMinor: null,
    delivery: '',
    receivedOn: null,
    measuredIn: 'in',
    note: '',
    state: 'in-stock',
    origin: { kind: 'received' },
    version: 1,
    held: [],
    ...changes,
  };
}

export const heldFor = (jobId: string, fromNm: number, toNm: number, planId: string | null = null) => ({
  reservationId: 'rs_00000001',
  jobId,
  jobName: `Job ${jobId}`,
  fromNm,
  toNm,
  planId,
});

/** A job whose every piece is still wanted. */
export function job(parts: readonly Part[], changes: Partial<JobWithParts> = {}): JobWithParts {
  return {
    id: 'jb_00000001',
    name: 'Hall table',
    dueOn: null,
    note: '',
    state: 'open',
    revision: 1,
    version: 1,
    standing: { pieces: {}, layers: {} },
    heldBoards: 0,
    parts: parts.map((row) => ({ ...row, version: 1, pieces: wantedPieces(row) })),
    ...changes,
  };
}

function wantedPieces(row: Part): Piece[] {
  const places = elementsOf(row, shopSettings()).map(({ element }) => element);
  const all = row.lamination === null ? places : [null, ...places];
  return Array.from({ length: row.quantity }, (_, copy) => all.map((element) => piece(copy + 1, element))).flat();
}

export function piece(no: number, element: number | null, changes: Partial<Piece> = {}): Piece {
  return {
    no,
    element,
    attempt: 1,
    state: 'wanted',
    boardId: null,
    planId: null,
    sessionId: null,
    restingUntil: null,
    curingUntilMs: null,
    why: '',
    ...changes,
  };
}
