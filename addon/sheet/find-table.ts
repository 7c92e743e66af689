/**
 * Finds the table in what was read: the heading row among the first rows, what each column is, and what the user should
 * look at. Headings propose, the data decide: a column whose cells do not read as its role is not taken for it lightly.
 */
import { readLength } from '../../worker/wood/length.ts';
import type { OwnName } from '../../worker/wood/species-naming.ts';
import type { Block, Cell } from '../host/host.ts';
import { cellAddress } from './address.ts';
import { cellWords, namesSpecies } from './cell-values.ts';
import { type ColumnFacts, columnScores } from './column-scores.ts';
import { assumedUnits, decimalOf, type HeadedColumn } from './column-units.ts';
import { headingParts, headingPlain, unitWord } from './heading.ts';
import {
  type ColumnReading,
  type Mapping,
  mappingSignature,
  missingRoles,
  type ReadDefaults,
  type Role,
  type SizeOrder,
  type Want,
} from './mapping.ts';
import { withQuestions } from './mapping-questions.ts';
import { cellAt, cellsWithMerges, rolesNamed, rowKind, unitRow, withinColumns } from './table-rows.ts';
import { type Span, tableSpan } from './table-span.ts';

const HEADER_ROWS_SEARCHED = 15;
const SAMPLE_ROWS = 200;
const SECTIONS_SEARCHED = 30;
const CONFIDENCE_MIN = 0.3;
const RIVAL_MIN = 0.4;

export type TableFinding =
  | { readonly ok: true; readonly mapping: Mapping }
  | { readonly ok: false; readonly why: 'empty' | 'no-headings'; readonly help: string };

/** A cell of the wanted table, 0-based within the block, where more than one may stand there. */
export interface NearCell {
  readonly row: number;
  readonly column: number;
}

export function findTable(
  block: Block,
  want: Want,
  defaults: ReadDefaults,
  near: NearCell | null = null,
): TableFinding {
  const finding = findTableFrom(0, block, want, defaults, near);
  // The selection stands in a table below the first one.
  if (!finding.ok || near === null || near.row <= finding.mapping.lastRow) return finding;
  const below = findTableFrom(finding.mapping.lastRow + 1, block, want, defaults, near);
  return below.ok && below.mapping.headerRow <= near.row ? below : finding;
}

function findTableFrom(
  fromRow: number,
  block: Block,
  want: Want,
  defaults: ReadDefaults,
  near: NearCell | null,
): TableFinding {
  const cells = cellsWithMerges(block);
  if (!cells.some((row) => row.some((cell) => cellWords(cell) !== ''))) {
    return { ok: false, why: 'empty', help: 'Nothing is selected; select the rows with their headings.' };
  }
  const headerRow = findHeaderRow(cells, want, fromRow);
  if (headerRow === null) {
    return {
      ok: false,
      why: 'no-headings',
      help: `No row of headings in the first ${HEADER_ROWS_SEARCHED} rows. Select the rows together with their headings, such as ${
        want === 'boards' ? 'Tag, Species, Length, Width, Thickness' : 'Part, Qty, Length, Width, Thickness, Species'
      }.`,
    };
  }
  const headings = underHeadings(cells[headerRow - 1] ?? [], cells[headerRow] ?? []).map(cellWords);
  const filled = headings.map((heading, column) =>
    heading === '' ? cells.slice(headerRow + 1).some((row) => cellWords(cellAt([row], 0, column)) !== '') : true,
  );
  const span = tableSpan(headings, filled, want, near?.column ?? null);
  return { ok: true, mapping: mapTable(block, cells, headerRow, span, want, defaults) };
}

