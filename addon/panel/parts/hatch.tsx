/** Hatching by kind of defect: each reads apart without colour, on paper and from a bad printer. */
import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import type { Role } from '../../../worker/contract/drawing.ts';

export const hatchedRoles: ReadonlySet<Role> = new Set<Role>([
  'scrap',
  'ghost',
  'defect-knot',
  'defect-split',
  'defect-wane',
  'defect-stain',
  'defect-rot',
  'defect-other',
]);

function strokes(role: Role): JSX.Element | null {
  switch (role) {
    case 'defect-knot':
      return (
        <>
          <circle cx="4" cy="4" r="2.6" />
          <circle cx="4" cy="4" r="0.8" />
        </>
      );
    case 'defect-split':
      return <path d="M0 2h8M0 6h8" />;
    case 'defect-wane':
      return <path d="M0 8 8 0M-2 2 2 -2M6 10 10 6" />;
    case 'defect-stain':
      return <path d="M1.5 1.5h0.01M5.5 5.5h0.01" stroke-width="1.8" stroke-linecap="round" />;
    case 'defect-rot':
      return <path d="M0 8 8 0M0 0 8 8" />;
    case 'defect-other':
      return <path d="M0 4 2 2 6 6 8 4" />;
    case 'scrap':
      return <path d="M0 0 8 8" />;
    case 'ghost':
      return <path d="M4 0v3" />;
    default:
      return null;
  }
}

export function Hatches(props: { readonly prefix: string }) {
  return (
    <>
      {[...hatchedRoles].map((role) => (
        <pattern
          key={role}
          id={`${props.prefix}-${role}`}
          class={`hatch ${role}`}
          width="8"
          height="8"
          patternUnits="userSpaceOnUse"
        >
          {strokes(role)}
        </pattern>
      ))}
    </>
  );
}

export function LegendSwatch(props: { readonly role: Role }) {
  const id = useId();
  const hatched = hatchedRoles.has(props.role);
  return (
    <svg width="26" height="14" viewBox="0 0 26 14" aria-hidden="true" class="swatch">
      {hatched ? (
        <defs>
          <pattern id={id} class={`hatch ${props.role}`} width="8" height="8" patternUnits="userSpaceOnUse">
            {strokes(props.role)}
          </pattern>
        </defs>
      ) : null}
      <rect
        class={`ink ${props.role}`}
        x="0.5"
        y="0.5"
        width="25"
        height="13"
        fill={hatched ? `url(#${id})` : undefined}
      />
    </svg>
  );
}
