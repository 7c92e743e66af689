/** A price list in the sheet: species, thickness and what it costs by volume, as prices a board foot for the shop. */
import type { Settings } from '../../worker/contract/settings.ts';
import type { OwnName } from '../../worker/wood/species-naming.ts';
import { callOf, readThicknessCall } from '../../worker/wood/thickness.ts';
import { NM_PER_INCH } from '../../worker/wood/unit.ts';
import { M3_PER_BOARD_FOOT } from '../../worker/wood/volume.ts';
import type { Block, Cell } from '../host/host.ts';
import { cellAddress } from './address.ts';
import { isBlank, isDateCell, readLengthCell } from './cell-length.ts';
import { cellWords, readMoney, SpeciesCells, withoutGradeWords } from './cell-values.ts';
import { headingParts, straight } from './heading.ts';
import type { ColumnUnit } from './mapping.ts';
import { rolesOfWords } from './role-words.ts';

type Price = Settings['prices'][number];

/** What a price is for: a board foot, a thousand of them, a cubic metre, or a square metre of the row's own thickness. */
export type PricedBy = 'board-foot' | 'thousand-board-feet' | 'm3' | 'm2';

export interface PriceColumns {
  /** 0-based within the block. */
  readonly headerRow: number;
  readonly species: number;
  readonly thickness: number | null;
  readonly price: number;
  /** null where nothing in the sheet says it. */
  readonly pricedBy: PricedBy | null;
  /** ISO 4217, where the sheet names one; a bare $ does not say whose dollars. */
  readonly currency: string | null;
}

export interface PriceRow extends Price {
  /** 0-based on the sheet. */
  readonly sheetRow: number;
}

export interface PricesRead {
  readonly rows: readonly PriceRow[];
  readonly faults: readonly {
    readonly sheetRow: number;
    readonly column: number;
    readonly address: string;
    readonly help: string;
  }[];
}

const ROWS_ABOVE = 15;
const PRICE = /\$|€|£|¥|\b(?:price|cost|rate|preis|prix|precio|prezzo|preco|prijs|pris)\b/;
const CALL = /\b(?:call|called|quarters|nominal)\b/;
const PRICED_BY: readonly (readonly [PricedBy, RegExp])[] = [
  ['thousand-board-feet', /\bmbf\b|\b1,?000 ?(?:bf|bd)/],
  ['board-foot', /\b(?:bf|bd\.? ?ft|board f(?:oo|ee)t|fbm)\b/],
  ['m3', /\b(?:m ?3|cbm|cubic met|kubikmeter|fm)\b/],
  ['m2', /\b(?:m ?2|qm|sqm|square met|quadratmeter)\b/],
];
const CURRENCY_SIGNS: readonly (readonly [string, string])[] = [
  ['€', 'EUR'],
  ['£', 'GBP'],
  ['¥', 'JPY'],
];
const CURRENCY_CODES = /\b(usd|eur|gbp|cad|aud|nzd|chf|sek|dkk|nok|jpy|kwd|pln|czk|huf)\b/i;

/** Where the prices stand; null where the table is no price list: it has sizes, tags or quantities, or lacks species or price. */
export function priceColumns(block: Block): PriceColumns | null {
  for (const [headerRow, cells] of block.cells.slice(0, ROWS_ABOVE).entries()) {
    const headings = cells.map(cellWords);
    const roles = headings.map((heading) => rolesOfWords('boards', headingParts(heading).words));
    const at = (role: 'species' | 'thickness' | 'length' | 'tag') => roles.findIndex((of) => of.has(role));
    const price = headings.findIndex((heading, column) => {
      const words = straight(heading);
      return column !== at('species') && (PRICE.test(words) || PRICED_BY.some(([, says]) => says.test(words)));
    });
    const species = at('species');
    if (species < 0 || price < 0 || at('length') >= 0 || at('tag') >= 0) continue;
    const called = headings.findIndex((heading) => CALL.test(straight(heading)));
    const thickness = at('thickness') >= 0 ? at('thickness') : called >= 0 ? called : null;
    const said = [headings[price] ?? '', ...block.cells.slice(0, headerRow).flat().map(cellWords)];
    const pricedBy = said.map(pricedByOf).find((by) => by !== null) ?? null;
    const shown = block.cells.slice(headerRow + 1).flatMap((row) => moneyText(row[price]));
    const currency = [...said, ...shown].map(currencyOf).find((one) => one !== null) ?? null;
    return { headerRow, species, thickness, price, pricedBy, currency };
  }
  return null;
}

function pricedByOf(heading: string): PricedBy | null {
  const words = straight(heading);
  return PRICED_BY.find(([, says]) => says.test(words))?.[0] ?? null;
}

const moneyText = (cell: Cell | undefined): string[] =>
  cell === undefined || isBlank(cell) ? [] : [cell.text, cell.format ?? ''];

