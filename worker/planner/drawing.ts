/**
 * Shop drawings of a board: as it lies in the rack, or cut up. Ink only: every kind of thing has its own line or
 * hatching, cuts are numbered in the order of the saw, and dimensions read as on a tape.
 */
import type { Defect } from '../contract/board.ts';
import type { Drawing } from '../contract/drawing.ts';
import type { RectNm } from '../contract/plan.ts';
import { pieceName } from '../wood/piece-name.ts';
import { cutsInWords, type LayoutToCut, type Shown, tape } from './cut-words.ts';
import { acrossLetters, markRows, penCuts, penDimensions } from './drawing-cuts.ts';
import { defectLegend, defectWords, penDefects } from './drawing-defects.ts';
import {
  type Box,
  type Pen,
  penInside,
  penRect,
  penText,
  penWhereFree,
  textToFit,
  textWidthMm,
} from './drawing-pen.ts';
import { pieceMarks, pieceRows, pieceTitle, roughSize } from './drawing-pieces.ts';
import { acrossMm, alongMm, CARD, PANEL, type Paper, type View, viewOf } from './drawing-view.ts';

/** What a drawing needs of a board; a board of the wire is one. */
export interface BoardFace {
  readonly tag: string;
  readonly lengthNm: number;
  readonly widthNm: number;
  readonly defects: readonly Defect[];
}
export interface HeldRun {
  readonly jobName: string;
  readonly fromNm: number;
  readonly toNm: number;
}
export interface LayoutToDraw extends LayoutToCut {
  readonly scrap: readonly RectNm[];
}

/** A board with its defects and the runs that jobs hold, for a narrow panel. */
export function drawBoard(board: BoardFace, held: readonly HeldRun[], shown: Shown): Drawing {
  const view = withRoomForTag(
    viewOf(board, PANEL, { topLetters: 0.6, rightLetters: acrossLetters(board, [], shown), narrowestNm: null }),
    board.tag,
  );
  const pen: Pen = { letterMm: view.letterMm, shapes: [], taken: [] };
  for (const run of held) penHeld(pen, view, board, run);
  penOutline(pen, view, board);
  penDefects(pen, view, board.defects);
  for (const run of held) {
    const box = boxOf(view, acrossWhole(run, board));
    const short = textToFit(run.jobName, box.w * 0.9, pen.letterMm);
    penInside(pen, 'ghost', box, [run.jobName, ...(short.length > 6 ? [short] : []), 'held']);
  }
  if (held.length > 0)
    for (const run of freeRuns(board, held))
      penInside(pen, 'dim', boxOf(view, acrossWhole(run, board)), [
        `free ${tape(run.toNm - run.fromNm, shown)}`,
        'free',
      ]);
  const letters = penDimensions(pen, view, board, [], shown);
  const heldWords = held.map(
    (run) => `${run.jobName} holds ${tape(run.fromNm, shown)} to ${tape(run.toNm, shown)} from the tagged end.`,
  );
  return finish(pen, view, letters, {
    title: `${board.tag}: ${boardSize(board, shown)}`,
    description: [boardWords(board, shown), ...heldWords].join(' '),
    legend: [...defectLegend(board.defects), ...(held.length > 0 ? [{ role: 'ghost' as const, text: 'held' }] : [])],
  });
}

/** A board cut up, for a narrow panel, with the key to the pieces under it. */
export function drawLayout(board: BoardFace, layout: LayoutToDraw, shown: Shown): Drawing {
  const { pen, view, letters } = penLayout(board, layout, shown, PANEL);
  const L = pen.letterMm;
  const x = view.leftMm + 0.3 * L;
  const roomMm = view.sheetWidthMm - x;
  let below = letters;
  const writeRow = (mark: string, text: string) => {
    const y = view.topMm + view.boardHeightMm + (below + 0.95) * L;
    if (mark !== '') penText(pen, 'dim', { x: 0.3 * L, y, anchor: 'start' }, mark);
    penText(pen, 'dim', { x, y, anchor: 'start' }, textToFit(text, roomMm, L));
    below += 1.35;
  };
  for (const row of pieceRows(layout.pieces, shown)) {
    const name = `${row.label} ${row.numbers}${row.layer}`;
    const whole = `${name} · ${row.size}`;
    if (textWidthMm(whole, L) <= roomMm) writeRow(row.letter, whole);
    else {
      writeRow(row.letter, name);
      writeRow('', row.size);
    }
  }
  return finish(pen, view, below, layoutWords(board, layout, shown));
}

