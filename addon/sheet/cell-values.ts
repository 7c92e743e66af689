/** What a cell says besides a length: counts, moisture, days, money, and the trade's words for grain, use and faces. */

import type { Grain } from '../../worker/contract/board.ts';
import type { Faces, UseClass } from '../../worker/contract/job.ts';
import { type OwnName, type WoodName, type WoodReading, woodNameBook } from '../../worker/wood/species-naming.ts';
import type { Cell } from '../host/host.ts';
import { FORMULA_FAILS, isErrorCell } from './cell-kinds.ts';
import { isBlank, isDateCell } from './cell-length.ts';
import { minorDigits } from './currency.ts';
import { dayOfSerial, isoDay, readDayText } from './fraction-date.ts';
import { woodsNamedAbroad } from './wood-names-abroad.ts';

/** A value, nothing at all (null), or why the cell can't be read. */
export type ValueReading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly read: string; readonly help: string };

const value = <T>(read: T): ValueReading<T> => ({ ok: true, value: read });
const refuse = (cell: Cell, help: string): { ok: false; read: string; help: string } => ({
  ok: false,
  read: cellWords(cell),
  help: isErrorCell(cell) ? FORMULA_FAILS : help,
});

/** The cell as a text: whole numbers without the sheet's thousands marks but with their leading zeros; other things as shown. */
export function cellWords(cell: Cell): string {
  const text =
    typeof cell.raw === 'number' && Number.isInteger(cell.raw) && !isDateCell(cell)
      ? /^0\d+$/.test(cell.text)
        ? cell.text
        : String(cell.raw)
      : typeof cell.raw === 'string'
        ? cell.raw
        : cell.text;
  if (/^[!-~](?:[ -~]*[!-~])?$/.test(text) && !text.includes('  ')) return text;
  return text
    .replaceAll(/[\p{Cc}\u00a0\u200b\u2060\ufeff]+/gu, ' ')
    .replaceAll(/ {2,}/g, ' ')
    .trim();
}

/** Free text, cut to what the yard keeps. */
export function readWords(cell: Cell | undefined, charsMax: number): string {
  return cell === undefined || isBlank(cell) ? '' : cellWords(cell).slice(0, charsMax);
}

/** A decimal number with either mark; null for anything else, and for "1,234" where it could be either. */
export function readDecimal(text: string, decimal: '.' | ','): number | null {
  // 1'250 is how some group thousands; 8' is eight feet.
  const grouped = /['’]/.test(text) ? text.replaceAll(/(\d)['’](?=\d{3})/g, '$1') : text;
  const bare = grouped.replaceAll(/\s/g, '');
  if (!/^[+-]?[\d.,]*\d[\d.,]*$/.test(bare)) return null;
  const marks = bare.replaceAll(/[^.,]/g, '');
  const last = marks.at(-1);
  if (last === undefined) return Number(bare);
  const at = bare.lastIndexOf(last);
  const whole = bare.slice(0, at);
  const inGroups = /^[+-]?\d{1,3}(?:[.,]\d{3})*$/;
  if (new Set(marks).size === 2)
    return inGroups.test(whole) ? Number(`${whole.replaceAll(/[.,]/g, '')}.${bare.slice(at + 1)}`) : null;
  if (marks.length > 1) return inGroups.test(bare) ? Number(bare.replaceAll(/[.,]/g, '')) : null;
  const couldBeThousands = last !== decimal && /^[+-]?[1-9]\d{0,2}$/.test(whole) && bare.length - at === 4;
  return couldBeThousands ? null : Number(bare.replace(',', '.'));
}

function numberOf(cell: Cell, decimal: '.' | ','): number | null {
  if (typeof cell.raw === 'number') return isDateCell(cell) ? null : cell.raw;
  return typeof cell.raw === 'string' ? readDecimal(cell.raw, decimal) : null;
}

const countWords = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
/** What stands behind a count, in the languages of the headings. */
const countMarks =
  'x|×|ea\\.?|each|off|pcs?\\.?|pieces?|no\\.?|nos\\.?|st(?:k|ck|ück|ueck)?\\.?|uds?\\.?|pz\\.?|pezzi|pièces?|st(?:uks)?\\.?';
const countText = new RegExp(`^(?:[x×]\\s*)?\\(?(\\d{1,9})\\)?(?:[.,]0+)?\\s*(?:${countMarks})?$`, 'i');

function countOf(words: string): number {
  const written = countText.exec(words)?.[1];
  if (written !== undefined) return Number(written);
  const named = countWords.indexOf(words.toLowerCase());
  return named < 0 ? Number.NaN : named + 1;
}

/** 3, "3", "3 pcs", "3x", "x3", "(3)", "three": whole and at least one. */
export function readQuantity(cell: Cell): ValueReading<number> {
  const help = 'how many pieces: a whole number, at least 1';
  if (isBlank(cell)) return refuse(cell, help);
  const count = typeof cell.raw === 'number' ? (isDateCell(cell) ? Number.NaN : cell.raw) : countOf(cellWords(cell));
  return Number.isInteger(count) && count >= 1 ? value(count) : refuse(cell, help);
}

