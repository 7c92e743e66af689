/**
 * Walks the rows of a mapped table and hands each to a reader; gathers drafts, faults by cell, and what was passed over.
 * A row with a fault gives no draft; the other rows are not lost by it.
 */
import { limits } from '../../worker/contract/limits.ts';
import { NM_PER_FOOT } from '../../worker/wood/unit.ts';
import type { Block, Cell } from '../host/host.ts';
import { cellAddress } from './address.ts';
import { FORMULA_FAILS, isErrorCell } from './cell-kinds.ts';
import { isBlank, type LengthCellAssumption, readLengthCell } from './cell-length.ts';
import { cellWords, readDecimal, SpeciesCells, type ValueReading, withoutGradeWords } from './cell-values.ts';
import { isDitto } from './column-scores.ts';
import { unitWord } from './heading.ts';
import { textCell } from './lamination-cell.ts';
import type { ColumnReading, ColumnUnit, Mapping, ReadDefaults, Role } from './mapping.ts';
import { roleNames } from './role-names.ts';
import { cellAt, cellsWithMerges, rolesNamed, rowKind, withinColumns } from './table-rows.ts';

/** One cell that could not be read. sheetRow and column are 0-based on the sheet; address is as the sheet shows it. */
export interface RowFault {
  readonly sheetRow: number;
  readonly column: number;
  readonly address: string;
  readonly field: Role;
  readonly read: string;
  readonly help: string;
  /** The fraction that a date cell was, where it looks like one. */
  readonly proposes: string | null;
}

export interface ReadRow<Draft> {
  /** 0-based on the sheet. */
  readonly sheetRow: number;
  readonly draft: Draft;
}

/** A row with a cell that could not be read: what it says of which part it is. */
export interface UnreadRow {
  readonly sheetRow: number;
  readonly key: string | null;
  readonly label: string;
}

export interface RowsRead<Draft> {
  readonly rows: readonly ReadRow<Draft>[];
  readonly faults: readonly RowFault[];
  /** The rows that the faults are in. */
  readonly unread: readonly UnreadRow[];
  readonly skipped: readonly { readonly sheetRow: number; readonly why: string }[];
  /** Everything assumed while reading, in words. */
  readonly notes: readonly string[];
  /** What was read and is hardly meant so, or was left out of a row that is taken: to be seen without asking. */
  readonly doubts: readonly string[];
}

const LARGEST_NM = {
  length: limits.lengthNmMax,
  width: limits.widthNmMax,
  thickness: limits.thicknessNmMax,
} as const;

/** What a role's reader sees of one row. */
export class RowReader {
  readonly sheetRow: number;
  readonly decimal: '.' | ',';
  readonly dateOrder: 'mdy' | 'dmy' | 'ymd';
  readonly #table: TableReading;
  readonly #row: number;
  readonly #faults: RowFault[] = [];
  #system: 'in' | 'mm' | null = null;

  constructor(table: TableReading, row: number) {
    this.#table = table;
    this.#row = row;
    this.sheetRow = table.block.area.row + row;
    this.decimal = table.mapping.decimal;
    this.dateOrder = table.block.locale.dateOrder;
  }

  get faults(): readonly RowFault[] {
    return this.#faults;
  }

  /** The unit this row was measured in: that of its length, or of the first size read. */
  get measuredIn(): 'in' | 'mm' {
    return this.#system ?? this.#table.defaults.system;
  }

  cell(role: Role): Cell | undefined {
    const column = this.#table.columnOf(role);
    if (column === null) return undefined;
    const cell = cellAt(this.#table.cells, this.#row, column.column);
    return isDitto(cell) ? this.#table.above(role) : cell;
  }

  words(role: Role): string {
    const cell = this.cell(role);
    return cell === undefined ? '' : cellWords(cell);
  }

  /** Where the role's cell of this row stands, as the sheet shows it. */
  addressOf(role: Role): string {
    return cellAddress(this.sheetRow, this.#table.block.area.column + (this.#table.columnOf(role)?.column ?? 0));
  }

  /** The value, or a fault noted at the cell and null. */
  value<T>(role: Role, read: (cell: Cell) => ValueReading<T>): T | null {
    const cell = this.cell(role);
    if (cell === undefined) return null;
    const reading = read(cell);
    if (reading.ok) return reading.value;
    this.fault(role, reading.read, reading.help);
    return null;
  }

  fault(role: Role, read: string, help: string, proposes: string | null = null): void {
    const column = this.#table.columnOf(role) ?? this.#table.columnOf('size');
    const at = this.#table.block.area.column + (column?.column ?? 0);
    this.#faults.push({
      sheetRow: this.sheetRow,
      column: at,
      address: cellAddress(this.sheetRow, at),
      field: role,
      read: read.slice(0, 60),
      help,
      proposes,
    });
  }

