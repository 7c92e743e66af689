/** What a board cost, as a whole and for its volume; where that was not written down, what the shop's own prices say. */
import type { Board } from '../../../worker/contract/board.ts';
import type { WoodCost } from '../../../worker/contract/plan.ts';
import type { Settings } from '../../../worker/contract/settings.ts';
import { boardFeet, cubicMetres } from '../../../worker/wood/volume.ts';
import { count, type Measure } from './measure.ts';

type Costed = Pick<Board, 'species' | 'lengthNm' | 'widthNm' | 'thicknessNm' | 'thicknessCall' | 'costMinor'>;

/** null where neither the board nor the list has a price. */
export function costWords(board: Costed, prices: Settings['prices'], measure: Measure): string | null {
  if (board.costMinor !== null)
    return `${measure.money(board.costMinor)}, ${forVolume(board.costMinor, board, measure)}`;
  const ofSpecies = prices.filter((price) => price.species === board.species);
  const price =
    ofSpecies.find((one) => one.thicknessCall !== null && one.thicknessCall === board.thicknessCall) ??
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

/** ", worth $124.50 (1 board has no price)": what the boards of a plan cost, and what the sum leaves out. */
export function woodCostText({ minor, unpricedCount }: WoodCost, boardCount: number, measure: Measure): string {
  if (boardCount === 0) return '';
  if (unpricedCount === boardCount) return boardCount === 1 ? ', without a price' : ', all without a price';
  const left = unpricedCount === 0 ? '' : ` (${count(unpricedCount, 'board has', 'boards have')} no price)`;
  return `, worth ${measure.money(minor)}${left}`;
}
