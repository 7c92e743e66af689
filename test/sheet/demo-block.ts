/** A sheet of the demo workbooks as a host would read it. */
import type { Block, Locale } from '../../addon/host/host.ts';
import type { DemoSheet } from '../../data-demo/demo-sheet.ts';
import { blockOf, type CellSpec } from './block.ts';

export function demoBlock(sheet: DemoSheet, locale: Locale): Block {
  const formats = new Map((sheet.formats ?? []).map(({ row, column, format }) => [`${row} ${column}`, format]));
  const rows = sheet.rows.map((cells, row) =>
    cells.map((value, column): CellSpec => {
      const format = formats.get(`${row} ${column}`);
      if (format !== undefined && typeof value === 'number') return { number: value, format, shown: '5-Apr' };
      return typeof value === 'string' && value.startsWith('=') ? { formula: value, value: 0 } : value;
    }),
  );
  return blockOf(rows, { locale, hiddenRows: sheet.hiddenRows ?? [], merged: sheet.merged ?? [] });
}