/** The row that names most roles and stands over something. */
function findHeaderRow(cells: readonly (readonly Cell[])[], want: Want, fromRow: number): number | null {
  let best: { row: number; score: number } | null = null;
  for (let row = fromRow; row < Math.min(fromRow + HEADER_ROWS_SEARCHED, cells.length); row += 1) {
    const here = underHeadings(cells[row - 1] ?? [], cells[row] ?? []);
    const filled = here.filter((cell) => cellWords(cell) !== '');
    const texts = filled.filter((cell) => cell.kind === 'text');
    if (texts.length < 2 || texts.length < filled.length * 0.6) continue;
    const named = rolesNamed(here, want);
    if (named.count < 2) continue;
    const standsOverNumbers = cells
      .slice(row + 1, row + 5)
      .some((next) => next.some((cell) => /\d/.test(cellWords(cell))));
    const share = named.count / filled.length;
    const score = named.score * (0.5 + 0.5 * share) + (standsOverNumbers ? 0.5 : 0);
    if (best === null || score > best.score + 1e-9) best = { row, score };
  }
  return best?.row ?? null;
}

/** Headings in two rows: where the lower row is empty, what stands above it counts ("Qty" beside "Finished size" over "L W T"). */
function underHeadings(above: readonly Cell[], row: readonly Cell[]): readonly Cell[] {
  const texts = (cells: readonly Cell[]) =>
    cells.filter((cell) => cell.kind === 'text' && cellWords(cell) !== '').length;
  if (texts(above) < 2 || texts(row) < 2) return row;
  return row.map((cell, column) => (cellWords(cell) === '' ? cellAt([above], 0, column) : cell));
}

function mapTable(
  block: Block,
  wholeCells: readonly (readonly Cell[])[],
  headerRow: number,
  span: Span,
  want: Want,
  defaults: ReadDefaults,
): Mapping {
  const cells = withinColumns(wholeCells, span.first, span.last);
  const headings = headingTexts(cells, headerRow);
  const below = unitRow(cells[headerRow + 1] ?? []);
  const firstRow = headerRow + (below === null ? 1 : 2);
  const ownWoods = defaults.ownWoods ?? [];
  const own = withinColumns(block.cells, span.first, span.last);
  const rows = dataRows({ ...block, cells: own }, firstRow, headings, { want, ownWoods });
  const facts = columnFacts(cells, rows.data, headings, block);
  const { dateOrder } = block.locale;
  const scores = columnScores(want, facts, { dateOrder, spellings: defaults.spellings ?? {}, ownWoods });
  const assigned = withInches(assign(scores), facts);
  const headed: HeadedColumn[] = assigned.map(({ role, column }) => ({
    role,
    cells: facts.find((fact) => fact.column === column)?.cells ?? [],
    named: headingParts(headings.get(column) ?? '').unit,
    inUnitRow: unitWord(below?.get(column) ?? ''),
  }));
  const titles = cells.slice(0, headerRow).flatMap((row) => row.map(cellWords));
  const units = assumedUnits(headed, titles, defaults.system);
  const columns = assigned.map(({ role, column, confidence, rivals }): ColumnReading => {
    const unit = units.byRole.get(role);
    return {
      role,
      column,
      heading: headings.get(column) ?? '',
      unit: unit?.unit ?? null,
      unitFrom: unit?.from ?? null,
      confidence,
      rivals: rivals.map((rival) => ({ ...rival, heading: headings.get(rival.column) ?? '' })),
    };
  });
  const decimal = decimalOf(headed, block.locale.decimal);
  const speciesGiven = Boolean(defaults.species) || rows.sectionSpecies;
  const mapping: Mapping = {
    want,
    headerRow,
    firstRow,
    lastRow: rows.lastRow,
    firstColumn: span.first,
    lastColumn: span.last,
    unitColumn: unitColumnOf(facts, columns),
    columns,
    unused: [...headings]
      .filter(([column]) => !columns.some((c) => c.column === column))
      .map(([column, heading]) => ({ column, heading })),
    missing: missingRoles(want, new Set(columns.map((c) => c.role)), speciesGiven),
    decimal,
    sizeOrder: sizeOrderOf(columns, facts),
    datesAreFractions: false,
    hiddenRows: 'skip',
    questions: [],
    signature: mappingSignature([...headings.values()]),
  };
  return withQuestions(mapping, [...units.questions, ...otherTables(block, span, rows.below)], facts, block);
}

