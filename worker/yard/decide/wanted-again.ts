/** What a visit to the saw put back on the list: more of a part wanted after than before. */
import type { Told } from '../command.ts';
import type { PartsAtWork } from './parts-at-work.ts';

type WantedAgain = NonNullable<Told['wantedAgain']>;

function wantedByElement(parts: PartsAtWork, key: string): Map<number | null, number> {
  const counts = new Map<number | null, number>();
  for (const piece of parts.pieces(key)) {
    if (piece.state === 'wanted') counts.set(piece.element, (counts.get(piece.element) ?? 0) + 1);
  }
  return counts;
}

export function wantedAgain(before: PartsAtWork, after: PartsAtWork): WantedAgain {
  return after.keys().flatMap((key) => {
    const was = wantedByElement(before, key);
    const label = after.part(key)?.label ?? key;
    return [...wantedByElement(after, key)].flatMap(([element, count]) => {
      const more = count - (was.get(element) ?? 0);
      return more > 0 ? [{ partKey: key, label, element, count: more }] : [];
    });
  });
}
