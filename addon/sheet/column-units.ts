/**
 * The unit of the bare numbers in each size column, from the surest source down: heading, a row of units, number
 * formats, the cells that name theirs, a title ("all sizes in mm"), the other size columns, the size of the numbers, the
 * shop's own.
 */
import { readLength } from '../../worker/wood/length.ts';
import type { Cell } from '../host/host.ts';
import { isBlank, isDateCell, unitOfFormat } from './cell-length.ts';
import { cellWords, readDecimal } from './cell-values.ts';
import type { ColumnUnit, Role, UnitSource } from './mapping.ts';

export interface HeadedColumn {
  readonly role: Role;
  readonly cells: readonly Cell[];
  /** The unit that the heading names. */
  readonly named: ColumnUnit | null;
  readonly inUnitRow: ColumnUnit | null;
}

interface AssumedUnit {
  readonly unit: ColumnUnit;
  readonly from: UnitSource;
}

export interface AssumedUnits {
  readonly byRole: ReadonlyMap<Role, AssumedUnit>;
  readonly questions: readonly string[];
}

const measured: ReadonlySet<Role> = new Set<Role>([
  'length',
  'lengthInches',
  'width',
  'thickness',
  'size',
  'plyWidth',
  'crook',
  'bow',
  'cup',
  'twist',
]);

export function assumedUnits(
  columns: readonly HeadedColumn[],
  titles: readonly string[],
  system: 'in' | 'mm',
): AssumedUnits {
  const sized = columns.filter((column) => measured.has(column.role));
  const byRole = new Map<Role, AssumedUnit>();
  for (const column of sized) {
    const own = ownUnit(column);
    if (own !== null) byRole.set(column.role, own);
  }
  const shared = titleUnit(titles) ?? neighbourUnit(byRole);
  const bySize = shared === null ? unitBySize(sized, byRole, system) : null;
  for (const { role } of sized) {
    if (byRole.has(role)) continue;
    byRole.set(role, shared ?? bySize?.assumed ?? { unit: system, from: 'default' });
  }
  const feet = feetQuestion(sized, byRole);
  return { byRole, questions: [bySize?.question ?? null, feet].filter((question) => question !== null) };
}

function ownUnit(column: HeadedColumn): AssumedUnit | null {
  if (column.named !== null) return { unit: column.named, from: 'heading' };
  if (column.inUnitRow !== null) return { unit: column.inUnitRow, from: 'unit-row' };
  const numbers = column.cells.filter((cell) => typeof cell.raw === 'number' && !isDateCell(cell));
  const formats = new Set(numbers.map((cell) => unitOfFormat(cell.format)));
  const [format] = formats;
  if (formats.size === 1 && format) return { unit: format, from: 'format' };
  const bare = numbers.length + column.cells.filter((cell) => isBareText(cell)).length;
  const systems = column.cells.flatMap((cell) => systemNamedIn(cell));
  const [only] = systems;
  const agree = only !== undefined && systems.every((s) => s === only);
  return agree && systems.length >= 2 && systems.length >= bare ? { unit: only, from: 'cells' } : null;
}

const isBareText = (cell: Cell) => cell.kind === 'text' && readDecimal(cellWords(cell), '.') !== null;

/** The system of a text that says its own unit; "5/4" and "23 5/8" speak of inches only as text and say nothing of the bare numbers beside them. */
function systemNamedIn(cell: Cell): ('in' | 'mm')[] {
  if (cell.kind !== 'text' || isBlank(cell) || /\/4\s*$/.test(cellWords(cell))) return [];
  const reading = readLength(cellWords(cell), { unit: null, decimal: '.' });
  return reading.ok && reading.nm > 0 ? [reading.system] : [];
}

const unitInTitle =
  /\b(?:in|units?\s*[:=]?|sizes?\s*:|dimensions?\s*:)\s+(mm|millimet(?:er|re)s?|cm|centimet(?:er|re)s?|inch(?:es)?)\b|[([]\s*(mm|cm|in|inches)\.?\s*[)\]]/i;

