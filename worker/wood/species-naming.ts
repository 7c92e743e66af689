/**
 * Which wood a person means by what is written in a cell, from names alone: no figure of any wood is needed for it, and
 * the sidebar loads none. A shop's own woods stand beside the table and take precedence over it.
 */
import { editDistance } from './edit-distance.ts';
import { severalWoods, speciesNameTable, unfiguredNameTable } from './species-names.ts';

export interface WoodName {
  /** Stable, in small letters: "white-oak". */
  readonly key: string;
  readonly name: string;
  readonly botanical: string;
  readonly alsoCalled: readonly string[];
}

export type WoodReading<Wood extends WoodName> =
  | { readonly ok: true; readonly species: Wood }
  | {
      readonly ok: false;
      readonly help: string;
      readonly near: readonly Wood[];
      /** The text names each of the woods in `near`; else it only resembles them. */
      readonly several: boolean;
    };

/** Lookups over a table of woods and a shop's own. */
export interface WoodBook<Wood extends WoodName> {
  readonly all: readonly Wood[];
  byKey(key: string): Wood | undefined;
  /**
   * The wood that a text names: "White Oak", "oak, white", "W. oak", "walnut", "hard maple", "Quercus alba". A word for
   * several woods ("oak") is refused with the choices, so are two woods in one ("red/white oak", "hickory or pecan"), and
   * a slip of the finger with the nearest names.
   */
  read(text: string): WoodReading<Wood>;
}

function namesOfTable(table: string): WoodName[] {
  const rows = table.trim().split('\n').slice(1);
  return rows.map((row) => {
    const [key = '', name = '', botanical = '', also = ''] = row.split('|').map((cell) => cell.trim());
    return { key, name, botanical, alsoCalled: also === '' ? [] : also.split(', ') };
  });
}

/** What every wood of the table is called, in its order. */
export const allWoodNames: readonly WoodName[] = namesOfTable(speciesNameTable);

/** Woods that have a name alone. */
export const unfiguredWoods: readonly WoodName[] = namesOfTable(unfiguredNameTable);

