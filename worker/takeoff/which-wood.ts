/** Which wood a row or a board names. A name that the species list does not know stays as it was written, and matches only itself. */
import { readSpecies, type Species, speciesByKey } from '../wood/species.ts';

export interface Wood {
  /** The same for every way to write one wood. */
  readonly key: string;
  readonly name: string;
  /** null for a wood that is not in the list. */
  readonly species: Species | null;
  /** For an unknown one: what would be right. */
  readonly help: string;
}

/** Reads names and remembers them, since a list of boards repeats a few woods a thousand times. */
export function woodReader(): (name: string) => Wood {
  const known = new Map<string, Wood>();
  return (name) => {
    const before = known.get(name);
    if (before) return before;
    const wood = readWood(name);
    known.set(name, wood);
    return wood;
  };
}

function readWood(name: string): Wood {
  const species = speciesByKey(name);
  if (species) return { key: species.key, name: species.name, species, help: '' };
  const reading = readSpecies(name);
  if (reading.ok) return { key: reading.species.key, name: reading.species.name, species: reading.species, help: '' };
  const written = name.trim();
  return { key: written.toLowerCase(), name: written, species: null, help: reading.help };
}