function currencyOf(text: string): string | null {
  const sign = CURRENCY_SIGNS.find(([mark]) => text.includes(mark));
  return sign?.[1] ?? CURRENCY_CODES.exec(text)?.[1]?.toUpperCase() ?? null;
}

/** currency: the shop's own, in whose small units the prices come. */
export function readPriceRows(
  block: Block,
  columns: PriceColumns,
  pricedBy: PricedBy,
  shop: { readonly system: 'in' | 'mm'; readonly ownWoods: readonly OwnName[]; readonly currency: string },
): PricesRead {
  const woods = new SpeciesCells({}, shop.ownWoods);
  const heading =
    columns.thickness === null ? '' : cellWords(block.cells[columns.headerRow]?.[columns.thickness] ?? NO_CELL);
  const headed = headingParts(heading).unit;
  const rows: PriceRow[] = [];
  const faults: PricesRead['faults'][number][] = [];
  let above = '';
  for (let at = columns.headerRow + 1; at < block.cells.length; at += 1) {
    const cellAt = (column: number | null) => (column === null ? NO_CELL : (block.cells[at]?.[column] ?? NO_CELL));
    const sheetRow = block.area.row + at;
    const fault = (column: number, help: string) => {
      const onSheet = block.area.column + column;
      faults.push({ sheetRow, column: onSheet, address: cellAddress(sheetRow, onSheet), help });
    };
    // A species that is written once stands for the rows under it.
    const named = cellAt(columns.species);
    if (!isBlank(named)) above = cellWords(named);
    if (isBlank(cellAt(columns.price))) continue;
    const asWritten = woods.read(above);
    const wood = asWritten.ok ? asWritten : woods.read(withoutGradeWords(above));
    const money = readMoney(cellAt(columns.price), block.locale.decimal, shop.currency);
    const thick = thicknessOf(cellAt(columns.thickness), headed, block, shop.system);
    if (!wood.ok) fault(columns.species, wood.help);
    else if (!money.ok || money.value === null) fault(columns.price, 'an amount, such as 12.50');
    else if (thick === 'no-size') fault(columns.thickness ?? columns.species, 'a thickness, such as 8/4 or 52 mm');
    else if (pricedBy === 'm2' && thick === null)
      fault(columns.thickness ?? columns.species, 'a price by area needs its thickness');
    else {
      const price = {
        species: wood.species.key,
        thicknessCall: thick?.call ?? null,
        minorPerBoardFoot: Math.round(money.value * shareOf(pricedBy, thick?.nm ?? NM_PER_INCH)),
      };
      const before = rows.find((row) => isSamePrice(row, price));
      if (before) fault(columns.species, `row ${before.sheetRow + 1} has a price for this already`);
      else rows.push({ ...price, sheetRow });
    }
  }
  return { rows, faults };
}

export const isSamePrice = (a: Pick<Price, 'species' | 'thicknessCall'>, b: Pick<Price, 'species' | 'thicknessCall'>) =>
  a.species === b.species && a.thicknessCall === b.thicknessCall;

const NO_CELL: Cell = { kind: 'empty', raw: null, text: '', formula: null, format: null };

/** How much of what the price is for one board foot is: 144 cubic inches, by definition 0.002359737216 m³. */
function shareOf(pricedBy: PricedBy, thicknessNm: number): number {
  const shares = {
    'board-foot': 1,
    'thousand-board-feet': 1 / 1000,
    m3: M3_PER_BOARD_FOOT,
    m2: M3_PER_BOARD_FOOT / (thicknessNm / 1e9),
  };
  return shares[pricedBy];
}

/** Bare whole numbers from 4 to 16 in a shop that measures in inches count quarters; from 17 they are millimetres. */
function thicknessOf(cell: Cell, headed: ColumnUnit | null, block: Block, system: 'in' | 'mm') {
  if (isBlank(cell)) return null;
  const written = typeof cell.raw === 'string' ? readThicknessCall(cell.raw) : null;
  if (written) return { call: written.call, nm: written.roughNm };
  const bare = typeof cell.raw === 'number' && !isDateCell(cell) ? cell.raw : null;
  const guessed =
    bare !== null && bare > 16 ? 'mm' : bare !== null && bare >= 4 && system === 'in' ? 'quarters' : system;
  const reading = readLengthCell(cell, {
    unit: headed ?? guessed,
    decimal: block.locale.decimal,
    dateOrder: block.locale.dateOrder,
    // A price list has no dates among its sizes: what looks like one was 5/4.
    datesAreFractions: true,
    formatSpeaks: headed === null,
    largestNm: 12 * NM_PER_INCH,
  });
  return reading.ok ? { call: reading.call ?? callOf(reading.nm), nm: reading.nm } : ('no-size' as const);
}
