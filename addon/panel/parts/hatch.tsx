/** Hatching by kind of defect: each reads apart without colour, on paper and from a bad printer. */
import { useId } from 'preact/hooks';
import type { Role } from '../../../worker/contract/drawing.ts';

interface Hatch {
  /** Size of a tile in letter heights. */
  readonly tile: number;
  /** On a tile of 10 by 10. */
  readonly path: string;
  readonly weight: number;
}

const hatches: Partial<Record<Role, Hatch>> = {
  scrap: { tile: 1.1, path: 'M0 10 10 0', weight: 0.5 },
  ghost: { tile: 0.8, path: 'M5 0V6', weight: 0.7 },
  'defect-knot': { tile: 0.6, path: 'M5 1.5A3.5 3.5 0 1 1 4.99 1.5Z', weight: 1.4 },
  'defect-split': { tile: 0.34, path: 'M0 5H10', weight: 2.4 },
  'defect-wane': { tile: 0.5, path: 'M0 0 10 10M-2 8 2 12M8 -2 12 2', weight: 1.6 },
  'defect-stain': { tile: 0.46, path: 'M4 5H6', weight: 2.4 },
  'defect-rot': { tile: 0.5, path: 'M0 0 10 10M0 10 10 0', weight: 1.5 },
  'defect-other': { tile: 0.55, path: 'M5 2V8M2 5H8', weight: 1.3 },
};

export function hatchOf(role: Role): Hatch | null {
  return hatches[role] ?? null;
}

export function hatchId(prefix: string, role: Role): string {
  return `${prefix}-${role}`;
}

export function Hatches(props: { readonly prefix: string; readonly letterMm: number }) {
  return (
    <>
      {(Object.keys(hatches) as Role[]).map((role) => (
        <HatchPattern key={role} id={hatchId(props.prefix, role)} role={role} letter={props.letterMm} />
      ))}
    </>
  );
}

function HatchPattern(props: { readonly id: string; readonly role: Role; readonly letter: number }) {
  const hatch = hatches[props.role];
  if (hatch === undefined) return null;
  const tile = hatch.tile * props.letter;
  return (
    <pattern id={props.id} width={tile} height={tile} viewBox="0 0 10 10" patternUnits="userSpaceOnUse">
      <path class="hatch" d={hatch.path} stroke-width={hatch.weight} />
    </pattern>
  );
}

const SWATCH_LETTER = 11;
/** Drawn as lines, not as areas. */
const strokes: readonly Role[] = ['curve', 'level'];

export function LegendSwatch(props: { readonly role: Role }) {
  const id = useId();
  const box = { x: 0.5, y: 0.5, width: 25, height: 13 };
  return (
    <svg width="26" height="14" viewBox="0 0 26 14" aria-hidden="true" class="swatch">
      <defs>
        <HatchPattern id={id} role={props.role} letter={SWATCH_LETTER} />
      </defs>
      {hatchOf(props.role) === null ? null : <rect {...box} fill={`url(#${id})`} />}
      {strokes.includes(props.role) ? (
        <line class={`ink ${props.role}`} x1="1" y1="7" x2="25" y2="7" />
      ) : props.role === 'reading' ? (
        <circle class="ink reading" cx="13" cy="7" r="3" />
      ) : (
        <rect class={`ink ${props.role}`} {...box} />
      )}
    </svg>
  );
}
