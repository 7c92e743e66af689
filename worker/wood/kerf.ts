/** How many equal pieces a length or width gives when every cut between them takes a kerf. */

import { LENGTH_NM_MAX, requireSize, requireWithin } from './result.ts';

export interface PieceCount {
  readonly count: number;
  /** Pieces and the kerfs between them. */
  readonly usedNm: number;
  readonly leftNm: number;
}

/**
 * Pieces of `pieceNm` out of `availableNm`: floor((available + kerf) / (piece + kerf)). 8 in gives four of 1¾ in at ⅛
 * in kerf.
 */
export function piecesFrom(availableNm: number, pieceNm: number, kerfNm: number): PieceCount {
  requireWithin('what is there', availableNm, -LENGTH_NM_MAX, LENGTH_NM_MAX);
  requireWithin('piece', pieceNm, Number.MIN_VALUE, LENGTH_NM_MAX);
  requireSize('kerf', kerfNm);
  const count = Math.max(0, Math.floor((availableNm + kerfNm) / (pieceNm + kerfNm)));
  const usedNm = count === 0 ? 0 : count * pieceNm + (count - 1) * kerfNm;
  return { count, usedNm, leftNm: availableNm - usedNm };
}
