/**
 * A make-believe workbook behind the vendor's own office library: it answers the library's batches, reads what is typed
 * the way Excel does, and counts the round trips. Names are as on the library's wire.
 */
import type { FileSheet } from '../../addon/host/file-host.ts';
import type { SheetHost } from '../../addon/host/host.ts';
import { type FakeCell, FakeNote, FakeSetting, letters, typeInto } from './fake-cell.ts';
import {
  ExcelFault,
  INSTANTIATE,
  METHOD,
  type OfficeAction,
  type OfficeArguments,
  type OfficeBatch,
  type OfficePath,
  PATH_GLOBAL,
  PATH_INDEXER,
  PATH_METHOD,
  PATH_NULL,
  PATH_PROPERTY,
  PATH_REFERENCE,
  QUERY,
  SET_PROPERTY,
  TRACE,
} from './office-batch.ts';

declare global {
  /** Set by the page of the Excel tests. */
  var openWorkbook: (sheets: readonly FileSheet[], protectedColumn: number | null, excelApi: number) => void;
  var book: FakeWorkbook;
  var heartside: { readonly host: SheetHost };
}

export class FakeWorkbook {
  readonly sheets: FakeWorksheet[];
  readonly settings = new Map<string, unknown>();
  /** Ranges that the library holds on to between two batches. */
  readonly references = new Map<string, unknown>();
  selected: FakeRange;
  syncs = 0;
  /** The next batch fails with this code of Excel's. */
  failWith: string | null = null;
  listener: (() => void) | null = null;

  constructor(given: readonly FileSheet[], protectedColumn: number | null) {
    this.sheets = given.map((sheet) => new FakeWorksheet(this, sheet, protectedColumn));
    this.selected = new FakeRange(this.sheet(0), 0, 0, 1, 1);
  }
  private sheet(index: number): FakeWorksheet {
    const sheet = this.sheets[index];
    if (!sheet) throw new ExcelFault('ItemNotFound');
    return sheet;
  }

  answer(batch: OfficeBatch): unknown {
    this.syncs += 1;
    const results: { ActionId: number; Value: unknown }[] = [];
    const failWith = this.failWith;
    this.failWith = null;
    try {
      if (failWith) throw new ExcelFault(failWith);
      const known = new Map<number, unknown>();
      for (const action of batch.Actions) {
        results.push({ ActionId: action.Id, Value: act(this, action, batch.ObjectPaths, known) });
      }
      // The library hangs on a handler once its mark in the batch comes back.
      const traces = batch.Actions.filter(({ ActionType }) => ActionType === TRACE).map(({ Id }) => Id);
      return { Results: results, TraceIds: traces, Error: null };
    } catch (fault) {
      const code = fault instanceof ExcelFault ? fault.code : 'GeneralException';
      if (!(fault instanceof ExcelFault)) console.error(`the make-believe workbook: ${String(fault)}`);
      return { Results: results, Error: { Code: code, Message: 'Excel’s own words.', Location: '' } };
    }
  }

  get Application() {
    return { CultureInfo: { Name: 'en-US', NumberFormat: { NumberDecimalSeparator: '.' } } };
  }
  get Worksheets() {
    const { sheets } = this;
    return {
      _Items: sheets,
      GetItem: (name: string) => {
        const found = sheets.find((sheet) => sheet.Name === name || sheet.Id === name);
        if (!found) throw new ExcelFault('ItemNotFound');
        return found;
      },
      Add: (name: string) => {
        const sheet = new FakeWorksheet(this, { name, rows: [] }, null);
        sheets.push(sheet);
        return sheet;
      },
    };
  }
  get Settings() {
    const { settings } = this;
    const item = (key: string) => new FakeSetting(settings, key);
    return {
      _Items: [...settings.keys()].map(item),
      GetItem: item,
      GetItemOrNullObject: (key: string) => (settings.has(key) ? item(key) : null),
      Set: (key: string, value: unknown) => {
        settings.set(key, value);
        return item(key);
      },
      Add: (key: string, value: unknown) => {
        settings.set(key, value);
        return item(key);
      },
    };
  }
  _RemoveReference(id: string) {
    this.references.delete(id);
  }
  _RemoveAllReferences() {
    this.references.clear();
  }
  GetSelectedRange() {
    return this.selected;
  }
}

