/** The woods with what is known of each. What they are called, and which one a text means, is in species-naming.ts. */
import type { SourceFlag } from './source.ts';
import { europeanTable, speciesTable } from './species-data.ts';
import {
  allWoodNames,
  unfiguredWoods,
  type WoodBook,
  type WoodName,
  type WoodReading,
  woodBook,
} from './species-naming.ts';

export interface Species extends WoodName {
  /** Where its figures stand: the Wood Handbook's tables, the published means of its genus, or the shop's own book. */
  readonly figuresFrom: 'wood-handbook' | 'genus-means' | 'own';
  /** Shrinkage from green to oven-dry, per cent of the green size. */
  readonly shrinkRadialPercent: number;
  readonly shrinkTangentialPercent: number;
  /** null where none is published: taken as 26.5 × Gb (FPL-GTR-282 eq. 4-12). */
  readonly shrinkVolumetricPercent: number | null;
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
/** Woods with their figures; a wood that is known without any is refused with that reason. */
export interface SpeciesBook extends WoodBook<Species> {
  /** The wood that a text names, with figures or without. */
  readName(text: string): WoodReading<WoodName>;
}

const FLAGS: Readonly<Record<string, SourceFlag>> = {
  A: 'read',
  T: 'second-hand',
  B: 'second-hand',
  D: 'reproduced',
  G: 'group',
  E: 'computed',
  M: 'from-memory',
};

function speciesOfRow(name: WoodName, { row, figuresFrom }: Figures): Species {
  const cells = row.split('|').map((cell) => cell.trim());
  const cell = (at: number) => cells[at] ?? '';
  const flag = (at: number): SourceFlag => FLAGS[cell(at)] ?? 'from-memory';
  const known = (at: number) => (cell(at) === '-' ? null : Number(cell(at)));
  return {
    ...name,
    figuresFrom,
    shrinkRadialPercent: Number(cell(1)),
    shrinkTangentialPercent: Number(cell(2)),
    shrinkVolumetricPercent: known(3),
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

interface Figures {
  readonly row: string;
  readonly figuresFrom: Species['figuresFrom'];
}

const rowsOf = (table: string, figuresFrom: Species['figuresFrom']) =>
  table
    .trim()
    .split('\n')
    .slice(1)
    .map((row): [string, Figures] => [row.slice(0, row.indexOf('|')).trim(), { row, figuresFrom }]);

const figures = new Map([...rowsOf(speciesTable, 'wood-handbook'), ...rowsOf(europeanTable, 'genus-means')]);

function figuresOf(key: string): Figures {
  const found = figures.get(key);
  if (found === undefined) throw new Error(`no figures for ${key}`);
  return found;
}

/** Every wood of the table, in its order. */
export const allSpecies: readonly Species[] = allWoodNames.map((name) => speciesOfRow(name, figuresOf(name.key)));

/** A book of the table and the shop's own woods; an own wood with a key of the table replaces it. */
export function speciesBook(own: readonly Species[]): SpeciesBook {
  const { all, byKey } = woodBook(allSpecies, own);
  const names = woodBook<WoodName>([...allSpecies, ...unfiguredWoods], own);
  return {
    all,
    byKey,
    readName: (text) => names.read(text),
    read: (text) => {
      const reading = names.read(text);
      if (!reading.ok) return { ...reading, near: reading.near.flatMap(({ key }) => byKey(key) ?? []) };
      const species = byKey(reading.species.key);
      return species
        ? { ok: true, species }
        : { ok: false, help: noFigures(reading.species), near: [], several: false };
    },
  };
}

const noFigures = (wood: WoodName) =>
  `no published figure was found for ${wood.name} (${wood.botanical}); enter your own among the shop’s own woods`;

const table = speciesBook([]);

export function speciesByKey(key: string): Species | undefined {
  return table.byKey(key);
}

/** Reads a text as a wood of the table, with its figures; see {@link WoodBook.read}. */
export function readSpecies(text: string): SpeciesReading {
  return table.read(text);
}