function otherTables(block: Block, span: Span, below: number | null): string[] {
  const asks = (where: string) =>
    `Another table stands ${where}. To read that one, select a cell in it and read again.`;
  const column = span.other === null ? '' : cellAddress(0, block.area.column + span.other).replace(/\d+$/, '');
  return [
    ...(column === '' ? [] : [asks(`beside this one, from column ${column} on`)]),
    ...(below === null ? [] : [asks(`below this one, from row ${block.area.row + below + 1} on`)]),
  ];
}

/** Heading by column; two alike are told apart by what stands above them ("Finished" over "L W T"). */
function headingTexts(cells: readonly (readonly Cell[])[], headerRow: number): Map<number, string> {
  const row = underHeadings(cells[headerRow - 1] ?? [], cells[headerRow] ?? []);
  const words = row.map(cellWords);
  const plain = words.map(headingPlain);
  const above = groupsAbove(cells[headerRow - 1] ?? [], words.length);
  const headings = new Map<number, string>();
  for (const [column, text] of words.entries()) {
    const alike = text !== '' && plain.filter((other) => other === plain[column]).length > 1;
    const group = above[column] ?? '';
    const heading = text === '' ? '' : alike && group !== '' ? `${group} ${text}` : text;
    if (heading !== '') headings.set(column, heading);
    else if (cells.slice(headerRow + 1).some((below) => cellWords(cellAt([below], 0, column)) !== ''))
      headings.set(column, '');
  }
  return headings;
}

/** A group heading holds until the next one; a lone title over the whole table is no group. */
function groupsAbove(row: readonly Cell[], columnCount: number): string[] {
  const filled = row.filter((cell) => cellWords(cell) !== '');
  if (filled.length < 2) return [];
  const groups: string[] = [];
  let group = '';
  for (let column = 0; column < columnCount; column += 1) {
    const words = cellWords(cellAt([row], 0, column));
    if (words !== '') group = words;
    groups.push(group);
  }
  return groups;
}

function dataRows(
  block: Block,
  firstRow: number,
  headings: ReadonlyMap<number, string>,
  { want, ownWoods }: { readonly want: Want; readonly ownWoods: readonly OwnName[] },
) {
  const hidden = new Set(block.hiddenRows);
  const data: number[] = [];
  let lastRow = firstRow - 1;
  let sectionSpecies = false;
  let sections = 0;
  /** The first row of another table under this one. */
  let below: number | null = null;
  for (let row = firstRow; row < block.cells.length; row += 1) {
    const kind = rowKind(block.cells[row] ?? [], headings, (r) => rolesNamed(r, want).count);
    if (kind.kind === 'stop') {
      below = row;
      break;
    }
    lastRow = row;
    if (kind.kind === 'skip' && kind.section !== undefined && !sectionSpecies) {
      sections += 1;
      sectionSpecies = sections <= SECTIONS_SEARCHED && namesSpecies(kind.section, ownWoods);
    }
    if (kind.kind === 'data' && !hidden.has(row) && data.length < SAMPLE_ROWS) data.push(row);
  }
  return { data, lastRow, sectionSpecies, below };
}

function columnFacts(
  cells: readonly (readonly Cell[])[],
  rows: readonly number[],
  headings: ReadonlyMap<number, string>,
  block: Block,
): ColumnFacts[] {
  const letters = new Set([...headings.values()].map((heading) => headingParts(heading).words));
  const some = (...of: readonly string[]) => of.some((letter) => letters.has(letter));
  const inLetters = letters.has('l') && some('w', 'b') && some('t', 'th', 'd');
  return [...headings].map(([column, heading]) => ({
    column,
    words: headingParts(heading).words,
    unit: headingParts(heading).unit,
    decimal: block.locale.decimal,
    inLetters,
    cells: rows.map((row) => cellAt(cells, row, column)),
  }));
}

