/**
 * Keeps rows attached to what the yard knows of them. A key in a cell of the row is the truth, because it rides through
 * sorting, filtering and copying; the fingerprint of what the row says tells a changed or copied row from a moved one.
 */

/** No vowels, so no words and no month names; no 0 O 1 I L 5 S 8 B 2 Z pairs that a pencil confuses; no E, so no 1E5. */
const LETTERS = 'CDFGHJKMNPQRTVWX';
const SIGNS = `${LETTERS}34679`;
const KEY_LENGTH = 6;

/** A key such as K7Q3M4. random gives numbers from 0 up to 1. */
export function newRowKey(random: () => number): string {
  const pick = (from: string) => from[Math.min(from.length - 1, Math.floor(random() * from.length))] ?? 'C';
  let key = pick(LETTERS);
  while (key.length < KEY_LENGTH) key += pick(SIGNS);
  return key;
}

/** As written by people and other programs: small letters and blanks around it count for nothing. */
export function rowKeyFolded(key: string): string {
  return key.trim().toUpperCase();
}

export interface PartFacts {
  readonly label: string;
  readonly quantity: number;
  readonly species: string;
  readonly lengthNm: number | string;
  readonly widthNm: number | string;
  readonly thicknessNm: number | string;
}

/** What makes a row this part: name, count, wood and sizes. Layout, notes and use may change without it being another part. */
export function partFingerprint(part: PartFacts): string {
  const words = part.label.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  return [words, part.quantity, part.species, part.lengthNm, part.widthNm, part.thicknessNm].join('|');
}

export interface SheetRowFacts {
  readonly sheetRow: number;
  readonly key: string | null;
  readonly fingerprint: string;
}

export interface KnownRow {
  readonly key: string;
  readonly fingerprint: string;
  /** Where it was last seen, 0-based on the sheet. */
  readonly sheetRow: number | null;
}

/**
 * same: as known. changed: its key is here and the row says something else. found: no key, but a known row that lost its
 * own says the same; to be offered. copied: another row has this key with better right. new: not known.
 */
export type RowHow = 'same' | 'changed' | 'found' | 'copied' | 'new';

export interface RowMatch {
  readonly sheetRow: number;
  readonly how: RowHow;
  /** The known row that this is, or could be again ('found'); null for a row that needs a new key. */
  readonly key: string | null;
  readonly moved: boolean;
}

export interface RowMatches {
  readonly rows: readonly RowMatch[];
  /** Keys of known rows that are no longer in the sheet. */
  readonly missing: readonly string[];
  /** The keys stand beside other rows than before: only some of the columns were sorted. */
  readonly keysTornOff: boolean;
}

export function matchRows(rows: readonly SheetRowFacts[], known: readonly KnownRow[]): RowMatches {
  const knownByKey = new Map(known.map((row) => [rowKeyFolded(row.key), row]));
  const holders = keyHolders(rows, knownByKey);
  const matched = new Map<number, RowMatch>();
  for (const [key, row] of holders) {
    const before = knownByKey.get(key);
    if (before === undefined) continue;
    const how = before.fingerprint === row.fingerprint ? 'same' : 'changed';
    const moved = before.sheetRow !== null && before.sheetRow !== row.sheetRow;
    matched.set(row.sheetRow, { sheetRow: row.sheetRow, how, key: before.key, moved });
  }
  const lost = known.filter((row) => !holders.has(rowKeyFolded(row.key)));
  const answers = rows.map((row) => matched.get(row.sheetRow) ?? unmatched(row, knownByKey, lost));
  const offered = new Set(answers.filter(({ how }) => how === 'found').map(({ key }) => key));
  return {
    rows: answers,
    missing: known.filter((row) => !holders.has(rowKeyFolded(row.key)) && !offered.has(row.key)).map(({ key }) => key),
    keysTornOff: tornOff(rows, answers, known),
  };
}

