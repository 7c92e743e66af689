/** What stands between a cut list and the boards in stock, in words that say what to do. */
import type { Settings } from '../contract/settings.ts';
import type { BlankRow } from '../contract/takeoff.ts';
import { lengthText } from '../wood/length.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { boardFeetFromM3 } from '../wood/volume.ts';
import { alongStyle, tapeStyle } from './grid.ts';
import type { Group, Lot } from './group.ts';
import type { Cover } from './stock-cover.ts';

/** From this rough thickness up, plies are easier to find dry and straight than one board. Common practice, no source. */
const THICK_NM = 2.5 * NM_PER_INCH;

/** For blanks of one row: where they outgrow the stock of their group. */
export function rowStockWarnings(
  lot: Lot,
  group: Group,
  cover: Cover | undefined,
  staves: BlankRow['staves'],
  settings: Settings,
): readonly string[] {
  const { rough } = lot;
  const along = (lengthNm: number) => lengthText(lengthNm, alongStyle(settings));
  const across = (widthNm: number) => lengthText(widthNm, tapeStyle(settings));
  const stock = `${group.wood.name} ${group.call.call}`;
  const warnings: string[] = [];
  if (cover && cover.longestRunNm !== null && rough.lengthNm > cover.longestRunNm)
    warnings.push(`needs ${along(rough.lengthNm)} rough; the longest free ${stock} is ${along(cover.longestRunNm)}`);
  if (cover && cover.widestNm !== null && rough.widthNm > cover.widestNm)
    warnings.push(
      `needs ${across(rough.widthNm)} rough width; the widest free ${stock} is ${across(cover.widestNm)}${staves ? '' : ': glue it up from staves'}`,
    );
  const needed = `${along(rough.lengthNm)} × ${across(rough.widthNm)}`;
  const missing = cover?.missing.get(lot) ?? 0;
  if (cover && cover.longestRunNm !== null && warnings.length === 0 && missing > 0) {
    const grain = lot.grain === 'unknown' ? '' : ` of ${lot.grain} grain`;
    const dry = lot.dryWidthNm < rough.widthNm ? ` (${across(lot.dryWidthNm)} in drier wood)` : '';
    warnings.push(
      cover.withoutBoard.has(lot)
        ? `no free ${stock}${grain} is long, wide and flat enough for ${needed} rough${dry}`
        : `${lot.count === 1 ? '' : `${missing} of ${lot.count} `}short: too few free ${stock} boards are long, wide, flat, clear and dry enough for ${needed} rough${dry}`,
    );
    if (cover.mayStillFit) warnings.push('a plan may still find room: plan the cuts before you buy');
  }
  if (staves)
    warnings.push(
      `glued up from ${staves.count} staves, each ${across(staves.roughWidthNm)} rough, it comes from your stock: write ${staves.count} in a Staves column of the list`,
    );
  if (group.call.beyondCalls) warnings.push(`${group.call.call} is thicker than stock comes: glue it up from plies`);
  else if (group.call.roughNm >= THICK_NM && (cover?.longestRunNm ?? null) === null)
    warnings.push(`no free ${stock}; a part this thick can be glued up from plies`);
  return warnings;
}

/** For a line of the buying list. */
export function groupWarnings(group: Group, cover: Cover | undefined, settings: Settings): readonly string[] {
  if (!cover) return [];
  const warnings: string[] = [];
  if (cover.unreadCount > 0)
    warnings.push(`${boards(cover.unreadCount)} counted without a moisture reading: read them`);
  if (cover.inStockWetM3 > 0) {
    const limitMost = Math.max(...group.lots.map((lot) => lot.limitPercent));
    warnings.push(
      `${amount(cover.inStockWetM3, settings)} more is over ${limitMost} %, or not read, and can't be cut yet`,
    );
  }
  if (cover.resawCount > 0)
    warnings.push(`${boards(cover.resawCount)} thick enough to resaw into two or more; not counted`);
  return warnings;
}

const amount = (m3: number, settings: Settings): string =>
  settings.shown === 'in' ? `${boardFeetFromM3(m3).toFixed(1)} bf` : `${m3.toFixed(3)} m³`;

const boards = (count: number): string => (count === 1 ? '1 board' : `${count} boards`);