interface Assigned {
  readonly role: Role;
  readonly column: number;
  readonly confidence: number;
  readonly rivals: readonly { readonly column: number; readonly confidence: number }[];
}

/** Surest first; a role has one column and a column one role. What is left over and could have been it is a rival. */
function assign(
  scores: readonly { readonly role: Role; readonly column: number; readonly score: number }[],
): Assigned[] {
  const sorted = [...scores].sort((a, b) => b.score - a.score || a.column - b.column);
  const roles = new Map<Role, { column: number; score: number }>();
  const taken = new Set<number>();
  for (const { role, column, score } of sorted) {
    if (score < CONFIDENCE_MIN || roles.has(role) || taken.has(column)) continue;
    roles.set(role, { column, score });
    taken.add(column);
  }
  return [...roles]
    .map(([role, { column, score }]) => ({
      role,
      column,
      confidence: Math.round(score * 100) / 100,
      rivals: sorted
        .filter((s) => s.role === role && !taken.has(s.column) && s.score >= RIVAL_MIN)
        .map((s) => ({ column: s.column, confidence: Math.round(s.score * 100) / 100 })),
    }))
    .sort((a, b) => a.column - b.column);
}

/** "mm" here and "in" there: a column that names the unit of each row. */
function unitColumnOf(facts: readonly ColumnFacts[], columns: readonly ColumnReading[]): number | null {
  const found = facts.find(({ column, words, cells }) => {
    if (!/^(?:units?|uom|measure|einheit|unite|unidad|unita|eenheid|enhet|enhed)$/.test(words)) return false;
    const named = cells.map(cellWords).filter((text) => text !== '');
    const units = named.filter((text) => unitWord(text) !== null).length;
    return units > 0 && units >= named.length * 0.7 && !columns.some((one) => one.column === column);
  });
  return found?.column ?? null;
}

/** "Length ft" and "Length in" side by side are one length; a column of inches without one of feet is none. */
function withInches(assigned: readonly Assigned[], facts: readonly ColumnFacts[]): Assigned[] {
  const others = assigned.filter(({ role }) => role !== 'lengthInches');
  const length = others.find(({ role }) => role === 'length');
  const feet = facts.find(({ column }) => column === length?.column);
  if (length === undefined || feet?.unit !== 'ft') return others;
  const inches = facts.find(
    ({ column, unit, words }) =>
      unit === 'in' &&
      (words === feet.words || words === 'in' || words === 'inches') &&
      !others.some((other) => other.column === column),
  );
  if (inches === undefined) return others;
  const rivals = length.rivals.filter(({ column }) => column !== inches.column);
  const both = others.map((other) => (other === length ? { ...length, rivals } : other));
  return [...both, { role: 'lengthInches' as const, column: inches.column, confidence: length.confidence, rivals: [] }];
}

/** "T x W x L" says that the thickness comes first; so do cells whose first size is mostly smaller than the last. */
function sizeOrderOf(columns: readonly ColumnReading[], facts: readonly ColumnFacts[]): SizeOrder {
  const column = columns.find((c) => c.role === 'size');
  const heading = column?.heading.toLowerCase() ?? '';
  if (/t\w*\s*[x×*]\s*w|w\w*\s*[x×*]\s*l/.test(heading)) return 'thickness-width-length';
  if (/l\w*\s*[x×*]\s*w/.test(heading)) return 'length-width-thickness';
  const cells = facts.find((fact) => fact.column === column?.column)?.cells ?? [];
  const rising = cells.filter((cell) => startsSmall(cellWords(cell))).length;
  return rising > cells.length / 2 ? 'thickness-width-length' : 'length-width-thickness';
}

function startsSmall(words: string): boolean {
  const sizes = words.split(/[x×*]/i).map((text) => {
    const reading = readLength(text, { unit: 'in', decimal: '.' });
    return reading.ok ? reading.nm : null;
  });
  const [first, last] = [sizes[0], sizes.at(-1)];
  return first != null && last != null && first < last;
}
