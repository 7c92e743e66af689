/** Makes what a host would read from the few things a case needs to say. */
import type { Area, Block, Cell, Locale } from '../../addon/host/host.ts';

/** A plain value, a formula with its value, a number with a format, or a date with what the sheet shows. */
export type CellSpec =
  | string
  | number
  | null
  | boolean
  | { readonly formula: string; readonly value: string | number }
  | { readonly number: number; readonly format: string; readonly shown?: string }
  | { readonly date: number; readonly shown: string }
  | { readonly error: string };

export const us: Locale = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' };
export const comma: Locale = { tag: 'de-AT', decimal: ',', dateOrder: 'dmy' };

export interface BlockMore {
  readonly locale?: Locale;
  readonly hiddenRows?: readonly number[];
  readonly merged?: readonly Omit<Area, 'sheet'>[];
  /** Where the block's first cell stands on the sheet. */
  readonly at?: { readonly row: number; readonly column: number };
}

export function cellOf(spec: CellSpec | undefined): Cell {
  const blank: Cell = { kind: 'empty', raw: null, text: '', formula: null, format: null };
  if (spec === null || spec === undefined || spec === '') return blank;
  if (typeof spec === 'boolean') return { ...blank, kind: 'boolean', raw: spec, text: spec ? 'TRUE' : 'FALSE' };
  if (typeof spec === 'number') return { ...blank, kind: 'number', raw: spec, text: String(spec) };
  if (typeof spec === 'string') return { ...blank, kind: 'text', raw: spec, text: spec };
  if ('formula' in spec) return { ...cellOf(spec.value), formula: spec.formula };
  if ('number' in spec) {
    return { ...blank, kind: 'number', raw: spec.number, text: spec.shown ?? String(spec.number), format: spec.format };
  }
  if ('date' in spec) return { ...blank, kind: 'date', raw: spec.date, text: spec.shown };
  return { ...blank, kind: 'error', raw: spec.error, text: spec.error };
}

export function blockOf(rows: readonly (readonly CellSpec[])[], more: BlockMore = {}): Block {
  const columnCount = Math.max(1, ...rows.map((row) => row.length));
  const at = more.at ?? { row: 0, column: 0 };
  return {
    area: { sheet: 'Sheet', row: at.row, column: at.column, rowCount: Math.max(1, rows.length), columnCount },
    cells: rows.map((row) => Array.from({ length: columnCount }, (_, column) => cellOf(row[column]))),
    hiddenRows: more.hiddenRows ?? [],
    merged: (more.merged ?? []).map((area) => ({ sheet: 'Sheet', ...area })),
    locale: more.locale ?? us,
    revision: 'r1',
  };
}
