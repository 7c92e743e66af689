/** What a takeoff says first: what is short, what to buy, what it costs, and what of that is not known. */
import type { Takeoff, TakeoffGroup, TakeoffRow } from '../../../worker/contract/takeoff.ts';
import { figure, type Measure, weightText } from './measure.ts';

/** Rows with a blank of this line of the buying list that found no place. */
export const shortRows = (takeoff: Takeoff, group: TakeoffGroup): readonly TakeoffRow[] =>
  takeoff.rows.filter(
    (row) =>
      row.species === group.species &&
      row.blanks.some((blank) => blank.missing > 0 && blank.thicknessCall === group.thicknessCall),
  );

export function coverWord(group: Pick<TakeoffGroup, 'short' | 'mayStillFit'>): string {
  if (group.short.m3 === 0) return 'covered';
  return group.mayStillFit ? 'perhaps short' : 'short';
}

/** Blanks without a place, not even as staves. */
const missingCount = (takeoff: Takeoff): number =>
  takeoff.rows
    .flatMap(({ blanks }) => blanks)
    .reduce((sum, blank) => sum + (blank.staves === null ? blank.missing : 0), 0);

/** Gluing up from staves spares all of the buying. */
const allGluedUp = (takeoff: Takeoff): boolean =>
  takeoff.groups.some((group) => group.short.m3 > 0) && missingCount(takeoff) === 0;

export function leadText(takeoff: Takeoff): string {
  const short = takeoff.groups.filter((group) => group.short.m3 > 0);
  if (short.length === 0) return 'Nothing to buy: every blank has a place in your stock.';
  const missing = missingCount(takeoff);
  if (missing === 0) return 'Nothing to buy where what is too wide is glued up from staves.';
  const blanks = missing === 1 ? '1 blank has' : `${missing} blanks have`;
  return short.every((group) => group.mayStillFit)
    ? `${blanks} no place in this quick look. Plan the cuts to be sure before you buy.`
    : `${blanks} no place in your stock.`;
}

/** "Buy 7 bf of white oak 8/4, about $101.50": a yard sells whole board feet. */
export function buyText(group: TakeoffGroup, measure: Measure): string {
  const cost = group.buyMinor === null ? 'no price yet' : `about ${measure.money(group.buyMinor)}`;
  const { boardFeet, m3 } = group.toBuy;
  const amount = measure.system === 'in' ? `${figure(boardFeet, 0)} bf` : measure.volume(m3);
  return `Buy ${amount} of ${group.speciesName} ${group.thicknessCall}, ${cost}`;
}

/** What all of it is worth and costs, with what has no price said beside the sum. */
export function costText(takeoff: Takeoff, measure: Measure): string {
  const { total } = takeoff;
  const bought = takeoff.groups.filter((group) => group.toBuy.m3 > 0);
  const priced = bought.filter((group) => group.buyMinor !== null);
  const named = (groups: readonly TakeoffGroup[]) => groups.map((one) => `${one.speciesName} ${one.thicknessCall}`);
  const about = allGluedUp(takeoff) ? 'In one board each, about' : 'About';
  const words = [
    bought.length > 1 && priced.length > 0 && total.buyMinor !== null
      ? `${about} ${measure.money(total.buyMinor)} to buy${without(named(bought.filter((one) => one.buyMinor === null)))}.`
      : '',
    total.costMinor === null
      ? 'No wood of this list has a price yet: enter one under Shop.'
      : `Gross wood for the whole list, waste included, at the shop’s prices: about ${measure.money(total.costMinor)}${without(total.unpriced)}.`,
    `Finished parts weigh about ${weightText(total.weightKg, measure.system)}.`,
  ];
  return words.filter((one) => one !== '').join(' ');
}

/** Said beside a sum of money that leaves some wood out; nothing where it leaves none. */
const without = (woods: readonly string[]): string =>
  woods.length === 0
    ? ''
    : `, without ${woods.join(' and ')}, which ${woods.length === 1 ? 'has' : 'have'} no price yet`;

/** The one thing that a line of the buying list advises, and the plain words beside it; null where there are none. */
export interface BuyingWords {
  readonly advice: string | null;
  readonly beside: string | null;
}

/** What to buy of a wood; where parts too wide for any board are glued up from staves, that first and the buying as the other way. */
export function buyingWords(takeoff: Takeoff, group: TakeoffGroup, measure: Measure): BuyingWords {
  const buy = buyText(group, measure);
  const spared = shortRows(takeoff, group)
    .flatMap(({ blanks }) => blanks)
    .filter(({ staves, thicknessCall }) => staves !== null && thicknessCall === group.thicknessCall)
    .reduce((sum, { short }) => sum + short.m3, 0);
  if (spared === 0) return { advice: buy, beside: null };
  if (spared < group.short.m3 * (1 - 1e-9)) {
    const some = `Some ${measure.volume(spared)} of it need not be bought where what is too wide is glued up from staves.`;
    return { advice: buy, beside: some };
  }
  const wood = `${group.speciesName} ${group.thicknessCall}`;
  return {
    // The headline says it already where it is so of every wood.
    advice: allGluedUp(takeoff) ? null : `No ${wood} to buy where what is too wide is glued up from staves`,
    beside: `Or, in one board each: ${buy.charAt(0).toLowerCase()}${buy.slice(1)}.`,
  };
}

/** Why a row has no place: what the takeoff says of it, or that there is no such wood at all. */
export const shortText = (row: TakeoffRow, group: TakeoffGroup): string =>
  row.warnings.length > 0
    ? row.warnings.join('; ').replace(/^short: /, '')
    : `no free ${group.speciesName} ${group.thicknessCall} in stock`;
