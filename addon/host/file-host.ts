/**
 * Rows of a CSV or XLSX file in memory as a SheetHost, for import and export: read and written like any sheet, with
 * nobody else typing in it. Whoever opens the file parses it into sheets, and takes the sheets back to save them.
 */
import { areaAround, overlap, selectedArea, withinSheet } from './area.ts';
import { cellOf } from './cell-kind.ts';
import {
  clashesOf,
  decideUndo,
  decideWrite,
  journalOf,
  type Put,
  type Standing,
  textOf,
  type UndoDecision,
} from './guarded-write.ts';
import { type Area, type Block, type Cell, HostError, type Locale, type SheetHost } from './host.ts';
import { revisionOf } from './revision.ts';
import { freeSheetName, sheetGone } from './sheet-name.ts';
import { writeTokens } from './write-tokens.ts';

/** A cell as a parser gives it; a plain value is shown as it is. */
export interface FileCell {
  readonly value: number | string | boolean | null;
  readonly text?: string;
  readonly formula?: string;
  readonly format?: string;
}

export interface FileSheet {
  readonly name: string;
  readonly rows: readonly (readonly (FileCell | FileCell['value'])[])[];
  readonly hiddenRows?: readonly number[];
  readonly merged?: readonly Omit<Area, 'sheet'>[];
}

export interface FileBook {
  readonly host: SheetHost;
  /** The first sheet whole is selected at first. */
  select(area: Area): void;
  /** The sheets as they are now, to be saved. */
  sheets(): readonly FileSheet[];
}

interface OpenSheet {
  readonly name: string;
  readonly cells: Cell[][];
  readonly hidden: ReadonlySet<number>;
  readonly merged: readonly Area[];
}

/** The most that one sheet of a file may hold, rows and columns as in XLSX. */
const ROWS_MAX = 1_048_576;
const COLUMNS_MAX = 16_384;
const BLANK: Cell = { kind: 'empty', raw: null, text: '', formula: null, format: null };

export function openFileBook(given: readonly FileSheet[], locale: Locale): FileBook {
  const sheets = given.map(opened);
  const tokens = writeTokens();
  const kept = new Map<string, string>();
  let selected: Area | null = null;

  const sheetNamed = (name: string): OpenSheet => {
    const sheet = sheets.find((one) => one.name === name);
    if (!sheet) throw new HostError('gone', sheetGone(name));
    return sheet;
  };

  function read(area: Area): Block {
    const sheet = sheetNamed(area.sheet);
    const rows = Array.from({ length: area.rowCount }, (_, r) => r);
    const cells = rows.map((r) =>
      Array.from({ length: area.columnCount }, (_, c) => sheet.cells[area.row + r]?.[area.column + c] ?? BLANK),
    );
    return {
      area,
      cells,
      hiddenRows: rows.filter((r) => sheet.hidden.has(area.row + r)),
      merged: sheet.merged.filter((merge) => overlap(merge, area)),
      locale,
      revision: revisionOf(cells),
    };
  }

  function undoWith(decision: UndoDecision, sheet: OpenSheet) {
    put(sheet, decision.puts, locale);
    const textsAfter = decision.puts.map(({ row, column }) => textOf(cellAt(sheet, row, column)));
    const cells = decision.before.map((before, index) => ({ before, textAfter: textsAfter[index] ?? '' }));
    const undoToken = tokens.keep({ sheet: sheet.name, cells, headings: [] });
    return { written: decision.puts.length, clashes: decision.clashes, undoToken };
  }

  const host: SheetHost = {
    async capabilities() {
      return { host: 'file', pushesSelection: false, undoesNatively: false, notes: false };
    },
    async readSelection({ expand, rowCountMax }) {
      const first = sheets[0];
      const area = selected ?? (first && usedArea(first));
      if (!area) throw new HostError('nothing-selected', 'The file holds no rows.');
      const sheet = sheetNamed(area.sheet);
      const used = usedArea(sheet);
      const texts = () => (used ? read(used).cells.map((row) => row.map((cell) => cell.text)) : []);
      return read(selectedArea(area, { used, maxRows: ROWS_MAX, maxColumns: COLUMNS_MAX, texts }, expand, rowCountMax));
    },
    async readArea(area) {
      sheetNamed(area.sheet);
      return read(withinSheet(area, ROWS_MAX, COLUMNS_MAX));
    },
    async listSheets() {
      return sheets.map((sheet) => ({ name: sheet.name, used: usedArea(sheet) }));
    },
    async planWrite(plan) {
      return clashesOf(plan, standingOf(sheetNamed(plan.sheet)));
    },
    async write(plan, over) {
      const sheet = sheetNamed(plan.sheet);
      const decision = decideWrite(plan, over, standingOf(sheet));
      put(sheet, decision.puts, locale);
      const textsAfter = decision.puts.map(({ row, column }) => textOf(cellAt(sheet, row, column)));
      const undoToken = tokens.keep(journalOf(decision, sheet.name, textsAfter));
      return { written: decision.puts.length, clashes: decision.stopped, undoToken };
    },
    async undo(undoToken) {
      const journal = tokens.find(undoToken);
      const sheet = sheetNamed(journal.sheet);
      const decision = decideUndo(journal, (row, column) => cellAt(sheet, row, column));
      if (decision.puts.length > 0) tokens.forget(undoToken);
      return undoWith(decision, sheet);
    },
    async addSheet(name, rows) {
      const taken = sheets.map((sheet) => sheet.name);
      const sheet = opened({ name: freeSheetName(name, taken), rows });
      sheets.push(sheet);
      return { name: sheet.name };
    },
    async reveal(area) {
      selected = withinSheet({ ...area, sheet: sheetNamed(area.sheet).name }, ROWS_MAX, COLUMNS_MAX);
    },
    onSelection: () => () => undefined,
    onCommand: () => () => undefined,
    settings: {
      async forgetFile() {
        for (const name of [...kept.keys()]) if (name.startsWith('file.')) kept.delete(name);
      },
      get: async (key, scope) => kept.get(`${scope}.${key}`) ?? null,
      async set(key, value, scope) {
        if (value === null) kept.delete(`${scope}.${key}`);
        else kept.set(`${scope}.${key}`, value);
      },
    },
    async focusSheet() {},
    async showPage() {
      throw new HostError('unsupported', 'A file has no window to show a page in.');
    },
  };
  return {
    host,
    select(area) {
      selected = area;
    },
    sheets: () => sheets.map(closed),
  };
}

