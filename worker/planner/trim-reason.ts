/** Why a bit of waste is cut off the end of stock that goes on, where it is more than the trim of a mill end. */
import type { Defect } from '../contract/board.ts';
import type { Settings } from '../contract/settings.ts';
import { overlaps } from '../wood/face-rect.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import type { TrimReason } from './cut-words.ts';
import { defectsText } from './drawing-defects.ts';

/** The blade, and rounding to the tape. */
const GIVE_NM = NM_PER_INCH / 4;

/** "to clear the split", "waste, too short to keep"; null for no more than the trim of a mill end. */
export function trimReasons(
  board: { readonly lengthNm: number; readonly defects: readonly Defect[] },
  settings: Pick<Settings, 'allowances' | 'offcutMin'>,
): TrimReason {
  const { endTrimNm } = settings.allowances;
  return (off, sawnAtNm) => {
    const offNm = off.toNm - off.fromNm;
    const isBoardEnd = off.fromNm <= 0 || off.toNm >= board.lengthNm;
    if (isBoardEnd && offNm <= endTrimNm + GIVE_NM) return null;
    // Pieces keep this far from where a crack shows to end, and lie close to other defects.
    const reachNm = endTrimNm + GIVE_NM;
    const beside = { ...off, fromNm: sawnAtNm - reachNm, toNm: sawnAtNm + reachNm };
    const near = board.defects.filter((defect) => overlaps(defect, off) && overlaps(defect, beside));
    if (near.length > 0) return `to clear ${defectsText(near)}`;
    return offNm < settings.offcutMin.lengthNm ? 'waste, too short to keep' : 'waste';
  };
}
