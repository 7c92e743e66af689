/** Which wood a row or a board names, the shop's own woods included. A name that the species list does not know stays as it was written, and matches only itself. */
import type { Settings } from '../contract/settings.ts';
import { bookWith } from '../wood/own-wood.ts';
import type { Species, SpeciesBook } from '../wood/species.ts';

export interface Wood {
  /** The same for every way to write one wood. */
  readonly key: string;
  readonly name: string;
  /** null for a wood that is not in the list, or of which no figure is published. */
  readonly species: Species | null;
  /** For an unknown one: what would be right. */
  readonly help: string;
}

/** Reads names and remembers them, since a list of boards repeats a few woods a thousand times. */
export function woodReader({ ownWoods }: Pick<Settings, 'ownWoods'>): (name: string) => Wood {
  const book = bookWith(ownWoods);
  const known = new Map<string, Wood>();
  return (name) => {
    const before = known.get(name);
    if (before) return before;
    const wood = readWood(name, book);
    known.set(name, wood);
    return wood;
  };
}

function readWood(name: string, book: SpeciesBook): Wood {
  const species = book.byKey(name);
  if (species) return { key: species.key, name: species.name, species, help: '' };
  const reading = book.read(name);
  if (reading.ok) return { key: reading.species.key, name: reading.species.name, species: reading.species, help: '' };
  const named = book.readName(name);
  const written = name.trim();
  return named.ok
    ? { key: named.species.key, name: named.species.name, species: null, help: reading.help }
    : { key: written.toLowerCase(), name: written, species: null, help: reading.help };
}