/** A book of a table and the shop's own woods; an own wood with a key of the table replaces it. */
export function woodBook<Wood extends WoodName>(table: readonly Wood[], own: readonly Wood[]): WoodBook<Wood> {
  const ownKeys = new Set(own.map((s) => s.key));
  const all = [...own, ...table.filter((s) => !ownKeys.has(s.key))];
  const byKey = new Map(all.map((s) => [s.key, s]));
  const byName = namesOf(all, own);
  const ownByName = namesOf(own, own);
  return {
    all,
    byKey: (key) => byKey.get(key),
    read(text) {
      const ownWoods = ownByName.get(wordsKey(text));
      if (ownWoods) return oneOf(text, ownWoods);
      const either = woodsOfEither(text, byName, byKey);
      return either === null ? readIn(text, byName, byKey) : oneOf(text, either);
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

/** The key of a wood by its name: "Bog oak" is "bog-oak"; empty where the name has no Latin letter or digit. */
export const woodKeyOf = (name: string): string => wordsOf(name).join('-');

/** Words beside a name that say nothing of the species: "walnut lumber", "solid ash". */
const BESIDES: ReadonlySet<string> = new Set(['wood', 'lumber', 'timber', 'solid', 'board', 'stock']);

function singular(word: string): string {
  if (word.endsWith('ies') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(?:ch|sh|x)es$/.test(word)) return word.slice(0, -2);
  return /[^su]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word;
}

const waysToWrite = (s: WoodName) => [...new Set([s.key, s.name, s.botanical, ...s.alsoCalled].map(wordsKey))];

const wordsKey = (text: string) => wordsOf(text).sort().join(' ');

const severalByWords = new Map(Object.entries(severalWoods).map(([name, keys]) => [wordsKey(name), keys]));

type Names<Wood> = ReadonlyMap<string, readonly Wood[]>;

/** Each way to write a wood, to the woods it may mean. The shop's own names come first and hide the table's. */
function namesOf<Wood extends WoodName>(all: readonly Wood[], own: readonly Wood[]): Names<Wood> {
  const names = new Map<string, readonly Wood[]>();
  const ownNames = new Set(own.flatMap(waysToWrite));
  for (const s of all) {
    for (const name of waysToWrite(s)) {
      if (own.includes(s) || !ownNames.has(name)) names.set(name, [...(names.get(name) ?? []), s]);
    }
  }
  return names;
}

/** What stands between two woods of which one is meant: "hickory/pecan", "red or white oak". */
const BETWEEN = /\s*[/+&|]\s*|\s+(?:or|and)\s+/i;

/**
 * The woods that each side of such a text means; a side that names no wood by itself takes the last word of the text
 * ("red" of "red/white oak"). Null where the text has no sides, or one of them names no wood ("ash/white" is one name).
 */
function woodsOfEither<Wood extends WoodName>(
  text: string,
  names: Names<Wood>,
  byKey: ReadonlyMap<string, Wood>,
): readonly Wood[] | null {
  const sides = text.split(BETWEEN);
  const shared = wordsOf(sides.at(-1) ?? '').at(-1);
  if (sides.length < 2 || shared === undefined) return null;
  const woods = new Set<Wood>();
  for (const [at, side] of sides.entries()) {
    const alone = meant(readIn(side, names, byKey));
    const found =
      alone.length > 0 || at === sides.length - 1 ? alone : meant(readIn(`${side} ${shared}`, names, byKey));
    if (found.length === 0) return null;
    for (const wood of found) woods.add(wood);
  }
  return [...woods];
}

/** The woods that a text names, be they several; none for a text that is only near to one. */
const meant = <Wood extends WoodName>(reading: WoodReading<Wood>): readonly Wood[] =>
  reading.ok ? [reading.species] : reading.several ? reading.near : [];

function readIn<Wood extends WoodName>(
  text: string,
  names: Names<Wood>,
  byKey: ReadonlyMap<string, Wood>,
): WoodReading<Wood> {
  const words = wordsOf(text).filter((word) => !BESIDES.has(word));
  if (words.length === 0) return { ok: false, help: 'name the species, such as white oak', near: [], several: false };
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

function oneOf<Wood extends WoodName>(text: string, woods: readonly Wood[]): WoodReading<Wood> {
  const only = woods[0];
  if (woods.length === 1 && only) return { ok: true, species: only };
  const choices = woods.map((s) => s.name).join(', ');
  return {
    ok: false,
    help: `“${text.trim()}” can be several woods; write which: ${choices}`,
    near: woods,
    several: true,
  };
}

const NEAR_COUNT = 4;

function notKnown<Wood extends WoodName>(text: string, written: string, names: Names<Wood>): WoodReading<Wood> {
  const allowed = written.length <= 4 ? 1 : written.length <= 8 ? 2 : 3;
  const words = new Set(written.split(' '));
  const ranked = [...names]
    .map(([name, woods]) => ({ woods, slips: editDistance(written, name), shared: isWithin(name, words) }))
    .filter(({ slips, shared }) => slips <= allowed || shared)
    .sort((a, b) => Number(b.shared) - Number(a.shared) || a.slips - b.slips);
  const near = [...new Set(ranked.flatMap(({ woods }) => woods))].slice(0, NEAR_COUNT);
  const hint = near.length > 0 ? `did you mean ${near.map((s) => s.name).join(' or ')}?` : 'add it to your own woods';
  return { ok: false, help: `“${text.trim()}” is not a wood in the list; ${hint}`, near, several: false };
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

/** What a shop calls a wood of its own. */
export type OwnName = Pick<WoodName, 'name' | 'botanical' | 'alsoCalled'>;

export const ownWoodName = ({ name, botanical, alsoCalled }: OwnName): WoodName => ({
  key: woodKeyOf(name),
  name,
  botanical,
  alsoCalled,
});

const namesWithout = woodBook([...allWoodNames, ...unfiguredWoods], []);
const nameBooks = new WeakMap<readonly OwnName[], WoodBook<WoodName>>();

/** The shop's own woods, those of the table and those without figures, by name alone. Made once for each list. */
export function woodNameBook(ownWoods: readonly OwnName[]): WoodBook<WoodName> {
  if (ownWoods.length === 0) return namesWithout;
  const known = nameBooks.get(ownWoods);
  if (known) return known;
  const book = woodBook([...allWoodNames, ...unfiguredWoods], ownWoods.map(ownWoodName));
  nameBooks.set(ownWoods, book);
  return book;
}

/** Reads a text as a wood of the table, by name alone; see {@link WoodBook.read}. */
export const readWoodName = (text: string): WoodReading<WoodName> => namesWithout.read(text);
