/** Rows stay attached to what the yard knows of them: through sorting, copying, editing and deleting. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assignRowKeys,
  type KnownRow,
  matchRows,
  newRowKey,
  partFingerprint,
  type SheetRowFacts,
} from '../../addon/sheet/row-keys.ts';

const fingerprintOf = (label: string, quantity = 2) =>
  partFingerprint({ label, quantity, species: 'ash', lengthNm: 1, widthNm: 1, thicknessNm: 1 });

const rail = fingerprintOf('Long rail');
const post = fingerprintOf('Post', 4);
const top = fingerprintOf('Top', 1);

const known: readonly KnownRow[] = [
  { key: 'RRRRRR', fingerprint: rail, sheetRow: 3 },
  { key: 'PPPPPP', fingerprint: post, sheetRow: 4 },
  { key: 'TTTTTT', fingerprint: top, sheetRow: 5 },
];
const row = (sheetRow: number, key: string | null, fingerprint: string): SheetRowFacts => ({
  sheetRow,
  key,
  fingerprint,
});
const brief = (rows: readonly SheetRowFacts[], knownRows = known) =>
  matchRows(rows, knownRows).rows.map(
    ({ sheetRow, how, key, moved }) => `${sheetRow} ${how} ${key ?? '-'}${moved ? ' moved' : ''}`,
  );

/** A generator that gives the same sequence for the same seed. */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

describe('a row key', () => {
  it('is six consonants and figures, a letter first, no look-alikes, for any randomness', () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.infiniteStream(unit), (stream) => {
        const key = newRowKey(() => stream.next().value ?? 0);
        expect(key).toMatch(/^[B-DF-HJKMNP-TV-Z][B-DF-HJKMNP-TV-Z2-9]{5}$/);
        expect(key).not.toMatch(/[AEIOUL01]/);
      }),
    );
  });

  it('never looks like a number or a date to a spreadsheet', () => {
    const random = randomFrom(7);
    for (let i = 0; i < 5_000; i += 1) {
      const key = newRowKey(random);
      expect(Number.isNaN(Number(key))).toBe(true);
      expect(key).not.toMatch(/^(?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC)/);
    }
  });
});

describe('rows against what is known', () => {
  it('as left', () => {
    expect(brief([row(3, 'RRRRRR', rail), row(4, 'PPPPPP', post), row(5, 'TTTTTT', top)])).toEqual([
      '3 same RRRRRR',
      '4 same PPPPPP',
      '5 same TTTTTT',
    ]);
  });

  it('sorted, with the key typed in small letters', () => {
    expect(brief([row(3, 'tttttt ', top), row(4, 'RRRRRR', rail), row(5, 'PPPPPP', post)])).toEqual([
      '3 same TTTTTT moved',
      '4 same RRRRRR moved',
      '5 same PPPPPP moved',
    ]);
  });

  it('a part was changed since', () => {
    const longer = fingerprintOf('Long rail', 3);
    expect(brief([row(3, 'RRRRRR', longer), row(4, 'PPPPPP', post), row(5, 'TTTTTT', top)])[0]).toBe(
      '3 changed RRRRRR',
    );
  });

  it('a row was copied: the one that still says the same keeps the key', () => {
    const shorter = fingerprintOf('Short rail');
    expect(brief([row(3, 'RRRRRR', shorter), row(6, 'RRRRRR', rail)])).toEqual(['3 copied -', '6 same RRRRRR moved']);
    expect(brief([row(2, 'RRRRRR', rail), row(3, 'RRRRRR', rail)])).toEqual(['2 copied -', '3 same RRRRRR']);
  });

  it('a key was deleted: the known row is offered again, once', () => {
    expect(brief([row(3, null, rail), row(9, null, rail)])).toEqual(['3 found RRRRRR', '9 new -']);
  });

  it('a row is gone', () => {
    expect(matchRows([row(3, 'RRRRRR', rail)], known).missing).toEqual(['PPPPPP', 'TTTTTT']);
  });

  it('only some columns were sorted: the keys have come off their rows', () => {
    const torn = matchRows([row(3, 'RRRRRR', post), row(4, 'PPPPPP', top), row(5, 'TTTTTT', rail)], known);
    expect(torn.keysTornOff).toBe(true);
    expect(matchRows([row(3, 'RRRRRR', rail), row(4, 'PPPPPP', top)], known).keysTornOff).toBe(false);
  });

  it('gives each key to one row at most, and loses none, whatever happened to the sheet', () => {
    const fingerprint = fc.constantFrom(rail, post, top, fingerprintOf('Arm'));
    const key = fc.constantFrom('RRRRRR', 'PPPPPP', 'TTTTTT', 'rrrrrr', 'XXXXXX', '', null);
    const sheet = fc.array(fc.tuple(key, fingerprint), { maxLength: 12 });
    fc.assert(
      fc.property(sheet, (cells) => {
        const rows = cells.map(([k, f], i) => row(i, k, f));
        const matches = matchRows(rows, known);
        const held = matches.rows.flatMap((match) => match.key ?? []);
        expect(new Set(held).size).toBe(held.length);
        expect([...held, ...matches.missing].sort()).toEqual(['PPPPPP', 'RRRRRR', 'TTTTTT']);
        expect(matches.rows.map(({ sheetRow }) => sheetRow)).toEqual(rows.map(({ sheetRow }) => sheetRow));
        const keys = [...assignRowKeys(rows, known, randomFrom(1)).values()].map((k) => k.toUpperCase());
        expect(keys.length).toBe(rows.length);
        expect(new Set(keys).size).toBe(rows.length);
      }),
    );
  });

  it('matches two thousand rows at once', () => {
    const many = Array.from({ length: 2_000 }, (_, i) => ({
      key: `K${String(i).padStart(5, '0')}`,
      fingerprint: fingerprintOf(`part ${i}`),
      sheetRow: i,
    }));
    const sorted = many.map(({ key, fingerprint }, i) => row(1_999 - i, key, fingerprint));
    const matches = matchRows(sorted, many);
    expect(matches.rows.every(({ how, moved }) => how === 'same' && moved)).toBe(true);
    expect(matches.missing).toEqual([]);
  });
});
