/** What of the shop's figures is changed, in words. */
import type { Settings } from '../../contract/settings.ts';
import { woodNameBook } from '../../wood/species-naming.ts';
import { sameValue } from '../same-value.ts';
import { listed } from '../words.ts';

type Price = Settings['prices'][number];

/** Names the prices that came, went or differ, where nothing but prices is changed. */
export function figuresChanged(was: Settings, now: Settings): string {
  const figures = Object.keys(now) as (keyof Settings)[];
  const others = figures.filter((figure) => figure !== 'prices' && !sameValue(was[figure], now[figure]));
  const pricedIn = (prices: readonly Price[]) => new Map(prices.map((price) => [nameOf(price, now), price]));
  const [before, after] = [pricedIn(was.prices), pricedIn(now.prices)];
  const differ = [...new Set([...before.keys(), ...after.keys()])].filter(
    (name) => before.get(name)?.minorPerBoardFoot !== after.get(name)?.minorPerBoardFoot,
  );
  if (differ.length === 0 || others.length > 0) return "Changed the shop's figures";
  return `Changed the price of ${listed(differ)}`;
}

function nameOf({ species, thicknessCall }: Price, { ownWoods }: Settings): string {
  const name = woodNameBook(ownWoods).byKey(species)?.name ?? species;
  return thicknessCall === null ? `${name} in any thickness` : `${name} ${thicknessCall}`;
}
