/**
 * Starting figures for the common wood glues. Almost all are from memory: the glue maker's sheet replaces every one,
 * and whatever is shown from here says so.
 */
import { requireWithin } from './result.ts';
import type { SourceFlag } from './source.ts';

type Range = readonly [least: number, most: number];

export interface Adhesive {
  readonly key: 'pva' | 'polyurethane' | 'urea-formaldehyde' | 'epoxy' | 'resorcinol';
  readonly name: string;
  /** On one glue line. */
  readonly spreadGPerM2: Range;
  /** From the first glue until the joint must be closed; null where only the hardener's sheet says. */
  readonly openMinutes: Range | null;
  readonly clampHours: Range;
  /** For low-density and high-density wood; null where contact is enough. */
  readonly pressureKPa: { readonly lowDensity: Range; readonly highDensity: Range } | null;
  readonly sources: { readonly spread: SourceFlag; readonly open: SourceFlag; readonly pressure: SourceFlag };
  readonly caution: string;
}

export const KPA_PER_PSI = 6.894757293168;
export const NEWTON_PER_LBF = 4.4482216152605;
/** 1 lb on 1000 ft² in g/m². */
export const G_PER_M2_PER_LB_PER_1000_FT2 = 453.59237 / 92.90304;

const psi = (least: number, most: number): Range => [least * KPA_PER_PSI, most * KPA_PER_PSI];
const lb = (least: number, most: number): Range => [
  least * G_PER_M2_PER_LB_PER_1000_FT2,
  most * G_PER_M2_PER_LB_PER_1000_FT2,
];
const memory = { spread: 'from-memory', open: 'from-memory', pressure: 'from-memory' } as const;

export const adhesives: readonly Adhesive[] = [
  {
    key: 'pva',
    name: 'white or yellow glue (PVA)',
    spreadGPerM2: lb(35, 50),
    openMinutes: [3, 6],
    clampHours: [1, 24],
    pressureKPa: { lowDensity: psi(100, 150), highDensity: psi(175, 250) },
    sources: { spread: 'from-memory', open: 'second-hand', pressure: 'second-hand' },
    caution: 'Keep it and the wood warm enough: most need 50 °F (10 °C) or more.',
  },
  {
    key: 'polyurethane',
    name: 'polyurethane, one part',
    spreadGPerM2: [100, 250],
    openMinutes: [10, 30],
    clampHours: [2, 4],
    pressureKPa: { lowDensity: psi(0, 90), highDensity: psi(100, 200) },
    sources: memory,
    caution: 'Holds isocyanates: gloves and fresh air; it sensitizes.',
  },
  {
    key: 'urea-formaldehyde',
    name: 'urea-formaldehyde (plastic resin)',
    spreadGPerM2: lb(40, 60),
    openMinutes: [10, 15],
    clampHours: [6, 8],
    pressureKPa: { lowDensity: psi(100, 150), highDensity: psi(175, 250) },
    sources: memory,
    caution: 'Gives off formaldehyde: a mask for the powder, fresh air while it cures.',
  },
  {
    key: 'epoxy',
    name: 'epoxy',
    spreadGPerM2: [200, 300],
    openMinutes: null,
    clampHours: [12, 24],
    pressureKPa: null,
    sources: memory,
    caution: 'The hardener sensitizes: gloves always. Contact pressure only; much squeezes it dry.',
  },
  {
    key: 'resorcinol',
    name: 'resorcinol',
    spreadGPerM2: lb(60, 90),
    openMinutes: [5, 10],
    clampHours: [10, 24],
    pressureKPa: { lowDensity: psi(100, 150), highDensity: psi(200, 250) },
    sources: memory,
    caution: 'Gives off formaldehyde: gloves and fresh air.',
  },
];

/** Wood from here up takes the pressure for high density (Gb). Common practice, no source. */
export const HIGH_DENSITY_GRAVITY = 0.5;

/** Clamping pressure for this glue on this wood, kPa; null where contact is enough. */
export function clampingPressureKPa(adhesive: Adhesive, specificGravityGreen: number): Range | null {
  requireWithin('specific gravity', specificGravityGreen, 0.05, 1.5);
  if (!adhesive.pressureKPa) return null;
  return specificGravityGreen >= HIGH_DENSITY_GRAVITY
    ? adhesive.pressureKPa.highDensity
    : adhesive.pressureKPa.lowDensity;
}
