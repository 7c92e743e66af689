/** What stock costs to buy: the price of a species in a thickness, or of the species in any. */
import type { Settings } from '../contract/settings.ts';

/** Minor units a board foot, or null where the shop has entered no price. */
export function priceMinorPerBoardFoot(
  prices: Settings['prices'],
  sameSpecies: (species: string) => boolean,
  thicknessCall: string,
): number | null {
  const ofSpecies = prices.filter((price) => sameSpecies(price.species));
  const exact = ofSpecies.find((price) => price.thicknessCall === thicknessCall);
  const any = ofSpecies.find((price) => price.thicknessCall === null);
  return (exact ?? any)?.minorPerBoardFoot ?? null;
}