/** A board cut up, for a printed page that lists its pieces and steps itself. */
export function drawLayoutForCard(board: BoardFace, layout: LayoutToDraw, shown: Shown): Drawing {
  const { pen, view, letters } = penLayout(board, layout, shown, CARD);
  return finish(pen, view, letters, layoutWords(board, layout, shown));
}

function penLayout(
  board: BoardFace,
  layout: LayoutToDraw,
  shown: Shown,
  paper: Paper,
): { readonly pen: Pen; readonly view: View; readonly letters: number } {
  const rightLetters = acrossLetters(board, layout.cuts, shown);
  const flat = viewOf(board, paper, { topLetters: 0, rightLetters, narrowestNm: null });
  const rows = markRows(layout.cuts, board, flat.letterMm * 1e6);
  const narrowestNm = Math.min(board.widthNm, ...layout.pieces.map((piece) => piece.rightNm - piece.leftNm));
  const view = withRoomForTag(viewOf(board, paper, { topLetters: rows.letters, rightLetters, narrowestNm }), board.tag);
  const pen: Pen = { letterMm: view.letterMm, shapes: [], taken: [] };
  for (const rect of layout.scrap) penRect(pen, 'scrap', boxOf(view, rect), `waste, ${roughSize(rect, shown)}`);
  for (const rect of layout.offcuts)
    penRect(pen, 'offcut', boxOf(view, rect), `offcut to keep, ${roughSize(rect, shown)}`);
  for (const piece of layout.pieces) penRect(pen, 'blank', boxOf(view, piece), pieceTitle(piece, shown));
  penDefects(pen, view, board.defects);
  penOutline(pen, view, board);
  penCuts(pen, view, layout.cuts, rows);
  const marks = pieceMarks(layout.pieces);
  for (const [index, piece] of layout.pieces.entries()) {
    const mark = marks[index] ?? '';
    const named = `${mark}  ${piece.label}`;
    penInside(pen, 'blank', boxOf(view, piece), [
      `${named}  ${roughSize(piece, shown)}`,
      named,
      mark,
      mark.replace(/\d+$/, ''),
    ]);
  }
  for (const rect of layout.offcuts)
    penWhereFree(pen, 'offcut', boxOf(view, rect), [`keep ${roughSize(rect, shown)}`, 'keep']);
  return { pen, view, letters: penDimensions(pen, view, board, layout.cuts, shown) };
}

/** Letters of a tag that needs them smaller, as part of the sheet's own. */
const TAG_SMALL = 0.8;
/** Tags are written whole up to so many letters; the card and the list bear longer ones. */
const TAG_LETTERS_MOST = 16;

/** From the sheet's top to the key under the board: what a tag beside it may take. */
const tagRoomMm = (view: View): number => view.topMm + view.boardHeightMm + 1.2 * view.letterMm;

/** More paper above a board that is drawn too low to bear its tag. */
function withRoomForTag(view: View, tag: string): View {
  const needs = textWidthMm(tag.slice(0, TAG_LETTERS_MOST), TAG_SMALL * view.letterMm);
  return { ...view, topMm: view.topMm + Math.max(0, needs - tagRoomMm(view)) };
}

function penOutline(pen: Pen, view: View, board: BoardFace): void {
  penRect(pen, 'outline', { x: view.leftMm, y: view.topMm, w: view.boardLengthMm, h: view.boardHeightMm });
  const L = pen.letterMm;
  const roomMm = tagRoomMm(view);
  const sizeMm = textWidthMm(board.tag, L) <= roomMm ? L : L * TAG_SMALL;
  const tag = textToFit(board.tag, roomMm, sizeMm);
  // On the middle of the board while its letters stay on the sheet.
  const half = textWidthMm(tag, sizeMm) / 2;
  const y = Math.max(half, Math.min(view.topMm + view.boardHeightMm / 2, roomMm - half));
  penText(pen, 'outline', { x: view.leftMm - 1.3 * L, y, turned: true }, tag, sizeMm);
}

