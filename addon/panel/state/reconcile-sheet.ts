/**
 * The reconciliation as rows of a sheet, for whoever rather writes there: one row a part or offcut of each board, Good
 * and Failed left open. Read back by what stands in the row, not by where it stands, so that sorting does no harm.
 */
import type { Block } from '../../host/host.ts';
import { type BoardForm, countOf, type OffcutRow, type PartRow, typedSize } from './reconcile-form.ts';

const heads = ['Board', 'What', 'Part or tag', 'Planned', 'Good', 'Failed', 'Why', 'Length', 'Width'] as const;
type Head = (typeof heads)[number];

export interface TaggedForm {
  readonly tag: string;
  readonly form: BoardForm;
}

export function sheetRowsOf(boards: readonly TaggedForm[]): (string | number | null)[][] {
  const rows: (string | number | null)[][] = [[...heads]];
  for (const { tag, form } of boards) {
    for (const row of form.parts) {
      rows.push([tag, 'part', partText(row), row.planned, null, null, null, row.lengthEntry.text, row.widthEntry.text]);
    }
    for (const row of form.offcuts) {
      rows.push([tag, 'offcut', row.tag, null, null, null, null, row.lengthEntry.text, row.widthEntry.text]);
    }
  }
  return rows;
}

export type SheetForms =
  | { readonly ok: true; readonly forms: readonly BoardForm[] }
  | { readonly ok: false; readonly help: string };

/** Boards whose parts all have a count in Good; the others stay for later. An offcut row that was taken away is no offcut. */
export function formsFromSheet(block: Block, boards: readonly TaggedForm[]): SheetForms {
  const at = columnsOf(block);
  if (at === null) return { ok: false, help: 'The headings of that sheet were changed. Put it on a new sheet.' };
  const rows = block.cells.slice(1).map((cells) => (head: Head) => cells[at[head]]?.text.trim() ?? '');
  const forms: BoardForm[] = [];
  for (const { tag, form } of boards) {
    const mine = rows.filter((cell) => cell('Board').toLowerCase() === tag.toLowerCase());
    const partRows = mine.filter((cell) => cell('What').toLowerCase() === 'part');
    if (partRows.length === 0 || partRows.some((cell) => cell('Good') === '' && cell('Failed') === '')) continue;
    const parts = form.parts.map((row) => partFrom(row, partRows));
    const offcuts = mine
      .filter((cell) => cell('What').toLowerCase() === 'offcut')
      .map((cell) => offcutFrom(cell, form.offcuts));
    const asPlanned = samePlan(form, parts, offcuts);
    forms.push({ ...form, became: asPlanned ? 'planned' : 'cut', parts, offcuts });
  }
  if (forms.length === 0)
    return { ok: false, help: 'No board is filled in yet: write a count under Good for each of its parts.' };
  return { ok: true, forms };
}

type Cells = (head: Head) => string;

function partFrom(row: PartRow, cells: readonly Cells[]): PartRow {
  const same = cells.filter((cell) => cell('Part or tag') === partText(row));
  const found = same.find((cell) => cell('Length') === row.lengthEntry.text) ?? same[0];
  // A row that is no longer there says that none came out.
  if (found === undefined) return { ...row, good: '0', failed: '0' };
  return {
    ...row,
    good: found('Good') === '' ? '0' : found('Good'),
    failed: found('Failed') === '' ? '0' : found('Failed'),
    why: found('Why'),
    lengthEntry: found('Length') === row.lengthEntry.text ? row.lengthEntry : typedSize(found('Length')),
    widthEntry: found('Width') === row.widthEntry.text ? row.widthEntry : typedSize(found('Width')),
  };
}

function offcutFrom(cell: Cells, planned: readonly OffcutRow[]): OffcutRow {
  const like = planned.find((row) => row.lengthEntry.text === cell('Length') && row.widthEntry.text === cell('Width'));
  return {
    tag: cell('Part or tag'),
    lengthEntry: like?.lengthEntry ?? typedSize(cell('Length')),
    widthEntry: like?.widthEntry ?? typedSize(cell('Width')),
    place: '',
  };
}

function samePlan(form: BoardForm, parts: readonly PartRow[], offcuts: readonly OffcutRow[]): boolean {
  const exact = (row: Pick<PartRow, 'lengthEntry' | 'widthEntry'>) =>
    row.lengthEntry.asPlannedNm !== null && row.widthEntry.asPlannedNm !== null;
  return (
    parts.every((row) => countOf(row.good) === row.planned && countOf(row.failed) === 0 && exact(row)) &&
    offcuts.length === form.offcuts.length &&
    offcuts.every((row, index) => exact(row) && row.lengthEntry === form.offcuts[index]?.lengthEntry)
  );
}

function partText(row: PartRow): string {
  return row.element === null ? row.label : `${row.label}, layer ${row.element + 1}`;
}

function columnsOf(block: Block): Record<Head, number> | null {
  const header = block.cells[0]?.map((cell) => cell.text.trim()) ?? [];
  const at = heads.map((head) => [head, header.indexOf(head)] as const);
  return at.some(([, column]) => column < 0) ? null : (Object.fromEntries(at) as Record<Head, number>);
}