class FakeWorksheet {
  readonly book: FakeWorkbook;
  readonly Name: string;
  readonly Id: string;
  readonly cells = new Map<string, FakeCell>();
  readonly hidden: ReadonlySet<number>;
  readonly merged: FileSheet['merged'];
  readonly protectedColumn: number | null;

  constructor(book: FakeWorkbook, given: FileSheet, protectedColumn: number | null) {
    this.book = book;
    this.Name = given.name;
    this.Id = `{${given.name}}`;
    this.hidden = new Set(given.hiddenRows);
    this.merged = given.merged ?? [];
    this.protectedColumn = protectedColumn;
    given.rows.forEach((row, r) => {
      row.forEach((entry, c) => {
        if (entry === null) return;
        const { value, text, formula, format } = typeof entry === 'object' ? entry : { value: entry };
        Object.assign(this.cell(r, c), {
          value: value ?? '',
          shown: text ?? null,
          formula: formula ?? null,
          format: format ?? 'General',
        });
      });
    });
  }
  cell(row: number, column: number): FakeCell {
    const key = `${row}:${column}`;
    const found = this.cells.get(key) ?? {
      value: '',
      shown: null,
      formula: null,
      format: 'General',
      fill: null,
      note: null,
      locked: column === this.protectedColumn,
    };
    this.cells.set(key, found);
    return found;
  }
  get Protection() {
    return { Protected: this.protectedColumn !== null };
  }
  get Notes() {
    const at = (address: string) => {
      const match = /^([A-Z]+)(\d+)$/.exec(address);
      const letters = match?.[1] ?? 'A';
      const column = [...letters].reduce((count, letter) => count * 26 + letter.charCodeAt(0) - 64, 0) - 1;
      return this.cell(Number(match?.[2]) - 1, column);
    };
    return {
      Add: (address: string, content: string) => {
        const cell = at(address);
        cell.note = content;
        return new FakeNote(cell);
      },
      GetItem: (address: string) => {
        const cell = at(address);
        if (cell.note === null) throw new ExcelFault('ItemNotFound');
        return new FakeNote(cell);
      },
    };
  }
  GetRangeByIndexes(row: number, column: number, rowCount: number, columnCount: number) {
    return new FakeRange(this, row, column, rowCount, columnCount);
  }
  GetCell(row: number, column: number) {
    return new FakeRange(this, row, column, 1, 1);
  }
  GetUsedRangeOrNullObject() {
    const filled = [...this.cells]
      .filter(([, cell]) => cell.value !== '' || cell.formula !== null)
      .map(([key]) => key.split(':').map(Number));
    if (filled.length === 0) return null;
    const rows = filled.map(([row]) => row ?? 0);
    const columns = filled.map(([, column]) => column ?? 0);
    const [top, left] = [Math.min(...rows), Math.min(...columns)];
    return new FakeRange(this, top, left, Math.max(...rows) - top + 1, Math.max(...columns) - left + 1);
  }
  Activate() {}
}

class FakeRange {
  readonly Worksheet: FakeWorksheet;
  readonly RowIndex: number;
  readonly ColumnIndex: number;
  readonly RowCount: number;
  readonly ColumnCount: number;

