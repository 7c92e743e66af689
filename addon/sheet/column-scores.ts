/** How well each column suits each role: what its heading says, weighed by how many of its cells read as that role. */
import type { OwnName } from '../../worker/wood/species-naming.ts';
import type { Cell } from '../host/host.ts';
import { isBlank, isDateCell, readLengthCell } from './cell-length.ts';
import {
  cellWords,
  readDay,
  readFaces,
  readGrain,
  readMoisture,
  readMoney,
  readQuantity,
  readUse,
  SpeciesCells,
  withoutGradeWords,
} from './cell-values.ts';
import type { ColumnUnit, Role, Want } from './mapping.ts';
import { rolesOfWords } from './role-words.ts';

export interface ColumnFacts {
  readonly column: number;
  /** The heading without its unit. */
  readonly words: string;
  readonly unit: ColumnUnit | null;
  readonly decimal: '.' | ',';
  /** L, W and T stand together, so that the single letters are as good as words. */
  readonly inLetters: boolean;
  /** A sample of its cells. */
  readonly cells: readonly Cell[];
}

export interface ScoringContext {
  readonly dateOrder: 'mdy' | 'dmy' | 'ymd';
  readonly spellings: Readonly<Record<string, string>>;
  readonly ownWoods: readonly OwnName[];
}

export interface ColumnScore {
  readonly role: Role;
  readonly column: number;
  readonly score: number;
}

const AGREES = 0.7;
const CONTENT_SAMPLE = 20;
/** What is left of a plain heading's score when the cells read as something else: enough to show the faults cell by cell. */
const PLAIN_HEADING_FLOOR = 0.4;

export function columnScores(want: Want, facts: readonly ColumnFacts[], context: ScoringContext): ColumnScore[] {
  const species = new SpeciesCells(context.spellings, context.ownWoods);
  const scores: ColumnScore[] = [];
  for (const fact of facts) {
    const filled = fact.cells.filter((cell) => !isBlank(cell));
    const named = rolesOfWords(want, fact.words);
    for (const [role, heading] of named) {
      scores.push({ role, column: fact.column, score: weighed(role, heading, fact, filled, context, species) });
    }
    if (named.size === 0) scores.push(...byContent(fact, filled, context, species));
  }
  return scores;
}

function weighed(
  role: Role,
  heading: number,
  fact: ColumnFacts,
  filled: readonly Cell[],
  context: ScoringContext,
  species: SpeciesCells,
): number {
  if (counting.has(fact.words) && countsRows(filled)) return role === 'tag' ? 0.45 : 0;
  if (filled.length === 0) return heading < 0.6 ? 0 : heading * 0.7;
  const agreement = filled.filter((cell) => reads(role, cell, fact, context, species)).length / filled.length;
  const distinct = role === 'tag' || role === 'key' ? distinctShare(filled) : 1;
  if (agreement >= AGREES && distinct >= 0.8) return heading;
  if (heading < 0.6 && fact.inLetters && sizes.has(role)) return PLAIN_HEADING_FLOOR;
  if (heading < 0.6 || optionalByData.has(role) || (!needed.has(role) && agreement < 0.3)) return 0;
  return Math.max(heading * 0.6 * agreement * distinct, heading >= 0.85 ? PLAIN_HEADING_FLOOR * heading : 0);
}

/** Roles that a row can't do without: a plain heading keeps its role, and the cells are shown as faults. */
const needed: ReadonlySet<Role> = new Set<Role>([
  'tag',
  'label',
  'quantity',
  'species',
  'length',
  'width',
  'thickness',
  'size',
]);
const sizes: ReadonlySet<Role> = new Set<Role>(['length', 'width', 'thickness']);
/** Headings that may stand over the numbers of the rows. */
const counting = new Set(['#', 'no', 'nr', 'item', 'number', 'n', 'id', 'row', 'line', 'pos', 'part no', 'ref']);
/** Taken only when the cells say so, because their words have other meanings too. */
const optionalByData: ReadonlySet<Role> = new Set<Role>(['grain', 'use', 'faces', 'readOn', 'cost', 'key']);

