/** The shop's own woods as the sidebar kept them with the file. */
import type { OwnWood } from '../../worker/wood/own-wood.ts';

/** None for a text that is not what the sidebar writes. */
export function ownWoodsOf(kept: string | null): readonly OwnWood[] {
  if (kept === null) return [];
  try {
    const woods: unknown = JSON.parse(kept);
    return Array.isArray(woods) ? woods.filter(isOwnWood) : [];
  } catch {
    return [];
  }
}

function isOwnWood(value: unknown): value is OwnWood {
  if (typeof value !== 'object' || value === null) return false;
  const wood: Partial<Record<keyof OwnWood, unknown>> = value;
  const isFigure = (figure: unknown) => typeof figure === 'number' && figure > 0 && figure < 40;
  return (
    typeof wood.name === 'string' &&
    typeof wood.botanical === 'string' &&
    Array.isArray(wood.alsoCalled) &&
    wood.alsoCalled.every((name) => typeof name === 'string') &&
    isFigure(wood.shrinkRadialPercent) &&
    isFigure(wood.shrinkTangentialPercent) &&
    isFigure(wood.specificGravityGreen)
  );
}