/** Of the missing rows, those that stand in the sheet all the same, in rows that could not be read: by key, else by name. */
export function standUnread<Missing extends { readonly key: string; readonly label: string }>(
  missing: readonly Missing[],
  unread: readonly { readonly key: string | null; readonly label: string }[],
): readonly Missing[] {
  const folded = (label: string) => label.trim().toLowerCase();
  const keys = new Set(unread.flatMap(({ key }) => (key === null ? [] : rowKeyFolded(key))));
  const labels = new Set(unread.flatMap(({ key, label }) => (key === null && label !== '' ? folded(label) : [])));
  return missing.filter(({ key, label }) => keys.has(rowKeyFolded(key)) || labels.has(folded(label)));
}

/** For each key the one row that has the best right to it: the same fingerprint, then the same place, then the first. */
function keyHolders(
  rows: readonly SheetRowFacts[],
  known: ReadonlyMap<string, KnownRow>,
): ReadonlyMap<string, SheetRowFacts> {
  const right = (row: SheetRowFacts, before: KnownRow | undefined) =>
    (row.fingerprint === before?.fingerprint ? 2 : 0) + (row.sheetRow === before?.sheetRow ? 1 : 0);
  const holders = new Map<string, SheetRowFacts>();
  for (const row of rows) {
    if (row.key === null || row.key.trim() === '') continue;
    const key = rowKeyFolded(row.key);
    const holder = holders.get(key);
    if (holder === undefined || right(row, known.get(key)) > right(holder, known.get(key))) holders.set(key, row);
  }
  return holders;
}

/** Takes the known row that it answers to out of `lost`, so that two equal rows are not offered the same one. */
function unmatched(row: SheetRowFacts, known: ReadonlyMap<string, KnownRow>, lost: KnownRow[]): RowMatch {
  const at = lost.findIndex((before) => before.fingerprint === row.fingerprint);
  const [again] = at < 0 ? [] : lost.splice(at, 1);
  if (again !== undefined) {
    const moved = again.sheetRow !== null && again.sheetRow !== row.sheetRow;
    return { sheetRow: row.sheetRow, how: 'found', key: again.key, moved };
  }
  const copied = row.key !== null && known.has(rowKeyFolded(row.key));
  return { sheetRow: row.sheetRow, how: copied ? 'copied' : 'new', key: null, moved: false };
}

function tornOff(rows: readonly SheetRowFacts[], answers: readonly RowMatch[], known: readonly KnownRow[]): boolean {
  const changed = answers.filter(({ how }) => how === 'changed').length;
  if (changed < 3 || changed < answers.length * 0.6) return false;
  const fingerprints = new Set(known.map(({ fingerprint }) => fingerprint));
  return rows.filter((row) => fingerprints.has(row.fingerprint)).length >= rows.length * 0.8;
}

/** A key for each row: the one it has a right to, else a new one that no row of the sheet or the yard has. */
export function assignRowKeys(
  rows: readonly SheetRowFacts[],
  known: readonly KnownRow[],
  random: () => number,
): ReadonlyMap<number, string> {
  const taken = new Set([...known.map((row) => row.key), ...rows.flatMap((row) => row.key ?? [])].map(rowKeyFolded));
  const given = new Set<string>();
  const keys = new Map<number, string>();
  const matches = new Map(matchRows(rows, known).rows.map((match) => [match.sheetRow, match]));
  for (const row of rows) {
    const match = matches.get(row.sheetRow);
    const own = row.key?.trim() ? row.key.trim() : null;
    let key = match?.key ?? (match?.how === 'new' ? own : null);
    while (key === null || given.has(rowKeyFolded(key))) {
      const fresh = newRowKey(random);
      key = taken.has(fresh) ? null : fresh;
    }
    given.add(rowKeyFolded(key));
    taken.add(rowKeyFolded(key));
    keys.set(row.sheetRow, key);
  }
  return keys;
}
