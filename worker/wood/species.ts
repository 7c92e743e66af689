/**
 * The woods: what is known of each, and which one a person means by what is written in a cell. A shop's own woods stand
 * beside the table and take precedence over it.
 */
import { editDistance } from './edit-distance.ts';
import type { SourceFlag } from './source.ts';
import { speciesTable } from './species-data.ts';
import { alsoCalled, severalWoods } from './species-names.ts';

export interface Species {
  /** Stable, in small letters: "white-oak". */
  readonly key: string;
  readonly name: string;
  readonly botanical: string;
  readonly alsoCalled: readonly string[];
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

export type SpeciesReading =
  | { readonly ok: true; readonly species: Species }
  | { readonly ok: false; readonly help: string; readonly near: readonly Species[] };

/** Lookups over the table and a shop's own woods. */
export interface SpeciesBook {
  readonly all: readonly Species[];
  byKey(key: string): Species | undefined;
  read(text: string): SpeciesReading;
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

function speciesOfRow(row: string): Species {
  const cells = row.split('|').map((cell) => cell.trim());
  const cell = (at: number) => cells[at] ?? '';
  const flag = (at: number): SourceFlag => FLAGS[cell(at)] ?? 'from-memory';
  const known = (at: number) => (cell(at) === '-' ? null : Number(cell(at)));
  return {
    key: cell(0),
    name: cell(13),
    botanical: cell(14),
    alsoCalled: alsoCalled[cell(0)] ?? [],
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

/** Small letters, no marks, singular; "Oak, White" and "white-oak" come to the same words. */
function wordsOf(text: string): string[] {
  const plain = text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return plain
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '')
    .map(singular);
}

/** Words beside a name that say nothing of the species: "walnut lumber", "solid ash". */
const BESIDES: ReadonlySet<string> = new Set(['wood', 'lumber', 'timber', 'solid', 'board', 'stock']);

function singular(word: string): string {
  if (word.endsWith('ies') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(?:ch|sh|x)es$/.test(word)) return word.slice(0, -2);
  return /[^su]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word;
}

const waysToWrite = (s: Species) => [...new Set([s.key, s.name, s.botanical, ...s.alsoCalled].map(wordsKey))];

const wordsKey = (text: string) => wordsOf(text).sort().join(' ');

const severalByWords = new Map(Object.entries(severalWoods).map(([name, keys]) => [wordsKey(name), keys]));

/** Every wood of the table, in its order. */
export const allSpecies: readonly Species[] = speciesTable.trim().split('\n').slice(1).map(speciesOfRow);

/** A book of the table and the shop's own woods; an own wood with a key of the table replaces it. */
export function speciesBook(own: readonly Species[]): SpeciesBook {
  const ownKeys = new Set(own.map((s) => s.key));
  const all = [...own, ...allSpecies.filter((s) => !ownKeys.has(s.key))];
  const byKey = new Map(all.map((s) => [s.key, s]));
  const byName = namesOf(all, own);
  return {
    all,
    byKey: (key) => byKey.get(key),
    read: (text) => readIn(text, byName, byKey),
  };
}

const table = speciesBook([]);

export function speciesByKey(key: string): Species | undefined {
  return table.byKey(key);
}

/**
 * The wood that a text names: "White Oak", "oak, white", "W. oak", "walnut", "hard maple", "Quercus alba". A word for
 * several woods ("oak") is refused with the choices, and a slip of the finger with the nearest names.
 */
export function readSpecies(text: string): SpeciesReading {
  return table.read(text);
}

type Names = ReadonlyMap<string, readonly Species[]>;

/** Each way to write a wood, to the woods it may mean. The shop's own names come first and hide the table's. */
function namesOf(all: readonly Species[], own: readonly Species[]): Names {
  const names = new Map<string, readonly Species[]>();
  const ownNames = new Set(own.flatMap(waysToWrite));
  for (const s of all) {
    for (const name of waysToWrite(s)) {
      if (own.includes(s) || !ownNames.has(name)) names.set(name, [...(names.get(name) ?? []), s]);
    }
  }
  return names;
}

function readIn(text: string, names: Names, byKey: ReadonlyMap<string, Species>): SpeciesReading {
  const words = wordsOf(text).filter((word) => !BESIDES.has(word));
  if (words.length === 0) return { ok: false, help: 'name the species, such as white oak', near: [] };
  const written = [...words].sort().join(' ');
  const exact = names.get(written);
  if (exact) return oneOf(text, exact);
  const several = severalByWords.get(written);
  if (several)
    return oneOf(
      text,
      several.flatMap((key) => byKey.get(key) ?? []),
    );
  const shortened = [...names].filter(([name]) => isShortFor(words, name.split(' ')));
  if (shortened.length > 0) return oneOf(text, [...new Set(shortened.flatMap(([, woods]) => woods))]);
  return notKnown(text, written, names);
}

function oneOf(text: string, woods: readonly Species[]): SpeciesReading {
  const only = woods[0];
  if (woods.length === 1 && only) return { ok: true, species: only };
  const choices = woods.map((s) => s.name).join(', ');
  return { ok: false, help: `“${text.trim()}” can be several woods; write which: ${choices}`, near: woods };
}

const NEAR_COUNT = 4;

function notKnown(text: string, written: string, names: Names): SpeciesReading {
  const allowed = written.length <= 4 ? 1 : written.length <= 8 ? 2 : 3;
  const words = new Set(written.split(' '));
  const ranked = [...names]
    .map(([name, woods]) => ({ woods, slips: editDistance(written, name), shared: isWithin(name, words) }))
    .filter(({ slips, shared }) => slips <= allowed || shared)
    .sort((a, b) => Number(b.shared) - Number(a.shared) || a.slips - b.slips);
  const near = [...new Set(ranked.flatMap(({ woods }) => woods))].slice(0, NEAR_COUNT);
  const hint = near.length > 0 ? `did you mean ${near.map((s) => s.name).join(' or ')}?` : 'add it to your own woods';
  return { ok: false, help: `“${text.trim()}” is not a wood in the list; ${hint}`, near };
}

/** "white oak 8/4 FAS" holds every word of "white oak". */
const isWithin = (name: string, words: ReadonlySet<string>) => name.split(' ').every((word) => words.has(word));

/** "w oak" for "white oak": as many words, each the beginning of one in the name, one of them in full. */
function isShortFor(words: readonly string[], name: readonly string[]): boolean {
  if (words.length < 2 || words.length !== name.length || !words.some((word) => name.includes(word))) return false;
  const free = [...name];
  for (const word of [...words].sort((a, b) => b.length - a.length)) {
    const at = free.findIndex((full) => full.startsWith(word));
    if (at < 0) return false;
    free.splice(at, 1);
  }
  return true;
}
