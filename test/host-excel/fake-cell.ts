/** A cell of the make-believe workbook, and what typing into it does. */
export interface FakeCell {
  value: number | string | boolean;
  shown: string | null;
  formula: string | null;
  format: string;
  fill: string | null;
  note: string | null;
  locked: boolean;
}

export const letters = (column: number): string =>
  (column >= 26 ? letters(Math.floor(column / 26) - 1) : '') + String.fromCharCode(65 + (column % 26));

/** As Excel reads what is typed: an apostrophe or a text format keeps a text; a formula's value is made up here. */
export function typeInto(cell: FakeCell, value: unknown): void {
  Object.assign(cell, { formula: null, shown: null, value: '' });
  if (typeof value === 'number' || typeof value === 'boolean') cell.value = value;
  else if (typeof value !== 'string') return;
  else if (value.startsWith("'")) cell.value = value.slice(1);
  else if (cell.format === '@') cell.value = value;
  else if (value.startsWith('=')) Object.assign(cell, { formula: value, value: 372.25 });
  else if (/^\d{1,2}\/\d{1,2}$/.test(value)) Object.assign(cell, { value: 46_146, shown: '4-May', format: 'd-mmm' });
  else cell.value = value !== '' && !Number.isNaN(Number(value)) ? Number(value) : value;
}

export class FakeNote {
  readonly cell: FakeCell;
  constructor(cell: FakeCell) {
    this.cell = cell;
  }
  Delete() {
    this.cell.note = null;
  }
}

export class FakeSetting {
  readonly kept: Map<string, unknown>;
  readonly Key: string;
  constructor(kept: Map<string, unknown>, key: string) {
    this.kept = kept;
    this.Key = key;
  }
  get Value() {
    return this.kept.get(this.Key);
  }
  Delete() {
    this.kept.delete(this.Key);
  }
}
