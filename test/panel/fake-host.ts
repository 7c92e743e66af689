/** A spreadsheet in memory, as far as the panel needs one: cells of text and numbers, one selection, an undo of the last write. */
import type { Area, Block, Cell, Clash, SheetHost, WritePlan } from '../../addon/host/host.ts';

export type Grid = (string | number | null)[][];

export interface FakeHost extends SheetHost {
  readonly grid: Grid;
  selection: Area;
  readonly shown: { readonly title: string; readonly html: string }[];
  readonly revealed: Area[];
}

export function fakeHost(grid: Grid, sheet = 'Sheet 1'): FakeHost {
  const kept = new Map<string, string>();
  const undos = new Map<string, { row: number; column: number; was: string | number | null }[]>();
  const used = (): Area => ({
    sheet,
    row: 0,
    column: 0,
    rowCount: Math.max(1, grid.length),
    columnCount: Math.max(1, ...grid.map((row) => row.length)),
  });
  const cell = (value: string | number | null): Cell => ({
    kind: value === null || value === '' ? 'empty' : typeof value === 'number' ? 'number' : 'text',
    raw: value,
    text: value === null ? '' : String(value),
    formula: null,
    format: null,
  });
  const block = (area: Area): Block => ({
    area,
    cells: Array.from({ length: area.rowCount }, (_, r) =>
      Array.from({ length: area.columnCount }, (_, c) => cell(grid[area.row + r]?.[area.column + c] ?? null)),
    ),
    hiddenRows: [],
    merged: [],
    locale: { tag: 'en-US', decimal: '.', dateOrder: 'mdy' },
    revision: JSON.stringify(grid),
  });
  const clashesOf = (plan: WritePlan): Clash[] =>
    plan.cells.flatMap((write) => {
      const now = grid[write.row]?.[write.column] ?? null;
      const text = now === null ? null : String(now);
      if (text === write.expects) return [];
      return [
        {
          row: write.row,
          column: write.column,
          address: `${write.row + 1}`,
          why: 'changed' as const,
          holds: text ?? '',
        },
      ];
    });
  const host: FakeHost = {
    grid,
    selection: { sheet, row: 0, column: 0, rowCount: 1, columnCount: 1 },
    shown: [],
    revealed: [],
    async capabilities() {
      return { host: 'file', pushesSelection: false, undoesNatively: false, notes: false };
    },
    async readSelection({ expand }) {
      return block(expand === 'table' ? used() : host.selection);
    },
    async readArea(area) {
      return block(area);
    },
    async listSheets() {
      return [{ name: sheet, used: used() }];
    },
    async planWrite(plan) {
      return clashesOf(plan);
    },
    async write(plan, over) {
      const clashes = clashesOf(plan).filter((clash) => !over.includes(clash.address));
      const was: { row: number; column: number; was: string | number | null }[] = [];
      for (const write of plan.cells) {
        if (clashes.some((clash) => clash.row === write.row && clash.column === write.column)) continue;
        while (grid.length <= write.row) grid.push([]);
        const row = grid[write.row] ?? [];
        was.push({ row: write.row, column: write.column, was: row[write.column] ?? null });
        while (row.length <= write.column) row.push(null);
        row[write.column] = write.value;
      }
      const undoToken = `undo-${undos.size + 1}`;
      undos.set(undoToken, was);
      return { written: was.length, clashes, undoToken: was.length === 0 ? null : undoToken };
    },
    async addSheet(name) {
      return { name };
    },
    async undo(token) {
      const was = undos.get(token) ?? [];
      for (const one of was) {
        const row = grid[one.row];
        if (row !== undefined) row[one.column] = one.was;
      }
      return { written: was.length, clashes: [], undoToken: null };
    },
    async reveal(area) {
      host.revealed.push(area);
    },
    onSelection: () => () => {},
    onCommand: () => () => {},
    settings: {
      async forgetFile() {
        for (const name of [...kept.keys()]) if (name.startsWith('file ')) kept.delete(name);
      },
      async get(key, scope) {
        return kept.get(`${scope} ${key}`) ?? null;
      },
      async set(key, value, scope) {
        if (value === null) kept.delete(`${scope} ${key}`);
        else kept.set(`${scope} ${key}`, value);
      },
    },
    async focusSheet() {},
    async showPage(title, html) {
      host.shown.push({ title, html });
    },
  };
  return host;
}
