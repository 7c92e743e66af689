/**
 * A make-believe Google spreadsheet for the built script: values as typed become numbers, dates and formulas the way
 * Google makes them, writes outside the document's lock fail, and calls are counted.
 */
import type { FileSheet } from '../../addon/host/file-host.ts';

const DAY_MS = 86_400_000;
const EPOCH_MS = Date.UTC(1899, 11, 30);

interface FakeCell {
  value: number | string | boolean | Date;
  /** As shown, where it is not the plain value. */
  shown: string | null;
  formula: string;
  format: string;
  note: string;
  background: string | null;
}

const blank = (): FakeCell => ({ value: '', shown: null, formula: '', format: 'General', note: '', background: null });

export interface FakeAccount {
  /** Columns that this user may not edit, 1-based, on every sheet. */
  readonly protectedColumns: ReadonlySet<number>;
  locale: string;
  timeZone: string;
  /** The next document lock is held by somebody else. */
  lockedByOther: boolean;
  /** Thrown by the next reading, as Google throws. */
  failWith: string | null;
}

export class FakeSheet {
  readonly cells = new Map<string, FakeCell>();
  readonly hiddenRows = new Set<number>();
  readonly merges: [row: number, column: number, rowCount: number, columnCount: number][] = [];
  maxRows = 100;
  maxColumns = 14;
  name: string;
  readonly book: FakeBook;

  constructor(book: FakeBook, name: string) {
    this.book = book;
    this.name = name;
  }
  cell(row: number, column: number): FakeCell {
    const key = `${row}:${column}`;
    const found = this.cells.get(key) ?? blank();
    this.cells.set(key, found);
    return found;
  }
  getName() {
    return this.name;
  }
  getProtections(type: string) {
    if (type !== 'RANGE' || this.getName() !== 'Boards') return [];
    return [...this.book.account.protectedColumns].map((column) => ({
      canEdit: () => false,
      getDescription: () => 'Prices',
      getRange: () => this.getRange(1, column, this.getMaxRows(), 1),
    }));
  }
  getMaxRows() {
    return this.maxRows;
  }
  getMaxColumns() {
    return this.maxColumns;
  }
  private last(pick: 0 | 1): number {
    const filled = [...this.cells].filter(([, cell]) => cell.value !== '' || cell.formula !== '');
    return Math.max(0, ...filled.map(([key]) => Number(key.split(':')[pick])));
  }
  getLastRow() {
    return this.last(0);
  }
  getLastColumn() {
    return this.last(1);
  }
  getRange(row: number, column: number, rowCount = 1, columnCount = 1) {
    if (row < 1 || column < 1 || row + rowCount - 1 > this.maxRows || column + columnCount - 1 > this.maxColumns) {
      throw new Error('Exception: The coordinates of the range are outside the dimensions of the sheet.');
    }
    return new FakeRange(this, row, column, rowCount, columnCount);
  }
  insertRowsAfter(_: number, count: number) {
    this.maxRows += count;
  }
  insertColumnsAfter(_: number, count: number) {
    this.maxColumns += count;
  }
  isRowHiddenByFilter() {
    return false;
  }
  isRowHiddenByUser(row: number) {
    return this.hiddenRows.has(row);
  }
}

class FakeRange {
  readonly sheet: FakeSheet;
  readonly row: number;
  readonly column: number;
  readonly rowCount: number;
  readonly columnCount: number;

  constructor(sheet: FakeSheet, row: number, column: number, rowCount: number, columnCount: number) {
    this.sheet = sheet;
    this.row = row;
    this.column = column;
    this.rowCount = rowCount;
    this.columnCount = columnCount;
  }
  private map<T>(pick: (cell: FakeCell) => T): T[][] {
    this.sheet.book.service('read');
    return Array.from({ length: this.rowCount }, (_, r) =>
      Array.from({ length: this.columnCount }, (_, c) => pick(this.sheet.cell(this.row + r, this.column + c))),
    );
  }
  private each(given: readonly (readonly unknown[])[], set: (cell: FakeCell, value: unknown) => void): this {
    this.sheet.book.guardWrite(this.column, this.columnCount);
    if (given.length !== this.rowCount || given.some((row) => row.length !== this.columnCount)) {
      throw new Error('Exception: The number of rows or columns in the data does not match the range.');
    }
    given.forEach((row, r) => {
      row.forEach((value, c) => {
        set(this.sheet.cell(this.row + r, this.column + c), value);
      });
    });
    return this;
  }
  getSheet() {
    return this.sheet;
  }
  getRow() {
    return this.row;
  }
  getColumn() {
    return this.column;
  }
  getNumRows() {
    return this.rowCount;
  }
  getNumColumns() {
    return this.columnCount;
  }
  getValues() {
    return this.map((cell) => cell.value);
  }
  getDisplayValues() {
    return this.map((cell) => cell.shown ?? shownText(cell.value));
  }
  getFormulas() {
    return this.map((cell) => cell.formula);
  }
  getNumberFormats() {
    return this.map((cell) => cell.format);
  }
  setNumberFormats(formats: readonly (readonly string[])[]) {
    return this.each(formats, (cell, format) => {
      cell.format = String(format);
    });
  }
  setValues(values: readonly (readonly unknown[])[]) {
    return this.each(values, typeInto);
  }
  setNote(note: string) {
    return this.each([[note]], (cell) => {
      cell.note = note;
    });
  }
  setBackground(colour: string | null) {
    return this.each([[colour]], (cell) => {
      cell.background = colour;
    });
  }
  setFontColor() {
    return this;
  }
  canEdit() {
    const columns = Array.from({ length: this.columnCount }, (_, c) => this.column + c);
    return !columns.some((column) => this.sheet.book.account.protectedColumns.has(column));
  }
  getMergedRanges() {
    return this.sheet.merges
      .filter(
        ([row, column, rowCount, columnCount]) =>
          row < this.row + this.rowCount &&
          this.row < row + rowCount &&
          column < this.column + this.columnCount &&
          this.column < column + columnCount,
      )
      .map((merge) => new FakeRange(this.sheet, ...merge));
  }
  activate() {
    this.sheet.book.active = this;
    return this;
  }
}

