/**
 * Plies and staves as a cut list writes them: "3" is three equal plies; "3/4 + 1 + 3/4" gives each its thickness; a
 * width for the middle makes the inner plies narrower and centres them, which leaves a groove along both edges.
 */
import type { Cell } from '../host/host.ts';
import { isBlank, type LengthCellAssumption, readLengthCell } from './cell-length.ts';
import { cellWords, type ValueReading } from './cell-values.ts';

export interface Ply {
  readonly thicknessNm: number;
  readonly widthNm: number;
  readonly offsetNm: number;
}

const PLIES_MAX = 12;
const STAVES_MAX = 60;

function countIn(cell: Cell): number {
  if (typeof cell.raw === 'number') return cell.raw;
  return Number(/^(\d{1,3})\s*(?:x|ply|plies|layers?|lams?|staves?|strips?|pcs?)?\.?$/i.exec(cellWords(cell))?.[1]);
}

/** A text cell for one of several lengths in a cell. */
export function textCell(text: string): Cell {
  return { kind: 'text', raw: text, text, formula: null, format: null };
}

/** Thickness of each ply, from face to face; null where the part is solid. The plies add up to the part exactly. */
export function readPlyThicknesses(
  cell: Cell | undefined,
  thicknessNm: number,
  assume: LengthCellAssumption,
): ValueReading<readonly number[] | null> {
  if (cell === undefined || isBlank(cell)) return { ok: true, value: null };
  const words = cellWords(cell);
  const refuse = (help: string) => ({ ok: false as const, read: words, help });
  const count = countIn(cell);
  if (count === 0 || count === 1) return { ok: true, value: null };
  if (Number.isInteger(count) && count >= 2) {
    if (count > PLIES_MAX) return refuse(`at most ${PLIES_MAX} plies`);
    return { ok: true, value: equalPlies(thicknessNm, count) };
  }
  if (!words.includes('+')) return refuse('how many plies, such as 3, or each thickness: 3/4 + 1 + 3/4');
  const thicknesses: number[] = [];
  for (const text of words.split('+')) {
    const reading = readLengthCell(textCell(text), assume);
    if (!reading.ok) return refuse(`ply “${text.trim()}”: ${reading.help}`);
    thicknesses.push(reading.nm);
  }
  if (thicknesses.length > PLIES_MAX) return refuse(`at most ${PLIES_MAX} plies`);
  const sumNm = thicknesses.reduce((sum, nm) => sum + nm, 0);
  return sumNm === thicknessNm
    ? { ok: true, value: thicknesses }
    : refuse('the plies do not add up to the thickness of the part');
}

/** Equal shares; the nanometres left over are spread, so that the sum is exact. */
function equalPlies(thicknessNm: number, count: number): number[] {
  const share = Math.floor(thicknessNm / count);
  const over = thicknessNm - share * count;
  const first = Math.floor((count - over) / 2);
  return Array.from({ length: count }, (_, i) => share + (i >= first && i < first + over ? 1 : 0));
}

/** The plies with their widths: the inner ones as wide as the middle, centred. */
export function pliesOf(
  thicknessesNm: readonly number[],
  widthNm: number,
  middleWidthNm: number | null,
): ValueReading<readonly Ply[]> {
  const refuse = (help: string) => ({ ok: false as const, read: '', help });
  if (middleWidthNm !== null && thicknessesNm.length < 3) return refuse('two plies have no middle; clear this cell');
  if (middleWidthNm !== null && middleWidthNm > widthNm) return refuse('the middle is wider than the part');
  const plies = thicknessesNm.map((thicknessNm, i) => {
    const inner = i > 0 && i < thicknessesNm.length - 1;
    const plyWidthNm = inner && middleWidthNm !== null ? middleWidthNm : widthNm;
    return { thicknessNm, widthNm: plyWidthNm, offsetNm: Math.floor((widthNm - plyWidthNm) / 2) };
  });
  return { ok: true, value: plies };
}

export function readStaves(cell: Cell | undefined): ValueReading<number | null> {
  if (cell === undefined || isBlank(cell)) return { ok: true, value: null };
  const count = countIn(cell);
  if (count === 0 || count === 1) return { ok: true, value: null };
  return Number.isInteger(count) && count >= 2 && count <= STAVES_MAX
    ? { ok: true, value: count }
    : { ok: false, read: cellWords(cell), help: `how many staves make up the width: 2 to ${STAVES_MAX}` };
}