function penHeld(pen: Pen, view: View, board: BoardFace, run: HeldRun): void {
  penRect(pen, 'ghost', boxOf(view, acrossWhole(run, board)), `held for ${run.jobName}`);
}

/** Writes how the drawing is to be read under everything else, and gives the sheet its height. */
function finish(
  pen: Pen,
  view: View,
  lettersBelow: number,
  words: Pick<Drawing, 'title' | 'description' | 'legend'>,
): Drawing {
  const y = view.topMm + view.boardHeightMm + (lettersBelow + 0.8) * pen.letterMm;
  const scale = view.crossFactor === 1 ? 'To scale' : `Width drawn × ${view.crossFactor}`;
  const note = `${scale}, tagged end at left`;
  const x = 0.3 * pen.letterMm;
  penText(
    pen,
    'grain',
    { x, y, anchor: 'start' },
    textToFit(note, view.sheetWidthMm - x, pen.letterMm * 0.95),
    pen.letterMm * 0.95,
  );
  return {
    ...words,
    widthMm: Math.ceil(view.sheetWidthMm),
    heightMm: Math.ceil(y + pen.letterMm * 0.8),
    shapes: pen.shapes,
    crossFactor: view.crossFactor,
  };
}

function layoutWords(
  board: BoardFace,
  layout: LayoutToDraw,
  shown: Shown,
): Pick<Drawing, 'title' | 'description' | 'legend'> {
  const legend = defectLegend(board.defects);
  if (layout.offcuts.length > 0) legend.push({ role: 'offcut', text: 'offcut to keep' });
  if (layout.scrap.length > 0) legend.push({ role: 'scrap', text: 'waste' });
  const pieces = layout.pieces.map((piece) => pieceTitle(piece, shown));
  const steps = cutsInWords(layout, shown, pieceName).map((step) => `${step.no}. ${step.words}`);
  return {
    title: `${board.tag}: ${boardSize(board, shown)}`,
    description: [boardWords(board, shown), ...pieces.map((text) => `${text}.`), ...steps].join(' '),
    legend,
  };
}

const boardSize = (board: BoardFace, shown: Shown): string =>
  `${tape(board.widthNm, shown)} × ${tape(board.lengthNm, shown)}`;

function boardWords(board: BoardFace, shown: Shown): string {
  const defects = board.defects.map(
    (defect) => `${defectWords(defect)} from ${tape(defect.fromNm, shown)} to ${tape(defect.toNm, shown)}`,
  );
  const found = defects.length === 0 ? '' : ` Defects: ${defects.join('; ')}.`;
  return `Board ${board.tag}, ${boardSize(board, shown)}.${found}`;
}

const acrossWhole = (run: { readonly fromNm: number; readonly toNm: number }, board: BoardFace): RectNm => ({
  fromNm: run.fromNm,
  toNm: run.toNm,
  leftNm: 0,
  rightNm: board.widthNm,
});

function boxOf(view: View, rect: RectNm): Box {
  const [x, y] = [alongMm(view, rect.fromNm), acrossMm(view, rect.leftNm)];
  return { x, y, w: alongMm(view, rect.toNm) - x, h: acrossMm(view, rect.rightNm) - y };
}

function freeRuns(board: BoardFace, held: readonly HeldRun[]): { fromNm: number; toNm: number }[] {
  const free: { fromNm: number; toNm: number }[] = [];
  let from = 0;
  for (const run of [...held].sort((a, b) => a.fromNm - b.fromNm)) {
    if (run.fromNm > from) free.push({ fromNm: from, toNm: run.fromNm });
    from = Math.max(from, run.toNm);
  }
  if (from < board.lengthNm) free.push({ fromNm: from, toNm: board.lengthNm });
  return free;
}
