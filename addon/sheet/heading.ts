/** One heading: its words without case, accents, punctuation and unit, and the unit that it names. */
import type { ColumnUnit } from './mapping.ts';

const UNIT_WORDS: Readonly<Record<string, ColumnUnit>> = {
  in: 'in',
  ins: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  feet: 'ft',
  foot: 'ft',
  "'": 'ft',
  mm: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  zoll: 'in',
  cm: 'cm',
  centimeters: 'cm',
  centimetres: 'cm',
  m: 'm',
  meter: 'm',
  meters: 'm',
  metre: 'm',
  metres: 'm',
  quarters: 'quarters',
  quarter: 'quarters',
  qtrs: 'quarters',
  qtr: 'quarters',
  '/4': 'quarters',
  'x/4': 'quarters',
  'n/4': 'quarters',
  '4ths': 'quarters',
};

/** Letters that no accent can be taken from. */
const FLAT_LETTERS: Readonly<Record<string, string>> = { ß: 'ss', ø: 'o', æ: 'ae', Ø: 'O', Æ: 'AE', '°': 'o' };

export function straight(text: string): string {
  return text
    .replaceAll(/[‘’′ʹ´`]/g, "'")
    .replaceAll(/[“”″ʺ]|''/g, '"')
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[ßøæØÆ°]/g, (letter) => FLAT_LETTERS[letter] ?? letter)
    .replaceAll(/(\p{Ll}{2})(\p{Lu})/gu, '$1 $2')
    .toLowerCase();
}

/** The words of a heading, single-spaced: "Board No." is "board no", "MC %" is "mc %", "#" stays. */
export function headingPlain(heading: string): string {
  return straight(heading)
    .replaceAll(/[%$]/g, ' $& ')
    .replaceAll(/[^\p{L}\p{N}#%$/"']+/gu, ' ')
    .trim()
    .replaceAll(/\s+/g, ' ');
}

/** Words that make another thing of the unit behind them: "Bd ft", "Sq ft", "Date in". */
const measuresOtherwise = new Set([
  'date',
  'bd',
  'board',
  'sq',
  'square',
  'cu',
  'cubic',
  'lin',
  'lineal',
  'linear',
  'per',
  '/',
]);

export interface HeadingParts {
  /** The words that say what the column is, without a unit. */
  readonly words: string;
  readonly unit: ColumnUnit | null;
}

/** "Length (mm)" is "length" in mm; "Thk /4" is "thk" in quarters; `L"` is "l" in inches; "Date in" keeps its words. */
export function headingParts(heading: string): HeadingParts {
  const text = straight(heading);
  const bracketed = /[([{]\s*([^)\]}]*?)\s*[)\]}]/g;
  let unit: ColumnUnit | null = null;
  const outside = text.replaceAll(bracketed, (_, inside: string) => {
    if (/^(?:ft|feet|')\W*(?:and\W*)?(?:in|ins|inches|")\.?$/.test(inside)) return ' ';
    const named = unitWord(inside);
    if (named) unit = named;
    return named ? ' ' : ` ${inside} `;
  });
  const words = headingPlain(outside.replaceAll(/([\p{L}\p{N}])(["'])\s*$/gu, '$1 $2')).split(' ');
  const last = words.at(-1) ?? '';
  const trailing = unitWord(last);
  if (!unit && trailing && words.length > 1 && !measuresOtherwise.has(words.at(-2) ?? '')) {
    unit = trailing;
    words.pop();
    while (words.length > 1 && unitWord(words.at(-1) ?? '') === trailing) words.pop();
  }
  if (unit && words.length > 1 && words.at(-1) === 'in') words.pop();
  if (words.length === 1 && (trailing === 'ft' || trailing === 'in')) unit ??= trailing;
  return { words: words.join(' ').replaceAll(/["']/g, '').replaceAll(/\s+/g, ' ').trim(), unit };
}

/** The unit named by a whole cell: "(mm)", "in.", "inches", `"`. */
export function unitWord(text: string): ColumnUnit | null {
  const bare = straight(text)
    .replaceAll(/[()[\]{}.\s]/g, '')
    .replace(/^in(?=mm$|cm$|m$|inches$|feet$)/, '');
  return UNIT_WORDS[bare] ?? null;
}