function opened(sheet: FileSheet): OpenSheet {
  return {
    name: sheet.name,
    cells: sheet.rows.map((row) => row.map(cellFrom)),
    hidden: new Set(sheet.hiddenRows),
    merged: (sheet.merged ?? []).map((merge) => ({ ...merge, sheet: sheet.name })),
  };
}

function closed(sheet: OpenSheet): FileSheet {
  return {
    name: sheet.name,
    rows: sheet.cells.map((row) =>
      row.map((cell) => ({
        value: cell.raw,
        text: cell.text,
        ...(cell.formula === null ? {} : { formula: cell.formula }),
        ...(cell.format === null ? {} : { format: cell.format }),
      })),
    ),
    hiddenRows: [...sheet.hidden],
    merged: sheet.merged,
  };
}

function cellFrom(given: FileCell | FileCell['value']): Cell {
  const cell: FileCell = typeof given === 'object' && given !== null ? given : { value: given };
  const value = cell.value ?? '';
  const text = cell.text ?? (typeof value === 'boolean' ? String(value).toUpperCase() : String(value));
  return cellOf(value, text, cell.formula ?? '', cell.format ?? '');
}

const cellAt = (sheet: OpenSheet, row: number, column: number): Cell | null => sheet.cells[row]?.[column] ?? null;

function standingOf(sheet: OpenSheet): Standing {
  return {
    at: (row, column) => cellAt(sheet, row, column),
    merged: sheet.merged,
    hidden: (row) => sheet.hidden.has(row),
    protectedAt: () => null,
  };
}

function usedArea(sheet: OpenSheet): Area | null {
  const filled = sheet.cells.flatMap((row, r) =>
    row.flatMap((cell, c) => (cell.kind === 'empty' && !cell.formula ? [] : [{ row: r, column: c }])),
  );
  return filled.length === 0 ? null : areaAround(sheet.name, filled);
}

function put(sheet: OpenSheet, puts: readonly Put[], locale: Locale): void {
  for (const { row, column, value, formula, format } of puts) {
    while (sheet.cells.length <= row) sheet.cells.push([]);
    const cells = sheet.cells[row] ?? [];
    while (cells.length <= column) cells.push(BLANK);
    const shown = typeof value === 'number' ? String(value).replace('.', locale.decimal) : String(value ?? '');
    const text = typeof value === 'boolean' ? shown.toUpperCase() : shown;
    cells[column] = cellOf(value ?? '', text, formula ?? '', format ?? cells[column]?.format ?? '');
  }
}