/** 8.5, "8,5 %", 0.085 shown as 8.5 %. Words for dryness ("KD") give no figure. */
export function readMoisture(cell: Cell, decimal: '.' | ','): ValueReading<number | 'words' | null> {
  if (isBlank(cell)) return value(null);
  const words = cellWords(cell);
  if (/^(?:kd|ad|kiln[- ]?dried|kiln[- ]?dry|air[- ]?dried|air[- ]?dry|dry|wet|green|fresh)$/i.test(words))
    return value('words');
  const shownAsPercent = typeof cell.raw === 'number' && isPercentFormat(cell);
  const bare =
    typeof cell.raw === 'string'
      ? readDecimal(words.replace(/\s*%\s*(?:mc)?$/i, ''), decimal)
      : numberOf(cell, decimal);
  if (bare === null) return refuse(cell, 'moisture content as one figure in per cent, such as 9.5');
  const percent = shownAsPercent ? Math.round(bare * 1e6) / 1e4 : bare;
  if (percent > 0 && percent < 1) {
    const meant = Math.round(percent * 1000) / 10;
    return refuse(
      cell,
      `no wood is so dry; if ${meant} per cent is meant, write ${meant} or show the cell as a percentage`,
    );
  }
  return percent >= 0 && percent <= 250
    ? value(percent)
    : refuse(cell, 'moisture content is between 0 and 250 per cent; is this the right column?');
}

/** 0.085 shown as 8.5 %; a per cent sign in quotes is only written behind the number. */
function isPercentFormat(cell: Cell): boolean {
  if (cell.format !== null) return cell.format.replaceAll(/"[^"]*"|\\./g, '').includes('%');
  return cell.text.includes('%') && typeof cell.raw === 'number' && cell.raw < 1;
}

/** A day, ISO 8601; null for an empty cell. */
export function readDay(cell: Cell, dateOrder: 'mdy' | 'dmy' | 'ymd'): ValueReading<string | null> {
  if (isBlank(cell)) return value(null);
  if (typeof cell.raw === 'number') {
    const day = isDateCell(cell) || cell.raw > 36_526 ? dayOfSerial(cell.raw) : null;
    return day === null ? refuse(cell, 'a day, such as 2026-10-12') : value(isoDay(day));
  }
  const day = readDayText(cellWords(cell), dateOrder);
  return day === null ? refuse(cell, 'a day, such as 2026-10-12') : value(day);
}

/** "$78.50", 78.5, "78,50 €": in the small unit of the shop's currency. */
export function readMoney(cell: Cell, decimal: '.' | ',', currency: string): ValueReading<number | null> {
  if (isBlank(cell)) return value(null);
  const bare =
    typeof cell.raw === 'number'
      ? numberOf(cell, decimal)
      : readDecimal(
          cellWords(cell).replaceAll(
            /[\p{Sc}\s]|[.,][-–—]+|^(?:usd|eur|gbp|cad|aud|nzd|jpy|yen|chf|sek|dkk|nok|kwd|bhd|kr\.?)|(?:usd|eur|gbp|cad|aud|nzd|jpy|yen|chf|sek|dkk|nok|kwd|bhd|kr\.?)$/giu,
            '',
          ),
          decimal,
        );
  if (bare === null) return refuse(cell, 'what the board cost, as one amount such as 78.50');
  return bare >= 0 ? value(Math.round(bare * 10 ** minorDigits(currency))) : refuse(cell, 'an amount is zero or more');
}

const folded = (cell: Cell) =>
  cellWords(cell)
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, ' ')
    .trim();

function vocabulary<T>(table: readonly (readonly [T, readonly string[]])[]): ReadonlyMap<string, T> {
  return new Map(table.flatMap(([meaning, words]) => words.map((word) => [word, meaning] as const)));
}

const grainWords = vocabulary<Grain>([
  [
    'flat',
    [
      'flat',
      'flat sawn',
      'flatsawn',
      'plain',
      'plain sawn',
      'plainsawn',
      'fs',
      'ps',
      'f',
      'slab',
      'tangential',
      'crown',
    ],
  ],
  ['rift', ['rift', 'rift sawn', 'riftsawn', 'rs', 'r', 'bastard']],
  [
    'quarter',
    ['quarter', 'quarter sawn', 'quartersawn', 'quartered', 'qs', 'q', 'qtr', 'qtr sawn', 'radial', 'vertical', 'vg'],
  ],
  ['unknown', ['unknown', 'any', 'mixed', 'either']],
]);

export function readGrain(cell: Cell): ValueReading<Grain | null> {
  if (isBlank(cell)) return value(null);
  const grain = grainWords.get(folded(cell));
  return grain === undefined ? refuse(cell, 'flat, rift or quarter') : value(grain);
}

