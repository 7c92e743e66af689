/** Strips that lie whole after a visit to the saw, as the reserve of parts that still have to rest and pass. */
import { limits } from '../../contract/limits.ts';
import type { Change } from '../../contract/movement.ts';
import type { Layout, RectNm } from '../../contract/plan.ts';
import { isWithin } from '../../wood/face-rect.ts';
import { created } from '../change.ts';
import type { Occasion } from '../command.ts';
import { listed } from '../words.ts';
import type { OffcutOut, TaggedOffcut } from './offcuts.ts';

/** The layout as it stands before its reserves are cut: their strips are among what is left, after the other offcuts. */
export function withReservesWhole(layout: Layout): Layout {
  const inStrip = (rect: RectNm) => layout.reserves.some((strip) => isWithin(rect, strip));
  const strips = layout.reserves.map(({ fromNm, toNm, leftNm, rightNm }) => ({ fromNm, toNm, leftNm, rightNm }));
  return {
    ...layout,
    pieces: layout.pieces.filter((piece) => !inStrip(piece)),
    cuts: layout.cuts.filter(({ of }) => !inStrip(of)),
    offcuts: [...layout.offcuts.filter((rect) => !inStrip(rect)), ...strips],
    scrap: layout.scrap.filter((rect) => !inStrip(rect)),
  };
}

/** Each strip's own note: for which parts it is kept, and what was to come from it. offcuts: of the layout with its reserves whole. */
export function notedReserves(layout: Layout, offcuts: readonly OffcutOut[], jobName: string): readonly OffcutOut[] {
  const first = offcuts.length - layout.reserves.length;
  return offcuts.map((offcut, at) => {
    const strip = layout.reserves[at - first];
    if (!strip) return offcut;
    const parts = listed(strip.standsFor.map(({ label }) => label));
    const own = listed(
      layout.pieces.filter((piece) => isWithin(piece, strip)).map(({ label, no }) => `${label} ${no}`),
    );
    const note = `Reserve of ${jobName} for ${parts}: leave it whole until they have rested and passed, then ${own} can come from it.`;
    return { ...offcut, note: note.slice(0, limits.textChars) };
  });
}

/** Held for the job, so that nobody else cuts them up. */
export function reserveHolds(
  layout: Layout,
  offcuts: readonly TaggedOffcut[],
  jobId: string,
  occasion: Occasion,
): readonly Change[] {
  return offcuts.slice(offcuts.length - layout.reserves.length).map(({ id: boardId, lengthNm }) => {
    const id = occasion.newId('rs');
    return created('reservation', id, {
      id,
      jobId,
      boardId,
      fromNm: 0,
      toNm: lengthNm,
      planId: null,
      madeAtMs: occasion.atMs,
    });
  });
}
