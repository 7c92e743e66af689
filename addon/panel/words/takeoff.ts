/** What a takeoff says first: what is short, what to buy, what it costs, and what of that is not known. */
import type { Takeoff, TakeoffGroup, TakeoffRow } from '../../../worker/contract/takeoff.ts';
import { type Measure, weightText } from './measure.ts';

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

export function leadText(takeoff: Takeoff): string {
  const short = takeoff.groups.filter((group) => group.short.m3 > 0);
  if (short.length === 0) return 'Nothing to buy: every blank has a place in your stock.';
  const missing = takeoff.rows
    .flatMap(({ blanks }) => blanks)
    .reduce((sum, blank) => sum + (blank.staves === null ? blank.missing : 0), 0);
  if (missing === 0) return 'Nothing to buy where what is too wide is glued up from staves.';
  const blanks = missing === 1 ? '1 blank has' : `${missing} blanks have`;
  return short.every((group) => group.mayStillFit)
    ? `${blanks} no place in this quick look. Plan the cuts to be sure before you buy.`
    : `${blanks} no place in your stock.`;
}

/** "Buy 7.0 bf of white oak 8/4, about $101.50". */
export function buyText(group: TakeoffGroup, measure: Measure): string {
  const cost = group.buyMinor === null ? 'no price yet' : `about ${measure.money(group.buyMinor)}`;
  return `Buy ${measure.volume(group.toBuy.m3)} of ${group.speciesName} ${group.thicknessCall}, ${cost}`;
}

/** What all of it is worth and costs, with what has no price said beside the sum. */
export function costText(takeoff: Takeoff, measure: Measure): string {
  const { total } = takeoff;
  const bought = takeoff.groups.filter((group) => group.toBuy.m3 > 0);
  const priced = bought.filter((group) => group.buyMinor !== null);
  const words = [
    bought.length > 1 && priced.length > 0 && total.buyMinor !== null
      ? `Together about ${measure.money(total.buyMinor)} to buy${withoutPrice(bought.length - priced.length, 'of these')}.`
      : '',
    total.costMinor === null
      ? 'No wood of this list has a price yet: enter one under Shop.'
      : `The gross wood of the whole list is worth about ${measure.money(total.costMinor)}${
          total.unpriced.length === 0 ? '' : `, without ${total.unpriced.join(' and ')}, which has no price yet`
        }.`,
    `Finished parts weigh about ${weightText(total.weightKg, measure.system)}.`,
  ];
  return words.filter((one) => one !== '').join(' ');
}

/** Said beside a sum of money that leaves some out; nothing where it leaves none. */
export const withoutPrice = (left: number, what: string): string =>
  left === 0 ? '' : `, ${left} ${what} without a price`;
