/** What to know before a board goes to the saw, said once on its layout. */
import type { Settings } from '../contract/settings.ts';
import { alongStyle } from '../takeoff/grid.ts';
import { canResaw } from '../takeoff/piece-on-board.ts';
import { lengthText } from '../wood/length.ts';
import { boardWarnings } from './board-warnings.ts';
import type { ShopBoard } from './shop-board.ts';
import type { Wanted } from './shop-wanted.ts';

export function layoutWarnings(on: ShopBoard, cut: readonly Wanted[], settings: Settings): string[] {
  const warnings = [...boardWarnings(on.board, settings), ...thickWarnings(on, cut, settings)];
  for (const held of on.held) {
    const run = `${lengthText(held.fromNm, alongStyle(settings))} to ${lengthText(held.toNm, alongStyle(settings))}`;
    warnings.push(`${held.jobName} holds ${run}: part that off first, and tag it.`);
  }
  return warnings;
}

/** Thick enough for two layers of some piece: sawing it in two first would give twice as many. */
function thickWarnings({ board }: ShopBoard, cut: readonly Wanted[], settings: Settings): readonly string[] {
  const thin = cut.find(({ finished }) => canResaw(board.thicknessNm, finished.thicknessNm, settings));
  return thin ? [`Thick enough to resaw: ${thin.part.label} needs only half of it.`] : [];
}
