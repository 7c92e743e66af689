/** What a board cost, as a whole and for its volume; where that was not written down, what the shop's own prices say. */
import type { Board } from '../../../worker/contract/board.ts';
import type { WoodCost } from '../../../worker/contract/plan.ts';
import type { Settings } from '../../../worker/contract/settings.ts';
import { callOf } from '../../../worker/wood/thickness.ts';
import { boardFeet, cubicMetres } from '../../../worker/wood/volume.ts';
import type { Measure } from './measure.ts';

type Costed = Pick<Board, 'species' | 'lengthNm' | 'widthNm' | 'thicknessNm' | 'thicknessCall' | 'costMinor'>;

/** null where neither the board nor the list has a price. */
export function costWords(board: Costed, prices: Settings['prices'], measure: Measure): string | null {
  if (board.costMinor !== null)
    return `${measure.money(board.costMinor)}, ${forVolume(board.costMinor, board, measure)}`;
  const ofSpecies = prices.filter((price) => price.species === board.species);
  const price =
    ofSpecies.find((one) => one.thicknessCall === (board.thicknessCall ?? callOf(board.thicknessNm))) ??
    ofSpecies.find((one) => one.thicknessCall === null);
  if (price === undefined) return null;
  const costMinor = Math.round(price.minorPerBoardFoot * boardFeet(board));
  return `not written down; ${measure.money(costMinor)} by the shop’s price, ${forVolume(costMinor, board, measure)}`;
}

function forVolume(costMinor: number, board: Costed, measure: Measure): string {
  return measure.system === 'in'
    ? `${measure.money(Math.round(costMinor / boardFeet(board)))} a board foot`
    : `${measure.money(Math.round(costMinor / cubicMetres(board)))} a m³`;
}

/** ", cost $124.50 (2 at the shop’s price, 1 without a price)": what the boards of a plan cost, and what the sum leaves out. */
export function woodCostText(cost: WoodCost, boardCount: number, measure: Measure): string {
  const { minor, unpricedCount, shopPricedCount } = cost;
  if (boardCount === 0) return '';
  if (unpricedCount === boardCount) return boardCount === 1 ? ', without a price' : ', all without a price';
  const of = (many: number) => (many === boardCount && many > 1 ? 'all' : String(many));
  const beside = [
    ...(shopPricedCount === 0 ? [] : [`${of(shopPricedCount)} at the shop’s price`]),
    ...(unpricedCount === 0 ? [] : [`${unpricedCount} without a price`]),
  ];
  return `, cost ${measure.money(minor)}${beside.length === 0 ? '' : ` (${beside.join(', ')})`}`;
}