  constructor(sheet: FakeWorksheet, row: number, column: number, rowCount: number, columnCount: number) {
    this.Worksheet = sheet;
    this.RowIndex = row;
    this.ColumnIndex = column;
    this.RowCount = rowCount;
    this.ColumnCount = columnCount;
  }
  private map<T>(pick: (cell: FakeCell) => T): T[][] {
    return Array.from({ length: this.RowCount }, (_, r) =>
      Array.from({ length: this.ColumnCount }, (_, c) =>
        pick(this.Worksheet.cell(this.RowIndex + r, this.ColumnIndex + c)),
      ),
    );
  }
  /** In a 2-D array null leaves a cell alone. */
  private each(given: unknown, set: (cell: FakeCell, value: unknown) => void): void {
    if (!Array.isArray(given) || given.length !== this.RowCount) throw new ExcelFault('InvalidArgument');
    given.forEach((row: unknown[], r) => {
      if (row.length !== this.ColumnCount) throw new ExcelFault('InvalidArgument');
      row.forEach((value, c) => {
        if (value === null) return;
        const cell = this.Worksheet.cell(this.RowIndex + r, this.ColumnIndex + c);
        if (cell.locked && this.Worksheet.Protection.Protected) throw new ExcelFault('AccessDenied');
        set(cell, value);
      });
    });
  }
  private alike<T>(values: readonly T[]): T | null {
    const [first] = values;
    return first !== undefined && values.every((value) => value === first) ? first : null;
  }
  get Values() {
    return this.map((cell) => cell.value);
  }
  set Values(given: unknown) {
    this.each(given, typeInto);
  }
  get Formulas() {
    return this.map((cell) => cell.formula ?? cell.value);
  }
  get Text() {
    return this.map(
      (cell) => cell.shown ?? (typeof cell.value === 'boolean' ? String(cell.value).toUpperCase() : String(cell.value)),
    );
  }
  get NumberFormat() {
    return this.map((cell) => cell.format);
  }
  set NumberFormat(given: unknown) {
    this.each(given, (cell, format) => {
      cell.format = String(format);
    });
  }
  get RowHidden() {
    return this.alike(this.rows().map((row) => this.Worksheet.hidden.has(row)));
  }
  private rows(): number[] {
    return Array.from({ length: this.RowCount }, (_, r) => this.RowIndex + r);
  }
  get Format() {
    const cells: FakeCell[] = [];
    this.map((cell) => cells.push(cell));
    return {
      Protection: { Locked: this.alike(cells.map((cell) => cell.locked)) },
      Fill: {
        set Color(colour: string) {
          for (const cell of cells) cell.fill = colour;
        },
        Clear: () => {
          for (const cell of cells) cell.fill = null;
        },
      },
    };
  }
  /** The library cuts a long array into pieces of rows. */
  GetRow(row: number) {
    return new FakeRange(this.Worksheet, this.RowIndex + row, this.ColumnIndex, 1, this.ColumnCount);
  }
  GetBoundingRect(other: FakeRange) {
    const rowCount = other.RowIndex + other.RowCount - this.RowIndex;
    return new FakeRange(this.Worksheet, this.RowIndex, this.ColumnIndex, rowCount, this.ColumnCount);
  }
  GetVisibleView() {
    const seen = this.rows().filter((row) => !this.Worksheet.hidden.has(row));
    return {
      CellAddresses: seen.map((row) =>
        Array.from(
          { length: this.ColumnCount },
          (_, c) => `${this.Worksheet.Name}!${letters(this.ColumnIndex + c)}${row + 1}`,
        ),
      ),
    };
  }
  GetMergedAreasOrNullObject() {
    const met = (this.Worksheet.merged ?? []).filter(
      (merge) =>
        merge.row < this.RowIndex + this.RowCount &&
        this.RowIndex < merge.row + merge.rowCount &&
        merge.column < this.ColumnIndex + this.ColumnCount &&
        this.ColumnIndex < merge.column + merge.columnCount,
    );
    if (met.length === 0) return null;
    const addresses = met.map(
      ({ row, column, rowCount, columnCount }) =>
        `${this.Worksheet.Name}!${letters(column)}${row + 1}:${letters(column + columnCount - 1)}${row + rowCount}`,
    );
    return new FakeRangeAreas(this.Worksheet.book, addresses.join(','));
  }
  /** The library asks this before it sends an array. */
  _ValidateArraySize(rowCount: number, columnCount: number) {
    if (rowCount !== this.RowCount || columnCount !== this.ColumnCount) throw new ExcelFault('InvalidArgument');
  }
  _KeepReference() {
    this.Worksheet.book.references.set(this._ReferenceId, this);
  }
  get _ReferenceId() {
    return `${this.Worksheet.Name}!${this.RowIndex}:${this.ColumnIndex}:${this.RowCount}:${this.ColumnCount}`;
  }
  /** Somebody types here; not on the library's wire. */
  type(text: string): void {
    typeInto(this.Worksheet.cell(this.RowIndex, this.ColumnIndex), text);
  }
  Select() {
    this.Worksheet.book.selected = this;
    this.Worksheet.book.listener?.();
  }
}

class FakeRangeAreas {
  readonly book: FakeWorkbook;
  readonly Address: string;
  constructor(book: FakeWorkbook, address: string) {
    this.book = book;
    this.Address = address;
  }
  get _ReferenceId() {
    return `areas ${this.Address}`;
  }
  _KeepReference() {
    this.book.references.set(this._ReferenceId, this);
  }
}

