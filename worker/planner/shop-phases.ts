/**
 * Plies and staves of one glue-up are best cut in one phase, so that they rest together. A later board comes forward where
 * that alone brings glue-ups together; where it would draw further boards after it, wood would be cut up that the demanding
 * parts may still need, so the boards stay in their phases and say so.
 */
import type { Layout, PlacedPiece } from '../contract/plan.ts';
import { pieceName } from '../wood/piece-name.ts';
import { listed } from './listed.ts';

const SAYS = 'Glue-up in two phases: ';

export function gluedUpTogether(layouts: readonly Layout[]): readonly Layout[] {
  let now = layouts.map((layout) => ({
    ...layout,
    warnings: layout.warnings.filter((warning) => !warning.startsWith(SAYS)),
  }));
  for (;;) {
    const apart = apartIn(now);
    const forward = apart.flatMap((on) => {
      const phase = Math.min(...on.map((layout) => layout.phase));
      const [later, another] = on.filter((layout) => layout.phase > phase);
      return later && !another ? [{ later, phase }] : [];
    });
    const better = forward
      .map(({ later, phase }) => now.map((layout) => (layout === later ? { ...layout, phase } : layout)))
      .find((moved) => apartIn(moved).length < apart.length);
    if (!better) break;
    now = better;
  }
  return now.map((layout) => ({ ...layout, warnings: [...layout.warnings, ...saidOf(layout, now)] }));
}

/** The boards of each glue-up whose layers lie in more than one phase. */
function apartIn<L extends Layout>(layouts: readonly L[]): (readonly L[])[] {
  const boards = new Map<string, Set<L>>();
  for (const layout of layouts)
    for (const piece of layout.pieces) {
      if (piece.element === null) continue;
      const key = glueUpKey(piece);
      boards.set(key, (boards.get(key) ?? new Set()).add(layout));
    }
  return [...boards.values()].map((on) => [...on]).filter((on) => new Set(on.map(({ phase }) => phase)).size > 1);
}

const glueUpKey = ({ partKey, no }: PlacedPiece): string => `${partKey}\n${no}`;

function saidOf(layout: Layout, all: readonly Layout[]): string[] {
  const here = layout.pieces.filter((piece) => piece.element !== null);
  const words = here.flatMap((piece) => {
    const elsewhere = all.filter(
      (other) =>
        other.phase !== layout.phase &&
        other.pieces.some((one) => one.element !== null && glueUpKey(one) === glueUpKey(piece)),
    );
    if (elsewhere.length === 0) return [];
    const when = elsewhere.some(({ phase }) => phase > layout.phase) ? 'after the rest' : 'before the rest';
    const rest = `its other layers ${when}, from ${listed(elsewhere.map(({ tag }) => tag))}`;
    return [`${pieceName(piece)} is cut here, ${rest}`];
  });
  return words.length === 0 ? [] : [`${SAYS}${words.join('; ')}. Keep it stickered until all have rested.`];
}