const useWords = vocabulary<UseClass>([
  ['critical', ['critical', 'crit', 'c', 'key', 'structural', 'long critical', 'a', '1', 'primary']],
  [
    'visible',
    ['visible', 'vis', 'v', 'show', 'shown', 'seen', 'exposed', 'outside', 'face', 'yes', 'y', 'b', '2', 'x'],
  ],
  [
    'hidden',
    ['hidden', 'hid', 'h', 'inside', 'internal', 'unseen', 'not seen', 'concealed', 'no', 'n', '3', 'secondary'],
  ],
]);

export function readUse(cell: Cell): ValueReading<UseClass | null> {
  if (isBlank(cell)) return value(null);
  const use = useWords.get(folded(cell));
  return use === undefined ? refuse(cell, 'critical, visible or hidden') : value(use);
}

const facesWords = vocabulary<Faces>([
  [
    'clear-both',
    [
      'clear both',
      'both',
      'both clear',
      'both faces',
      'clear both faces',
      'two',
      '2',
      'c2f',
      'clear 2',
      'clear two',
      '2 faces',
      'clear 2 faces',
      'clear',
    ],
  ],
  [
    'clear-one',
    ['clear one', 'one', 'one clear', 'one face', 'clear one face', '1', 'c1f', 'clear 1', '1 face', 'clear 1 face'],
  ],
  ['sound-knots', ['sound knots', 'sound knot', 'knots', 'knots ok', 'knotty', 'character', 'rustic', 'tight knots']],
  ['hidden', ['hidden', 'any', 'none', 'no', '0', 'not seen', 'inside', 'utility']],
]);

export function readFaces(cell: Cell): ValueReading<Faces | null> {
  if (isBlank(cell)) return value(null);
  const faces = facesWords.get(folded(cell));
  return faces === undefined ? refuse(cell, 'clear both, clear one, sound knots or hidden') : value(faces);
}

/** Words are few and rows many, so each spelling is looked up once. */
export class SpeciesCells {
  readonly #spellings: Readonly<Record<string, string>>;
  readonly #ownWoods: readonly OwnName[];
  readonly #known = new Map<string, WoodReading<WoodName>>();
  /** What stands in cells and was read as the user settled it, with the wood's name. */
  readonly settled = new Map<string, string>();

  constructor(spellings: Readonly<Record<string, string>>, ownWoods: readonly OwnName[]) {
    this.#spellings = spellings;
    this.#ownWoods = ownWoods;
  }

  read(words: string): WoodReading<WoodName> {
    const known = this.#known.get(words);
    if (known !== undefined) return known;
    const own = Object.hasOwn(this.#spellings, words.toLowerCase()) ? this.#spellings[words.toLowerCase()] : undefined;
    const reading = readWood(own ?? words, this.#ownWoods);
    this.#known.set(words, reading);
    if (own !== undefined && reading.ok) this.settled.set(words, reading.species.name);
    return reading;
  }
}

/** As the list of woods has it, else by its letters (QSWO), by "American" left out, or by its name in another language. */
function readWood(words: string, ownWoods: readonly OwnName[]): WoodReading<WoodName> {
  const book = woodNameBook(ownWoods);
  const plain = book.read(words);
  if (plain.ok) return plain;
  const letters = /^(?:qs|rs|fs|ps)[\s-]?([a-z]{2})$/i.exec(words.trim())?.[1];
  const bare = letters ?? words.replace(/^american\s+/i, '');
  const again = bare === words ? plain : book.read(bare);
  if (again.ok) return again;
  const [abroad, ...others] = woodsNamedAbroad(words);
  if (abroad === undefined) return plain;
  if (others.length === 0) return book.read(abroad);
  const choices = [abroad, ...others].join(', ');
  return {
    ok: false,
    help: `“${words.trim()}” can be several woods; write which: ${choices}`,
    near: [],
    several: true,
  };
}

export function namesSpecies(text: string, ownWoods: readonly OwnName[]): boolean {
  return woodNameBook(ownWoods).read(text).ok;
}

const gradeWords =
  /(?:^|\s)\(?(?:fas(?:1f)?|f1f|sel(?:ect)?|prime|clear|#?[123]c|#[123]|[123]\s?com(?:mon)?|qs|rs|fs|q\/?sawn|quarter\s?sawn|quartered|rift(?:\s?sawn)?|(?:plain|flat)\s?sawn|kd|ad|rgh|rough|s[24]s|lumber|boards?|steamed|gedämpft|massiv|vollholz|\d{1,2}\/4)\)?(?=[\s,;]|$)/gi;

/** "White oak FAS 8/4" is white oak: grade, cut and call that stand beside a species. */
export function withoutGradeWords(words: string): string {
  return words.replaceAll(/[,;]/g, ' ').replaceAll(gradeWords, ' ').replaceAll(/\s+/g, ' ').trim();
}