/** 1, 2, 3 … down the column: the numbers of the rows; a number may be left out with a hidden or deleted row. */
function countsRows(cells: readonly Cell[]): boolean {
  const numbers = cells.map((cell) => Number(cellWords(cell).replace(/\.$/, '')));
  const [first = 0] = numbers;
  const steps = numbers.slice(1).map((number, i) => number - (numbers[i] ?? 0));
  if (steps.length === 0 || !steps.every((step) => Number.isInteger(step) && step >= 1)) return false;
  const mostlyOne = steps.filter((step) => step === 1).length >= steps.length * 0.7;
  return mostlyOne && (first === 1 || cells.length >= 4);
}
function distinctShare(cells: readonly Cell[]): number {
  return new Set(cells.map((cell) => cellWords(cell).toLowerCase())).size / cells.length;
}

const LARGEST_NM = { length: 30_000_000_000, width: 3_000_000_000, thickness: 600_000_000 };

function reads(role: Role, cell: Cell, fact: ColumnFacts, context: ScoringContext, species: SpeciesCells): boolean {
  switch (role) {
    case 'species':
      return cell.kind === 'text' && (isDitto(cell) || species.read(withoutGradeWords(cellWords(cell))).ok);
    case 'length':
    case 'width':
    case 'thickness':
      // Millimetres, so that a bare number is judged as a number and not yet by its unit.
      return isDateCell(cell) || sizeReads(cell, fact, context, LARGEST_NM.length);
    case 'lengthInches':
    case 'plyWidth':
    case 'crook':
    case 'bow':
    case 'cup':
    case 'twist':
      return cell.raw === 0 || sizeReads(cell, fact, context, LARGEST_NM.width);
    case 'size':
      return /\d.*(?:[x×*]|\bby\b).*\d/i.test(cellWords(cell));
    case 'quantity':
      return readQuantity(cell).ok;
    case 'moisture':
      return readMoisture(cell, fact.decimal).ok;
    case 'readOn':
      return readDay(cell, context.dateOrder).ok;
    case 'cost':
      return readMoney(cell, fact.decimal, 'USD').ok;
    case 'grain':
      return readGrain(cell).ok;
    case 'use':
      return readUse(cell).ok;
    case 'faces':
      return readFaces(cell).ok;
    case 'plies':
    case 'staves':
      return /^\d{1,2}\b|\d.*\+.*\d/.test(cellWords(cell));
    case 'label':
      return /\p{L}{3}/u.test(cellWords(cell));
    case 'tag':
    case 'key':
      return cellWords(cell).length <= 40 && !isDateCell(cell);
    default:
      return true;
  }
}

function sizeReads(cell: Cell, fact: ColumnFacts, context: ScoringContext, largestNm: number): boolean {
  return readLengthCell(cell, {
    unit: fact.unit ?? 'mm',
    decimal: fact.decimal,
    dateOrder: context.dateOrder,
    datesAreFractions: true,
    formatSpeaks: false,
    largestNm,
  }).ok;
}

/** A sign for "the same as above". */
export function isDitto(cell: Cell): boolean {
  return (
    cell.kind === 'text' &&
    /^(?:["”″〃]|''|-"-|do\.?|ditto|same|as above|dto\.?|dito|idem|id\.)$/i.test(cellWords(cell))
  );
}

/** Columns without a telling heading: only woods and thickness calls are plain enough to be seen in the cells alone. */
function byContent(
  fact: ColumnFacts,
  filled: readonly Cell[],
  context: ScoringContext,
  species: SpeciesCells,
): ColumnScore[] {
  const few = filled.slice(0, CONTENT_SAMPLE);
  if (few.length < 2) return [];
  const share = (test: (cell: Cell) => boolean) => few.filter(test).length / few.length;
  if (share((cell) => /^\d{1,2}\/4$/.test(cellWords(cell))) >= AGREES)
    return [{ role: 'thickness', column: fact.column, score: 0.4 }];
  if (share((cell) => reads('species', cell, fact, context, species)) >= AGREES) {
    return [{ role: 'species', column: fact.column, score: 0.4 }];
  }
  return [];
}
