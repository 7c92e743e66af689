/** The woods with what is known of each. What they are called, and which one a text means, is in species-naming.ts. */
import type { SourceFlag } from './source.ts';
import { speciesTable } from './species-data.ts';
import { allWoodNames, type WoodBook, type WoodName, type WoodReading, woodBook } from './species-naming.ts';

export interface Species extends WoodName {
  /** Shrinkage from green to oven-dry, per cent of the green size. */
  readonly shrinkRadialPercent: number;
  readonly shrinkTangentialPercent: number;
  readonly shrinkVolumetricPercent: number;
  /** Change of size per 1 % MC as a share of the size, for 6 to 14 % MC. */
  readonly coefficientRadial: number;
  readonly coefficientTangential: number;
  /** Oven-dry mass / green volume (Gb). */
  readonly specificGravityGreen: number;
  /** Oven-dry mass / volume at 12 % MC. */
  readonly specificGravity12: number | null;
  readonly greenMoisturePercent: number | null;
  readonly sources: SpeciesSources;
}

export interface SpeciesSources {
  readonly shrinkage: SourceFlag;
  readonly coefficients: SourceFlag;
  readonly specificGravityGreen: SourceFlag;
  readonly specificGravity12: SourceFlag | null;
  readonly greenMoisture: SourceFlag | null;
}

export type SpeciesReading = WoodReading<Species>;
export type SpeciesBook = WoodBook<Species>;

const FLAGS: Readonly<Record<string, SourceFlag>> = {
  A: 'read',
  T: 'second-hand',
  B: 'second-hand',
  D: 'reproduced',
  G: 'group',
  E: 'computed',
  M: 'from-memory',
};

function speciesOfRow(name: WoodName, row: string): Species {
  const cells = row.split('|').map((cell) => cell.trim());
  const cell = (at: number) => cells[at] ?? '';
  const flag = (at: number): SourceFlag => FLAGS[cell(at)] ?? 'from-memory';
  const known = (at: number) => (cell(at) === '-' ? null : Number(cell(at)));
  return {
    ...name,
    shrinkRadialPercent: Number(cell(1)),
    shrinkTangentialPercent: Number(cell(2)),
    shrinkVolumetricPercent: Number(cell(3)),
    coefficientRadial: Number(cell(5)),
    coefficientTangential: Number(cell(6)),
    specificGravityGreen: Number(cell(8)),
    specificGravity12: known(11),
    greenMoisturePercent: known(10),
    sources: {
      shrinkage: flag(4),
      coefficients: flag(7),
      specificGravityGreen: flag(9),
      specificGravity12: known(11) === null ? null : flag(12),
      greenMoisture: known(10) === null ? null : 'read',
    },
  };
}

const figures = new Map(
  speciesTable
    .trim()
    .split('\n')
    .slice(1)
    .map((row) => [row.slice(0, row.indexOf('|')).trim(), row]),
);

function figuresOf(key: string): string {
  const row = figures.get(key);
  if (row === undefined) throw new Error(`no figures for ${key}`);
  return row;
}

/** Every wood of the table, in its order. */
export const allSpecies: readonly Species[] = allWoodNames.map((name) => speciesOfRow(name, figuresOf(name.key)));

/** A book of the table and the shop's own woods; an own wood with a key of the table replaces it. */
export const speciesBook = (own: readonly Species[]): SpeciesBook => woodBook(allSpecies, own);

const table = speciesBook([]);

export function speciesByKey(key: string): Species | undefined {
  return table.byKey(key);
}

/** Reads a text as a wood of the table, with its figures; see {@link WoodBook.read}. */
export function readSpecies(text: string): SpeciesReading {
  return table.read(text);
}