  /** Length, width and thickness, from their own columns or from one that holds them together. Null where one is faulty. */
  sizes(): { lengthNm: number; widthNm: number; thicknessNm: number; thicknessCall: string | null } | null {
    const rest = downward.filter((axis) => this.#table.columnOf(axis) === null);
    const together = rest.length > 0 && this.#table.columnOf('size') ? this.#sizeTexts(rest) : null;
    if (together === 'faulty') return null;
    const size = (axis: Axis) => {
      const own = this.#table.columnOf(axis);
      const cell = own ? this.cell(axis) : together?.[axis];
      return this.#size(axis, cell, own ?? this.#table.columnOf('size'));
    };
    const [lengthRead, widthRead, thicknessRead] = [size('length'), size('width'), size('thickness')];
    const inchesNm = lengthRead ? this.#inchesOf(lengthRead.nm) : 0;
    if (!lengthRead || !widthRead || !thicknessRead || inchesNm === null) return null;
    if (together && thicknessRead.nm > widthRead.nm && widthRead.nm > lengthRead.nm) {
      this.fault(
        'size',
        cellWords(this.cell('size') ?? textCell('')),
        'these sizes run the other way than the rows around; write them in the same order',
      );
      return null;
    }
    return {
      lengthNm: lengthRead.nm + inchesNm,
      widthNm: widthRead.nm,
      thicknessNm: thicknessRead.nm,
      thicknessCall: thicknessRead.call,
    };
  }

  /** The inches beside whole feet, from their own column. */
  #inchesOf(lengthNm: number): number | null {
    const inchesNm = this.extraSize('lengthInches');
    if (inchesNm === null || (inchesNm < NM_PER_FOOT && lengthNm % NM_PER_FOOT === 0)) return inchesNm ?? 0;
    const words = cellWords(this.cell('lengthInches') ?? textCell(''));
    this.fault('lengthInches', words, 'whole feet in one column and less than 12 inches in the other');
    return null;
  }

  /** A size beside the three, such as a crook; null for an empty cell or zero. */
  extraSize(role: Role): number | null {
    const cell = this.cell(role);
    if (cell === undefined || isBlank(cell) || cell.raw === 0 || /^0+(?:[.,]0+)?$/.test(cellWords(cell))) return null;
    const reading = readLengthCell(cell, this.assumption(role, LARGEST_NM.width));
    if (reading.ok) return reading.nm;
    this.fault(role, reading.read, reading.help, reading.proposes);
    return null;
  }

  assumption(role: Role, largestNm: number): LengthCellAssumption {
    const column = this.#table.columnOf(role);
    return {
      unit: this.#unitOfRow(column) ?? column?.unit ?? this.#table.defaults.system,
      decimal: this.decimal,
      dateOrder: this.dateOrder,
      datesAreFractions: this.#table.mapping.datesAreFractions,
      formatSpeaks: column?.unitFrom !== 'heading' && column?.unitFrom !== 'unit-row' && column?.unitFrom !== 'user',
      largestNm,
    };
  }

