/** Reads Excel in whole blocks, few round trips a reading whatever the number of rows. */
import { firstCell, isSmall, overlap, selectedArea, withinSheet } from './area.ts';
import { cellOf } from './cell-kind.ts';
import { EXCEL_COLUMNS_MAX, EXCEL_ROWS_MAX, readExcel } from './excel-run.ts';
import { type Area, type Block, type Cell, HostError, type Locale } from './host.ts';
import { localeOf } from './locale-of.ts';
import { revisionOf } from './revision.ts';

export function rangeOf(context: Excel.RequestContext, area: Area): Excel.Range {
  return context.workbook.worksheets
    .getItem(area.sheet)
    .getRangeByIndexes(area.row, area.column, area.rowCount, area.columnCount);
}

export interface LoadedCells {
  /** After the next sync. */
  cells(): Cell[][];
  /** True or false for all rows alike; null where some are hidden. */
  allHidden(): boolean | null;
}

export function loadCells(range: Excel.Range): LoadedCells {
  range.load('values,formulas,text,numberFormat,rowHidden');
  return {
    cells: () =>
      range.values.map((row: readonly unknown[], r: number) =>
        row.map((value, c) => {
          const plain = typeof value === 'number' || typeof value === 'boolean' ? value : String(value ?? '');
          const formula = String(range.formulas[r]?.[c] ?? '');
          // A text that begins with = is its own "formula" in a cell formatted as text.
          const computed = formula === plain ? '' : formula;
          return cellOf(plain, range.text[r]?.[c] ?? '', computed, String(range.numberFormat[r]?.[c] ?? ''));
        }),
      ),
    allHidden: () => range.rowHidden ?? null,
  };
}

/** Hidden rows of a range, within it: Excel tells them one by one only through what is left to see. */
export async function hiddenRows(
  context: Excel.RequestContext,
  range: Excel.Range,
  area: Area,
  allHidden: boolean | null,
): Promise<number[]> {
  const rows = Array.from({ length: area.rowCount }, (_, row) => row);
  if (allHidden !== null) return allHidden ? rows : [];
  const view = range.getVisibleView();
  view.load('cellAddresses');
  await context.sync();
  const seen = new Set(view.cellAddresses.map((cells: readonly string[]) => rowOfAddress(cells[0] ?? '')));
  return rows.filter((row) => !seen.has(area.row + row));
}

const rowOfAddress = (address: string) => Number(/(\d+)$/.exec(address)?.[1] ?? 0) - 1;

export function readArea(given: Area): Promise<Block> {
  const area = withinSheet(given, EXCEL_ROWS_MAX, EXCEL_COLUMNS_MAX);
  return readExcel((context) => readBlock(context, area));
}

interface LoadedLocale {
  locale(): Locale;
}

function loadLocale(context: Excel.RequestContext): LoadedLocale {
  const culture = context.application.cultureInfo;
  culture.load('name');
  culture.numberFormat.load('numberDecimalSeparator');
  return {
    locale: () => ({
      ...localeOf(culture.name),
      // A user may set the separators apart from the language.
      decimal: culture.numberFormat.numberDecimalSeparator === ',' ? ',' : '.',
    }),
  };
}

export function readLocale(): Promise<Locale> {
  return readExcel(async (context) => {
    const loaded = loadLocale(context);
    await context.sync();
    return loaded.locale();
  });
}

/**
 * Merges are not asked for here: asking has emptied the user's undo list in some builds of Excel, so only a write looks
 * for them. A merged title still reads as its text with empty cells beside it.
 */
async function readBlock(context: Excel.RequestContext, area: Area): Promise<Block> {
  const range = rangeOf(context, area);
  const loaded = loadCells(range);
  const culture = loadLocale(context);
  await context.sync();
  const cells = loaded.cells();
  return {
    area,
    cells,
    hiddenRows: await hiddenRows(context, range, area, loaded.allHidden()),
    merged: [],
    locale: culture.locale(),
    revision: revisionOf(cells),
  };
}

export const readSelection = (expand: 'none' | 'table', rowCountMax: number): Promise<Block> =>
  readMeant((selected) => selected, expand, rowCountMax);

/** Excel lets us wait while a cell is being edited, and enters nothing for it. */
export const glanceAtTable = (rowCountMax: number): Promise<Block> => readMeant(firstCell, 'table', rowCountMax);

function readMeant(of: (selected: Area) => Area, expand: 'none' | 'table', rowCountMax: number): Promise<Block> {
  return readExcel(async (context) => {
    const range = context.workbook.getSelectedRange();
    const sheet = range.worksheet;
    const filled = sheet.getUsedRangeOrNullObject(true);
    sheet.load('name');
    range.load('rowIndex,columnIndex,rowCount,columnCount');
    filled.load('rowIndex,columnIndex,rowCount,columnCount');
    await context.sync();
    const selected = of(areaOfRange(range, sheet.name));
    const used = filled.isNullObject ? null : areaOfRange(filled, sheet.name);
    const size = { maxRows: EXCEL_ROWS_MAX, maxColumns: EXCEL_COLUMNS_MAX };
    const needsTexts = used !== null && expand === 'table' && isSmall(selected, size);
    const whole = needsTexts ? await readBlock(context, used) : null;
    const texts = () => whole?.cells.map((row) => row.map((cell) => cell.text)) ?? [];
    const area = selectedArea(selected, { used, ...size, texts }, expand, rowCountMax);
    return whole ? partOf(whole, area) : readBlock(context, area);
  });
}

export function readSelectedArea(): Promise<Area> {
  return readExcel(async (context) => {
    const range = context.workbook.getSelectedRange();
    range.load('rowIndex,columnIndex,rowCount,columnCount');
    range.worksheet.load('name');
    await context.sync();
    return areaOfRange(range, range.worksheet.name);
  });
}

export function listSheets(): Promise<{ name: string; used: Area | null }[]> {
  return readExcel(async (context) => {
    const sheets = context.workbook.worksheets;
    sheets.load('items/name');
    await context.sync();
    const filled = sheets.items.map((sheet) => {
      const range = sheet.getUsedRangeOrNullObject(true);
      range.load('rowIndex,columnIndex,rowCount,columnCount');
      return { name: sheet.name, range };
    });
    await context.sync();
    return filled.map(({ name, range }) => ({ name, used: range.isNullObject ? null : areaOfRange(range, name) }));
  });
}

function areaOfRange(range: Excel.Range, sheet: string): Area {
  const { rowIndex: row, columnIndex: column, rowCount, columnCount } = range;
  return { sheet, row, column, rowCount, columnCount };
}

function partOf(block: Block, area: Area): Block {
  if (!overlap(block.area, area)) throw new HostError('gone', 'The sheet changed meanwhile. Try again.');
  const down = area.row - block.area.row;
  const right = area.column - block.area.column;
  const cells = block.cells.slice(down, down + area.rowCount).map((row) => row.slice(right, right + area.columnCount));
  const hidden = block.hiddenRows.map((row) => row - down).filter((row) => row >= 0 && row < area.rowCount);
  return { ...block, area, cells, hiddenRows: hidden, revision: revisionOf(cells) };
}