function shownText(value: FakeCell['value']): string {
  return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
}

/** As Google reads what is typed: an apostrophe keeps a text, plain-text cells keep everything. */
function typeInto(cell: FakeCell, value: unknown): void {
  Object.assign(cell, { formula: '', shown: null, value: '' });
  if (typeof value !== 'string') {
    cell.value = typeof value === 'number' || typeof value === 'boolean' ? value : '';
    if (typeof value === 'number' && /[dy]/.test(cell.format)) Object.assign(cell, dateOf(value));
  } else if (value.startsWith("'")) cell.value = value.slice(1);
  else if (cell.format === '@') cell.value = value;
  else if (value.startsWith('=')) Object.assign(cell, { formula: value, value: 372.25 });
  else if (/^\d{1,2}\/\d{1,2}$/.test(value)) Object.assign(cell, dateOf(46_146), { format: 'M/d/yyyy' });
  else if (value !== '' && !Number.isNaN(Number(value))) cell.value = Number(value);
  else cell.value = value;
}

function dateOf(serial: number): Pick<FakeCell, 'value' | 'shown'> {
  const value = new Date(EPOCH_MS + serial * DAY_MS);
  return { value, shown: `${value.getUTCMonth() + 1}/${value.getUTCDate()}/${value.getUTCFullYear()}` };
}

export class FakeBook {
  readonly sheets: FakeSheet[];
  active: FakeRange;
  activeSheet: FakeSheet;
  locked = false;
  /** Calls of Google's services, by what they do. */
  readonly counts = { read: 0, write: 0 };
  readonly account: FakeAccount;

  constructor(given: readonly FileSheet[], account: FakeAccount) {
    this.account = account;
    this.sheets = given.map((sheet) => this.opened(sheet));
    this.activeSheet = this.sheets[0] ?? new FakeSheet(this, 'Sheet1');
    this.active = this.activeSheet.getRange(1, 1);
  }
  private opened(given: FileSheet): FakeSheet {
    const sheet = new FakeSheet(this, given.name);
    given.rows.forEach((row, r) => {
      row.forEach((entry, c) => {
        if (entry === null) return;
        const { value, text, formula, format } = typeof entry === 'object' ? entry : { value: entry };
        const cell = sheet.cell(r + 1, c + 1);
        Object.assign(cell, { value: value ?? '', formula: formula ?? '', format: format ?? 'General' });
        if (format && typeof value === 'number') Object.assign(cell, dateOf(value), { shown: text });
      });
    });
    for (const row of given.hiddenRows ?? []) sheet.hiddenRows.add(row + 1);
    for (const merge of given.merged ?? []) {
      sheet.merges.push([merge.row + 1, merge.column + 1, merge.rowCount, merge.columnCount]);
    }
    return sheet;
  }
  service(kind: 'read' | 'write'): void {
    this.counts[kind] += 1;
    const failure = this.account.failWith;
    this.account.failWith = null;
    if (failure) throw new Error(failure);
  }
  guardWrite(column: number, columnCount: number): void {
    this.service('write');
    if (!this.locked) throw new Error('A write outside the lock of the document.');
    for (let c = column; c < column + columnCount; c += 1) {
      if (this.account.protectedColumns.has(c)) {
        throw new Error('Exception: You are trying to edit a protected cell or object.');
      }
    }
  }
  getSheets() {
    return [...this.sheets];
  }
  getSheetByName(name: string) {
    return this.sheets.find((sheet) => sheet.name === name) ?? null;
  }
  getActiveSheet() {
    return this.activeSheet;
  }
  setActiveSheet(sheet: FakeSheet) {
    this.activeSheet = sheet;
  }
  getActiveRange() {
    return this.active;
  }
  insertSheet(name: string) {
    const sheet = new FakeSheet(this, name);
    this.sheets.push(sheet);
    this.activeSheet = sheet;
    return sheet;
  }
  getSpreadsheetLocale() {
    return this.account.locale;
  }
  getSpreadsheetTimeZone() {
    return this.account.timeZone;
  }
}
