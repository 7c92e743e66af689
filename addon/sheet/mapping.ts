/**
 * How the columns of a table are understood: which column is which, in which unit, how sure that is, and what else it
 * could be. The user sees it, corrects it, and the panel remembers it; nothing is read before there is one.
 */
import type { LengthUnit } from '../../worker/wood/length.ts';
import type { OwnName } from '../../worker/wood/species-naming.ts';
import { headingPlain } from './heading.ts';

export type Want = 'boards' | 'parts';

export const boardRoles = [
  'tag',
  'species',
  'length',
  'lengthInches',
  'width',
  'thickness',
  'size',
  'moisture',
  'readOn',
  'grain',
  'grade',
  'place',
  'cost',
  'delivery',
  'note',
  'crook',
  'bow',
  'cup',
  'twist',
] as const;
export type BoardRole = (typeof boardRoles)[number];

export const partRoles = [
  'key',
  'label',
  'quantity',
  'species',
  'length',
  'lengthInches',
  'width',
  'thickness',
  'size',
  'use',
  'faces',
  'grain',
  'plies',
  'plyWidth',
  'staves',
  'note',
] as const;
export type PartRole = (typeof partRoles)[number];
export type Role = BoardRole | PartRole;

/** A number without a unit in a thickness column may also count quarters of an inch. */
export type ColumnUnit = LengthUnit | 'quarters';
/** Where the unit of bare numbers was found. size: numbers so big that only millimetres make sense. */
export type UnitSource =
  | 'heading'
  | 'unit-row'
  | 'format'
  | 'cells'
  | 'title'
  | 'neighbours'
  | 'size'
  | 'default'
  | 'user';

export interface Rival {
  readonly column: number;
  readonly heading: string;
  readonly confidence: number;
}

export interface ColumnReading {
  readonly role: Role;
  /** 0-based within the block. */
  readonly column: number;
  readonly heading: string;
  /** Of bare numbers in the column; null for columns that hold no lengths. A cell with its own unit keeps it. */
  readonly unit: ColumnUnit | null;
  readonly unitFrom: UnitSource | null;
  /** 0 to 1. Below 0.5: show it as a question. */
  readonly confidence: number;
  /** Other columns that could be this one, likeliest first. */
  readonly rivals: readonly Rival[];
}

export interface Mapping {
  readonly want: Want;
  /** 0-based within the block, like firstRow and lastRow: the rows that are read, both included. */
  readonly headerRow: number;
  readonly firstRow: number;
  readonly lastRow: number;
  /** 0-based within the block, both included: what stands outside belongs to another table. */
  readonly firstColumn: number;
  readonly lastColumn: number;
  /** A column that names the unit of each row's bare numbers; null where there is none. */
  readonly unitColumn: number | null;
  readonly columns: readonly ColumnReading[];
  readonly unused: readonly { readonly column: number; readonly heading: string }[];
  /** Roles that the rows can't do without and that no column was found for. */
  readonly missing: readonly Role[];
  readonly decimal: '.' | ',';
  /** Order of the three sizes in a column that holds them together. */
  readonly sizeOrder: SizeOrder;
  /** The user has said that dates in size columns are fractions that the sheet turned into dates. */
  readonly datesAreFractions: boolean;
  readonly hiddenRows: 'skip' | 'read';
  /** What the user should look at, in words. */
  readonly questions: readonly string[];
  readonly signature: string;
}

export type SizeOrder = 'length-width-thickness' | 'thickness-width-length';

export interface ReadDefaults {
  /** Of bare numbers where nothing else says the unit. */
  readonly system: 'in' | 'mm';
  /** For rows without a species. */
  readonly species?: string | null;
  /** The shop's own short forms ("WO"), in small letters, to a species that the list knows. */
  readonly spellings?: Readonly<Record<string, string>>;
  /** The shop's own woods, from its settings. */
  readonly ownWoods?: readonly OwnName[];
  /** Of amounts, ISO 4217; dollars where no yard says another. */
  readonly currency?: string;
  /** Day of the moisture readings where no column tells it (ISO 8601); without one no reading is taken. */
  readonly readOn?: string | null;
}

export function columnFor(mapping: Mapping, role: Role): ColumnReading | null {
  return mapping.columns.find((column) => column.role === role) ?? null;
}

/** Roles that a row cannot do without; the sizes may also stand together in one column. */
export function missingRoles(want: Want, roles: ReadonlySet<Role>, speciesGiven: boolean): Role[] {
  const needed: Role[] = want === 'boards' ? ['tag'] : ['label', 'quantity'];
  if (!speciesGiven) needed.push('species');
  if (!roles.has('size')) needed.push('length', 'width', 'thickness');
  return needed.filter((role) => !roles.has(role));
}