type Paths = OfficeBatch['ObjectPaths'];

function act(book: FakeWorkbook, action: OfficeAction, paths: Paths, known: Map<number, unknown>): unknown {
  // Traces and registrations name no thing and ask for nothing.
  if (![INSTANTIATE, QUERY, METHOD, SET_PROPERTY].includes(action.ActionType)) return null;
  const target = resolved(book, action.ObjectPathId, paths, known);
  // A thing that is not there takes every call and does nothing.
  if (target === null) return null;
  const given = argumentsOf(book, action.ArgumentInfo, paths, known);
  switch (action.ActionType) {
    case INSTANTIATE:
      return identityOf(target);
    case QUERY:
      return queried(target, action.QueryInfo?.Select ?? []);
    case METHOD:
      return Reflect.apply(member(target, action.Name), target, [...given]) ?? null;
    default:
      if (!Reflect.set(Object(target), action.Name, given[0])) throw new ExcelFault('AccessDenied');
      return null;
  }
}

function argumentsOf(
  book: FakeWorkbook,
  info: OfficeArguments | undefined,
  paths: Paths,
  known: Map<number, unknown>,
): unknown[] {
  return (info?.Arguments ?? []).map((value, index) => {
    const path = info?.ReferencedObjectPathIds?.[index];
    return path ? resolved(book, path, paths, known) : value;
  });
}

function identityOf(target: unknown): unknown {
  if (target instanceof FakeRange || target instanceof FakeRangeAreas) return { _ReferenceId: target._ReferenceId };
  return target instanceof FakeWorksheet ? { Id: target.Id } : {};
}

/** What is asked of a list is asked of each thing in it. */
function queried(target: unknown, select: readonly string[]): Record<string, unknown> {
  const items: unknown = Reflect.get(Object(target), '_Items');
  if (Array.isArray(items)) {
    const ofItems = select.map((path) => path.replace(/^items\//, ''));
    return { _Items: items.map((item) => ({ ...Object(identityOf(item)), ...queried(item, ofItems) })) };
  }
  const answer: Record<string, unknown> = {};
  for (const path of select) {
    const name = path.charAt(0).toUpperCase() + path.slice(1);
    if (!(name in Object(target))) throw new Error(`no ${name} to read`);
    answer[name] = Reflect.get(Object(target), name);
  }
  return answer;
}

function member(target: unknown, name: string): (...given: unknown[]) => unknown {
  const found: unknown = Reflect.get(Object(target), name);
  if (typeof found !== 'function') throw new Error(`no ${name} to call`);
  return (...given) => Reflect.apply(found, target, given);
}

function resolved(book: FakeWorkbook, id: number, paths: Paths, known: Map<number, unknown>): unknown {
  if (known.has(id)) return known.get(id);
  const path = paths[id];
  if (!path) throw new Error(`no path ${id} among ${JSON.stringify(paths)}`);
  const value = resolvedAnew(book, path, paths, known);
  known.set(id, value);
  return value;
}

function resolvedAnew(book: FakeWorkbook, path: OfficePath, paths: Paths, known: Map<number, unknown>): unknown {
  if (path.ObjectPathType === PATH_GLOBAL) return book;
  if (path.ObjectPathType === PATH_NULL) return null;
  if (path.ObjectPathType === PATH_REFERENCE) {
    const kept = book.references.get(path.Name);
    if (!kept) throw new ExcelFault('InvalidObjectPath');
    return kept;
  }
  const parent = resolved(book, path.ParentObjectPathId ?? 0, paths, known);
  if (parent === null) return null;
  const given = argumentsOf(book, path.ArgumentInfo, paths, known);
  if (path.ObjectPathType === PATH_METHOD) return member(parent, path.Name)(...given);
  if (path.ObjectPathType === PATH_INDEXER) return member(parent, 'GetItem')(...given);
  if (path.ObjectPathType !== PATH_PROPERTY) throw new Error(`a path of kind ${path.ObjectPathType}`);
  if (!(path.Name in Object(parent))) throw new Error(`no ${path.Name} to follow`);
  return Reflect.get(Object(parent), path.Name);
}
