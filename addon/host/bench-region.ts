/**
 * Grows one cell to the table around it: every filled cell that touches, as a spreadsheet's own "current region" does.
 * Shop sheets leave a blank line between groups of boards, so one blank row is crossed, but only towards rows that
 * read like more of the same table: at least two filled cells, one with a digit. A new heading is not crossed into.
 */
export interface Region {
  readonly row: number;
  readonly column: number;
  readonly rowCount: number;
  readonly columnCount: number;
}

/** Texts of the used part of a sheet, from its first row and column; '' is empty. */
export type Texts = readonly (readonly string[])[];

interface Box {
  top: number;
  left: number;
  bottom: number;
  right: number;
}

export function regionAround(texts: Texts, seed: Region): Region {
  const box: Box = {
    top: seed.row,
    left: seed.column,
    bottom: seed.row + seed.rowCount - 1,
    right: seed.column + seed.columnCount - 1,
  };
  do {
    growTouching(texts, box);
  } while (crossBlankRow(texts, box, 1) || crossBlankRow(texts, box, -1));
  return trimmed(texts, box) ?? seed;
}

function growTouching(texts: Texts, box: Box): void {
  let grew = true;
  while (grew) {
    grew = false;
    if (box.top > 0 && rowFilled(texts, box.top - 1, box)) {
      box.top -= 1;
      grew = true;
    }
    if (rowFilled(texts, box.bottom + 1, box)) {
      box.bottom += 1;
      grew = true;
    }
    if (box.left > 0 && columnFilled(texts, box.left - 1, box)) {
      box.left -= 1;
      grew = true;
    }
    if (columnFilled(texts, box.right + 1, box)) {
      box.right += 1;
      grew = true;
    }
  }
}

/** Corners count as touching, so the neighbour row is looked at one column wider on both sides. */
function rowFilled(texts: Texts, row: number, box: Box): boolean {
  return countFilled(texts, row, box.left - 1, box.right + 1) > 0;
}

function columnFilled(texts: Texts, column: number, box: Box): boolean {
  for (let row = Math.max(0, box.top - 1); row <= box.bottom + 1; row += 1) {
    if (texts[row]?.[column]) return true;
  }
  return false;
}

function countFilled(texts: Texts, row: number, left: number, right: number): number {
  let count = 0;
  for (let column = Math.max(0, left); column <= right; column += 1) if (texts[row]?.[column]) count += 1;
  return count;
}

function crossBlankRow(texts: Texts, box: Box, step: 1 | -1): boolean {
  const edge = step === 1 ? box.bottom : box.top;
  let next = edge + 2 * step;
  // The name of a group ("Ash, 8/4") may stand alone above its rows.
  if (step === 1 && countFilled(texts, next, box.left, box.right) === 1) next += 1;
  if (!readsLikeData(texts, edge, box) || !readsLikeData(texts, next, box)) return false;
  if (step === 1) box.bottom = next;
  else box.top = next;
  return true;
}

function readsLikeData(texts: Texts, row: number, box: Box): boolean {
  if (row < 0 || countFilled(texts, row, box.left, box.right) < 2) return false;
  return (texts[row] ?? []).slice(box.left, box.right + 1).some((text) => /\d/.test(text));
}

function trimmed(texts: Texts, box: Box): Region | null {
  while (box.top <= box.bottom && countFilled(texts, box.top, box.left, box.right) === 0) box.top += 1;
  while (box.bottom > box.top && countFilled(texts, box.bottom, box.left, box.right) === 0) box.bottom -= 1;
  if (box.top > box.bottom) return null;
  const columnEmpty = (column: number) => {
    for (let row = box.top; row <= box.bottom; row += 1) if (texts[row]?.[column]) return false;
    return true;
  };
  while (box.left < box.right && columnEmpty(box.left)) box.left += 1;
  while (box.right > box.left && columnEmpty(box.right)) box.right -= 1;
  return {
    row: box.top,
    column: box.left,
    rowCount: box.bottom - box.top + 1,
    columnCount: box.right - box.left + 1,
  };
}
