/** What wood weighs: the gravity of dry wood at the size it has shrunk to, and the water it holds besides. */
import { requireWithin } from './result.ts';
import { FSP_PERCENT } from './shrinkage.ts';
import type { Species } from './species.ts';
import type { Size } from './unit.ts';
import { cubicMetres } from './volume.ts';

export type Weighs = Pick<Species, 'specificGravityGreen'> & { readonly shrinkVolumetricPercent: number | null };

/** Volumetric shrinkage where none is known: 26.5 × Gb (FPL-GTR-282 eq. 4-12). Gb 0.50 gives 13.25 %. */
export function shrinkVolumetricFromGravity(specificGravityGreen: number): number {
  requireWithin('specific gravity', specificGravityGreen, 0.05, 1.5);
  return 26.5 * specificGravityGreen;
}

/**
 * Oven-dry mass / volume at a moisture content: Gb / (1 − S_V (1 − M/30)), Gb itself above 30 % (FPL-GTR-282 eq. 4-11,
 * 4-13). Walnut at 8 %: 0.563.
 */
export function specificGravityAt(wood: Weighs, moisturePercent: number): number {
  requireWithin('specific gravity', wood.specificGravityGreen, 0.05, 1.5);
  requireWithin('moisture content', moisturePercent, 0, 300);
  const gravity = wood.specificGravityGreen;
  requireWithin('volumetric shrinkage', wood.shrinkVolumetricPercent ?? 0, 0, 60);
  const volumetric = wood.shrinkVolumetricPercent ?? shrinkVolumetricFromGravity(gravity);
  const dried = 1 - Math.min(moisturePercent, FSP_PERCENT) / FSP_PERCENT;
  return gravity / (1 - (volumetric / 100) * dried);
}

/** kg/m³ with its water: 1000 × G × (1 + M/100) (FPL-GTR-282 eq. 4-14). Single boards differ by about 10 %. */
export function densityKgPerM3(wood: Weighs, moisturePercent: number): number {
  return 1000 * specificGravityAt(wood, moisturePercent) * (1 + moisturePercent / 100);
}

/** The weight of a piece measured at this moisture content. 20 bf of green white oak: 47.6 kg (104.9 lb). */
export function weightKg(size: Size, wood: Weighs, moisturePercent: number): number {
  return cubicMetres(size) * densityKgPerM3(wood, moisturePercent);
}

export const KG_PER_POUND = 0.45359237;
export function poundsFromKg(massKg: number): number {
  requireWithin('weight', massKg, 0, 1e12);
  return massKg / KG_PER_POUND;
}

/** One person lifts at most this under ideal conditions (NIOSH lifting equation, from memory). */
export const LIFT_ALONE_KG_MAX = 23;
