/** Strips left whole for a while, told to the shop: which, for which parts, and what becomes of them afterwards. */
import type { Cut, PlacedPiece, RectNm, Reserve } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { isWithin } from '../wood/face-rect.ts';
import { pieceName } from '../wood/piece-name.ts';
import { type CutStep, tape } from './cut-words.ts';
import { listed } from './listed.ts';
import type { BoardLayout, Problem, Rect } from './problem.ts';
import { reservesIn } from './saw-reserve.ts';
import type { Wanted } from './shop-wanted.ts';

interface Drawn {
  readonly pieces: readonly PlacedPiece[];
  readonly cuts: readonly Omit<Cut, 'no' | 'words'>[];
  readonly steps: readonly CutStep[];
}

/** The layout's cuts already stand with those of the reserves last. */
export function presentReserves(
  problem: Problem,
  solved: BoardLayout,
  toBoard: (rect: Rect) => RectNm,
  drawn: Drawn,
  wanted: readonly Wanted[],
  settings: Settings,
): Reserve[] {
  const reserves = reservesIn(problem, solved);
  const strips = reserves.map(({ strip }) => toBoard(strip));
  const first = drawn.cuts.findIndex(({ of }) => strips.some((strip) => isWithin(of, strip)));
  return reserves.map(({ standsFor }, at) => {
    const strip = strips[at] ?? toBoard({ from: 0, to: 0, left: 0, right: 0 });
    const parts = standsFor.flatMap((blank) => wanted[blank]?.part ?? []);
    const unique = [...new Map(parts.map(({ key, label }) => [key, { partKey: key, label }])).values()];
    const opening = drawn.cuts.findIndex(({ of }) => isWithin(of, strip));
    const name = drawn.steps[opening]?.stock ?? 'the strip';
    const size = `${tape(strip.rightNm - strip.leftNm, settings)} × ${tape(strip.toNm - strip.fromNm, settings)}`;
    const own = drawn.pieces.filter((piece) => isWithin(piece, strip)).map((piece) => pieceName(piece));
    const words = `Leave ${name} whole (${size}) until ${listed(unique.map(({ label }) => label))} ${unique.length === 1 ? 'has' : 'have'} rested and passed: it is the reserve. Then cut it from step ${opening + 1}: ${listed(own)}.`;
    return { ...strip, afterCut: first, standsFor: unique, words };
  });
}