  /** What the row's own unit cell says; a unit in the heading says more. */
  #unitOfRow(column: ColumnReading | null): ColumnUnit | null {
    const { unitColumn } = this.#table.mapping;
    const settled = column?.unitFrom === 'heading' || column?.unitFrom === 'user' || column?.unitFrom === 'unit-row';
    if (unitColumn === null || settled) return null;
    return unitWord(cellWords(cellAt(this.#table.cells, this.#row, unitColumn)));
  }

  /** The species' key: from its cell, else from the section's title, else the one given for all rows. */
  species(): string | null {
    const cell = this.cell('species');
    const words = cell === undefined || isBlank(cell) ? '' : cellWords(cell);
    const given = words === '' ? (this.#table.sectionSpecies ?? this.#table.defaults.species ?? '') : words;
    if (cell !== undefined && isErrorCell(cell)) {
      this.fault('species', words, FORMULA_FAILS);
      return null;
    }
    const reading = this.#table.speciesCells.read(given);
    if (reading.ok) return reading.species.key;
    const bare = withoutGradeWords(given);
    const bareReading = bare === given ? null : this.#table.speciesCells.read(bare);
    if (bareReading?.ok) {
      this.#table.wordsBesideSpecies.add(given);
      return bareReading.species.key;
    }
    this.fault('species', words, given === '' ? 'name the species, such as white oak' : reading.help);
    return null;
  }

  #size(axis: Axis, cell: Cell | undefined, column: ColumnReading | null) {
    if (cell === undefined || column === null) {
      this.fault(axis, '', `no column for the ${axis}; choose one`);
      return null;
    }
    const reading = readLengthCell(cell, this.assumption(column.role, LARGEST_NM[axis]));
    if (!reading.ok) {
      this.fault(axis, reading.read, reading.help, reading.proposes);
      return null;
    }
    if (isBareNumber(cell)) this.#table.bareNumbersIn.add(column.role);
    if (reading.fromDate !== null) this.#table.noteDate(this.sheetRow, column.column, reading.fromDate);
    this.#system ??= reading.system;
    return reading;
  }

  /** "96 x 6 x 1" as texts in the mapping's order; without the size that has a column of its own, "96 x 6" says the others. */
  #sizeTexts(rest: readonly Axis[]): Partial<Record<Axis, Cell>> | 'faulty' {
    const words = cellWords(this.cell('size') ?? textCell(''));
    const texts = sizeTexts(words);
    const said = texts.length === 3 ? downward : rest;
    if (texts.length !== said.length || texts.length < 2 || texts.includes('')) {
      const help =
        rest.length === 2
          ? `${rest.join(' and ')} with an x between, as the ${downward.find((axis) => !rest.includes(axis))} has its own column`
          : 'three sizes with an x between: 96 x 6 x 1';
      this.fault('size', words, help);
      return 'faulty';
    }
    const axes = this.#table.mapping.sizeOrder === 'length-width-thickness' ? said : said.toReversed();
    return Object.fromEntries(axes.map((axis, at) => [axis, textCell(texts[at] ?? '')]));
  }
}

type Axis = 'length' | 'width' | 'thickness';
const downward: readonly Axis[] = ['length', 'width', 'thickness'];

/** "600 x 45 x 20 mm": a unit behind the last of bare numbers is that of all. */
function sizeTexts(words: string): readonly string[] {
  const texts = words.split(/\s*(?:[x×*]|\bby\b)\s*/i);
  const unit = /\d\s*(mm|cm|in(?:ch(?:es)?)?\.?|["”″])\s*$/i.exec(texts.at(-1) ?? '')?.[1];
  if (unit === undefined || texts.length < 2) return texts;
  return texts.map((text) => (/[\d⁄½¼¾⅛⅜⅝⅞]\s*$/.test(text) ? `${text.trim()} ${unit}` : text));
}

const isBareNumber = (cell: Cell) => typeof cell.raw === 'number' || readDecimal(cellWords(cell), '.') !== null;

/** A table being read from top to bottom. */
export class TableReading {
  readonly block: Block;
  readonly mapping: Mapping;
  readonly defaults: ReadDefaults;
  readonly cells: readonly (readonly Cell[])[];
  readonly speciesCells: SpeciesCells;
  sectionSpecies: string | null = null;
  /** Species cells that say more than the species. */
  readonly wordsBesideSpecies = new Set<string>();
  /** Roles whose column holds numbers that take its unit. */
  readonly bareNumbersIn = new Set<Role>();
  readonly #above = new Map<Role, Cell>();
  readonly #columns: ReadonlyMap<Role, ColumnReading>;
  readonly #dates: string[] = [];
  /** The rows as the sheet holds them, without merged values spread. */
  readonly #rows: readonly (readonly Cell[])[];
  readonly #spread: boolean;

  constructor(block: Block, mapping: Mapping, defaults: ReadDefaults) {
    this.block = block;
    this.mapping = mapping;
    this.defaults = defaults;
    this.#rows = withinColumns(block.cells, mapping.firstColumn, mapping.lastColumn);
    this.#spread = cellsWithMerges(block) !== block.cells;
    this.cells = this.#spread
      ? withinColumns(cellsWithMerges(block), mapping.firstColumn, mapping.lastColumn)
      : this.#rows;
    this.#columns = new Map(mapping.columns.map((column) => [column.role, column]));
    this.speciesCells = new SpeciesCells(defaults.spellings ?? {}, defaults.ownWoods ?? []);
  }

  columnOf(role: Role): ColumnReading | null {
    return this.#columns.get(role) ?? null;
  }

  above(role: Role): Cell | undefined {
    return this.#above.get(role);
  }

  noteDate(sheetRow: number, column: number, fraction: string): void {
    this.#dates.push(`${cellAddress(sheetRow, this.block.area.column + column)} ${fraction}`);
  }

  read<Draft>(readRow: (row: RowReader) => Draft | null): RowsRead<Draft> {
    const { block, mapping } = this;
    const hidden = new Set(mapping.hiddenRows === 'skip' ? block.hiddenRows : []);
    const headings = new Map(mapping.columns.map((c) => [c.column, c.heading]));
    const rows: ReadRow<Draft>[] = [];
    const faults: RowFault[] = [];
    const unread: UnreadRow[] = [];
    const skipped: { sheetRow: number; why: string }[] = [];
    for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
      const sheetRow = block.area.row + row;
      if (hidden.has(row)) {
        skipped.push({ sheetRow, why: 'hidden' });
        continue;
      }
      const kind = rowKind(this.#rows[row] ?? [], headings, (r) => rolesNamed(r, mapping.want).count);
      if (kind.kind !== 'data') {
        skipped.push({ sheetRow, why: kind.why });
        if (kind.kind === 'stop') break;
        if (kind.section !== undefined) this.#enterSection(kind.section);
        continue;
      }
      if (mapping.columns.every(({ column }) => isBlank(this.cells[row]?.[column]))) {
        skipped.push({ sheetRow, why: 'nothing in the columns of the table' });
        continue;
      }
      const reader = new RowReader(this, row);
      const draft = readRow(reader);
      if (reader.faults.length > 0) {
        faults.push(...reader.faults);
        unread.push({ sheetRow, key: reader.words('key') || null, label: reader.words('label') });
      } else if (draft !== null) rows.push({ sheetRow, draft });
      this.#remember(reader);
    }
    return { rows, faults, unread, skipped, notes: this.#notes(skipped), doubts: [] };
  }

  #enterSection(title: string): void {
    if (this.columnOf('species') !== null || title.length > 40) return;
    const reading = this.speciesCells.read(title);
    if (reading.ok) this.sectionSpecies = reading.species.key;
  }

  #remember(reader: RowReader): void {
    for (const { role } of this.mapping.columns) {
      const cell = reader.cell(role);
      if (cell !== undefined && !isBlank(cell)) this.#above.set(role, cell);
    }
  }

  #notes(skipped: readonly { readonly why: string }[]): string[] {
    const { mapping } = this;
    const notes: string[] = [];
    for (const { role, heading, unit, unitFrom } of mapping.columns) {
      if (unit === null || unitFrom === 'heading' || unitFrom === 'user') continue;
      if (!this.bareNumbersIn.has(role)) continue;
      notes.push(
        `${roleNames[role]} (“${heading}”): numbers without a unit are ${unitWords[unit]}${whyUnit[unitFrom ?? 'default']}.`,
      );
    }
    if (mapping.unitColumn !== null) notes.push('Numbers take the unit that their own row names.');
    if (mapping.decimal !== this.block.locale.decimal) {
      notes.push(`A ${mapping.decimal === ',' ? 'comma' : 'point'} is read as the decimal mark, as the cells use it.`);
    }
    if (this.wordsBesideSpecies.size > 0) {
      const cells = [...this.wordsBesideSpecies].slice(0, 5).map((words) => `“${words}”`);
      notes.push(`Only the wood is taken from ${cells.join(', ')}; grade and cut have their own columns.`);
    }
    const hiddenCount = skipped.filter(({ why }) => why === 'hidden').length;
    if (hiddenCount > 0) notes.push(`${hiddenCount} hidden ${hiddenCount === 1 ? 'row' : 'rows'} not used.`);
    if (this.#dates.length > 0) notes.push(`Dates read as the fractions that they were: ${this.#dates.join(', ')}.`);
    for (const [words, name] of this.speciesCells.settled)
      notes.push(`“${words}” is read as ${name}, as you settled it.`);
    if (this.sectionSpecies !== null) notes.push('The species is taken from the section titles.');
    if (this.#spread) notes.push('A cell merged over several rows counts for each of them.');
    return notes;
  }
}

const unitWords = {
  in: 'inches',
  ft: 'feet',
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  quarters: 'quarters of an inch',
} as const;

const whyUnit = {
  heading: '',
  user: '',
  'unit-row': ', from the row of units',
  format: ', from the number format',
  cells: ', like the other cells of the column',
  title: ', from the title',
  neighbours: ', like the other size columns',
  size: ', because of their size',
  default: ', as the shop measures',
} as const;