/** Gives a role to another column, or to none; a column has one role at a time. */
export function mappingWithColumn(
  mapping: Mapping,
  role: Role,
  column: { readonly column: number; readonly heading: string; readonly unit: ColumnUnit | null } | null,
): Mapping {
  const kept = mapping.columns.filter((c) => c.role !== role && c.column !== column?.column);
  const dropped = mapping.columns.filter((c) => !kept.includes(c) && c.column !== column?.column);
  const columns = column
    ? [...kept, { role, ...column, unitFrom: column.unit ? ('user' as const) : null, confidence: 1, rivals: [] }]
    : kept;
  const unused = [
    ...mapping.unused.filter((u) => u.column !== column?.column),
    ...dropped.map((c) => ({ column: c.column, heading: c.heading })),
  ].sort((a, b) => a.column - b.column);
  const speciesGiven = !mapping.missing.includes('species') && !mapping.columns.some((c) => c.role === 'species');
  const missing = missingRoles(mapping.want, new Set(columns.map((c) => c.role)), speciesGiven);
  return { ...mapping, columns, unused, missing };
}

export function mappingWithUnit(mapping: Mapping, role: Role, unit: ColumnUnit): Mapping {
  const columns = mapping.columns.map((c) => (c.role === role ? { ...c, unit, unitFrom: 'user' as const } : c));
  return { ...mapping, columns };
}

/** The same headings in the same order give the same text, so that a corrected mapping is found again. */
export function mappingSignature(headings: readonly string[]): string {
  const text = headings.map((heading) => headingPlain(heading)).join('|');
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return `${headings.length}-${hash.toString(36)}`;
}

interface Remembered {
  readonly role: Role;
  readonly column: number;
  readonly unit: ColumnUnit | null;
}

/** What the user settled, as a small text for the file's settings. */
export function mappingToText(mapping: Mapping): string {
  const columns: Remembered[] = mapping.columns.map(({ role, column, unit }) => ({ role, column, unit }));
  return JSON.stringify({ columns, sizeOrder: mapping.sizeOrder, datesAreFractions: mapping.datesAreFractions });
}

/** A fresh mapping of the same headings with what the user settled before. A text that is no such thing changes nothing. */
export function mappingFromText(mapping: Mapping, text: string): Mapping {
  const remembered = parseRemembered(text);
  if (remembered === null) return mapping;
  const headings = new Map<number, string>();
  for (const known of [...mapping.columns, ...mapping.unused]) headings.set(known.column, known.heading);
  const roles: readonly Role[] = mapping.want === 'boards' ? boardRoles : partRoles;
  let recalled: Mapping = { ...mapping, sizeOrder: remembered.sizeOrder };
  for (const role of roles) {
    const settled = remembered.columns.find((c) => c.role === role);
    const now = columnFor(recalled, role);
    if (!settled) recalled = now ? mappingWithColumn(recalled, role, null) : recalled;
    else if (now?.column !== settled.column || now.unit !== settled.unit) {
      const heading = headings.get(settled.column);
      if (heading === undefined) continue;
      recalled = mappingWithColumn(recalled, role, { column: settled.column, heading, unit: settled.unit });
    }
  }
  return { ...recalled, datesAreFractions: remembered.datesAreFractions };
}

function parseRemembered(
  text: string,
): { columns: Remembered[]; sizeOrder: SizeOrder; datesAreFractions: boolean } | null {
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== 'object' || read === null || !('columns' in read) || !Array.isArray(read.columns)) return null;
    const columns = read.columns.filter(isRemembered);
    if (columns.length === 0) return null;
    const sizeOrder =
      'sizeOrder' in read && read.sizeOrder === 'thickness-width-length'
        ? 'thickness-width-length'
        : 'length-width-thickness';
    return { columns, sizeOrder, datesAreFractions: 'datesAreFractions' in read && read.datesAreFractions === true };
  } catch {
    return null;
  }
}

const units: readonly unknown[] = ['in', 'ft', 'mm', 'cm', 'm', 'quarters', null];
const roleNames: readonly unknown[] = [...boardRoles, ...partRoles];

function isRemembered(value: unknown): value is Remembered {
  if (typeof value !== 'object' || value === null) return false;
  const { role, column, unit } = value as Partial<Record<keyof Remembered, unknown>>;
  return roleNames.includes(role) && Number.isSafeInteger(column) && units.includes(unit);
}
