/** A shop's own woods: names and figures of its own, used wherever a wood of the table is, and marked as its own. */
import { coefficientOf } from './shrinkage.ts';
import { type Species, type SpeciesBook, speciesBook } from './species.ts';
import { type OwnName, ownWoodName } from './species-naming.ts';

/** What a shop writes down of a wood. */
export interface OwnWood extends OwnName {
  /** Green to oven-dry, per cent of the green size; from a data sheet, or measured. */
  readonly shrinkRadialPercent: number;
  readonly shrinkTangentialPercent: number;
  /** Oven-dry mass / green volume (Gb). */
  readonly specificGravityGreen: number;
}

/**
 * The wood as the arithmetic takes it. Movement coefficients follow from the shrinkage, S / (3000 − 20 S); volumetric
 * shrinkage is left to 26.5 × Gb. A wood named like one of the table has its key, and so replaces it.
 */
export function ownSpecies(own: OwnWood): Species {
  return {
    ...ownWoodName(own),
    figuresFrom: 'own',
    shrinkRadialPercent: own.shrinkRadialPercent,
    shrinkTangentialPercent: own.shrinkTangentialPercent,
    shrinkVolumetricPercent: null,
    coefficientRadial: coefficientOf(own.shrinkRadialPercent),
    coefficientTangential: coefficientOf(own.shrinkTangentialPercent),
    specificGravityGreen: own.specificGravityGreen,
    specificGravity12: null,
    greenMoisturePercent: null,
    sources: {
      shrinkage: 'own',
      coefficients: 'computed',
      specificGravityGreen: 'own',
      specificGravity12: null,
      greenMoisture: null,
    },
  };
}

const tableAlone = speciesBook([]);
const books = new WeakMap<readonly OwnWood[], SpeciesBook>();

/** The shop's book: its own woods before those of the table. Made once for each list. */
export function bookWith(ownWoods: readonly OwnWood[]): SpeciesBook {
  if (ownWoods.length === 0) return tableAlone;
  const known = books.get(ownWoods);
  if (known) return known;
  const book = speciesBook(ownWoods.map(ownSpecies));
  books.set(ownWoods, book);
  return book;
}