/** "All sizes in mm", "Units: inches", "Hall table (mm)". */
function titleUnit(titles: readonly string[]): AssumedUnit | null {
  for (const title of titles) {
    const named = unitInTitle.exec(title);
    const word = (named?.[1] ?? named?.[2] ?? '').toLowerCase();
    if (word !== '') return { unit: word.startsWith('m') ? 'mm' : word.startsWith('c') ? 'cm' : 'in', from: 'title' };
  }
  return null;
}

/** 8', 10', 12: the bare number is most likely feet too. */
function feetQuestion(sized: readonly HeadedColumn[], byRole: ReadonlyMap<Role, AssumedUnit>): string | null {
  const length = sized.find(({ role }) => role === 'length');
  if (length === undefined || byRole.get('length')?.unit !== 'in' || length.named !== null) return null;
  const inFeet = length.cells.filter((cell) =>
    /^\d+(?:[.,]\d+)?\s*(?:['’′]|ft\.?|feet)\s*$/i.test(cellWords(cell)),
  ).length;
  const bare = length.cells.filter((cell) => isBareText(cell) || (typeof cell.raw === 'number' && !isDateCell(cell)));
  const [first] = bare;
  if (first === undefined || inFeet < 2 || inFeet < bare.length) return null;
  return `Most lengths are in feet, but some, such as ${cellWords(first)}, have no unit and are read as inches. Are they feet?`;
}

/** Lengths, widths and thicknesses of one table are in one system; feet and metres hold for their own column only. */
function neighbourUnit(byRole: ReadonlyMap<Role, AssumedUnit>): AssumedUnit | null {
  const said = [...byRole.values()].filter(({ from }) => from !== 'cells').map(({ unit }) => unit);
  const systems = new Set(said.map((unit) => (unit === 'mm' || unit === 'cm' || unit === 'm' ? 'mm' : 'in')));
  const [only] = systems;
  return systems.size === 1 && only
    ? { unit: said.every((unit) => unit === 'cm') ? 'cm' : only, from: 'neighbours' }
    : null;
}

/** 2440 x 230 x 27 without a unit is not inches. */
function unitBySize(
  sized: readonly HeadedColumn[],
  known: ReadonlyMap<Role, AssumedUnit>,
  system: 'in' | 'mm',
): { assumed: AssumedUnit; question: string } | null {
  const median = (role: Role) =>
    known.has(role) ? null : medianOfNumbers(sized.find((c) => c.role === role)?.cells ?? []);
  const lengthMedian = median('length');
  const widthMedian = median('width');
  if (lengthMedian === null) return null;
  if (system === 'in' && lengthMedian >= 400) {
    return {
      assumed: { unit: 'mm', from: 'size' },
      question: `Lengths around ${Math.round(lengthMedian)} are read as millimetres, because no board is so many inches long.`,
    };
  }
  if (system === 'mm' && lengthMedian <= 150 && widthMedian !== null && widthMedian <= 14) {
    return {
      assumed: { unit: 'in', from: 'size' },
      question: `Sizes around ${Math.round(lengthMedian)} × ${Math.round(widthMedian)} are read as inches, because they would be tiny in millimetres.`,
    };
  }
  return null;
}

export function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? null;
}

function medianOfNumbers(cells: readonly Cell[]): number | null {
  const numbers = cells.flatMap((cell) => {
    if (typeof cell.raw === 'number') return isDateCell(cell) ? [] : [cell.raw];
    const read = cell.kind === 'text' ? readDecimal(cellWords(cell), '.') : null;
    return read === null ? [] : [read];
  });
  return medianOf(numbers);
}

/** The sheet's decimal mark, unless its texts plainly use the other one: "27,5" and never "27.5". */
export function decimalOf(columns: readonly HeadedColumn[], sheets: '.' | ','): '.' | ',' {
  let commas = 0;
  let points = 0;
  for (const { role, cells } of columns) {
    if (!measured.has(role) && role !== 'moisture' && role !== 'cost') continue;
    for (const cell of cells) {
      if (cell.kind !== 'text') continue;
      if (/\d,(?:\d{1,2}|\d{4,})(?!\d)/.test(cellWords(cell))) commas += 1;
      if (/\d\.(?:\d{1,2}|\d{4,})(?!\d)/.test(cellWords(cell))) points += 1;
    }
  }
  if (commas > 0 && points === 0) return ',';
  return points > 0 && commas === 0 ? '.' : sheets;
}
