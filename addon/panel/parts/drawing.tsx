/**
 * A board as a shop drawing: ink lines and hatching, no colour needed. The drawing comes laid out for a narrow panel;
 * here it only becomes ink. Its words stand again beneath it, for whoever cannot see it.
 */
import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Drawing as DrawingData, Shape } from '../../../worker/contract/drawing.ts';
import { Hatches, hatchId, hatchOf, LegendSwatch } from './hatch.tsx';

export function Drawing(props: {
  readonly drawing: DrawingData;
  /** The same facts as a list or table, beside the description. */
  readonly children?: ComponentChildren;
  readonly twinTitle?: string;
}) {
  const { drawing } = props;
  const id = useId();
  const [large, setLarge] = useState(false);
  return (
    <figure class="drawing">
      <div class={`sheet-of-paper${large ? ' large' : ''}`} tabIndex={large ? 0 : undefined}>
        <svg
          viewBox={`0 0 ${drawing.widthMm} ${drawing.heightMm}`}
          role="img"
          aria-labelledby={`${id}-title ${id}-desc`}
        >
          <title id={`${id}-title`}>{drawing.title}</title>
          <desc id={`${id}-desc`}>{drawing.description}</desc>
          <defs>
            <Hatches prefix={id} letterMm={letterMm(drawing)} />
          </defs>
          {drawing.shapes.map((shape, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no name of their own and are drawn anew as a whole
            <ShapeMark key={index} shape={shape} prefix={id} />
          ))}
        </svg>
      </div>
      <div class="drawing-foot">
        {drawing.legend.length === 0 ? null : (
          <ul class="legend" aria-label="Legend">
            {drawing.legend.map((entry) => (
              <li key={entry.role}>
                <LegendSwatch role={entry.role} /> {entry.text}
              </li>
            ))}
          </ul>
        )}
        {large ? <span class="hint">It scrolls sideways.</span> : null}
        <button type="button" class="button quiet" aria-pressed={large} onClick={() => setLarge(!large)}>
          {large ? 'Fit the panel' : 'Larger'}
        </button>
      </div>
      <details class="twin">
        <summary>{props.twinTitle ?? 'The drawing in words'}</summary>
        {props.children ?? <p>{drawing.description}</p>}
      </details>
    </figure>
  );
}

/** The letters that most of the drawing is written in. */
function letterMm(drawing: DrawingData): number {
  const sizes = drawing.shapes.flatMap((shape) => (shape.shape === 'text' ? [shape.size] : []));
  return sizes.length === 0 ? drawing.widthMm / 28 : Math.max(...sizes);
}

function ShapeMark(props: { readonly shape: Shape; readonly prefix: string }) {
  const { shape, prefix } = props;
  switch (shape.shape) {
    case 'rect': {
      const box = { x: shape.x, y: shape.y, width: shape.w, height: shape.h };
      return (
        <g>
          {shape.title === undefined ? null : <title>{shape.title}</title>}
          {/* Paper under a hatching, so that hatchings on top of each other stay apart. */}
          {shape.role === 'outline' ? null : <rect class="paper" {...box} />}
          {hatchOf(shape.role) === null ? null : <rect {...box} fill={`url(#${hatchId(prefix, shape.role)})`} />}
          <rect class={`ink ${shape.role}`} {...box} />
        </g>
      );
    }
    case 'path':
      return (
        <path class={`ink ${shape.role}`} d={shape.d}>
          {shape.title === undefined ? null : <title>{shape.title}</title>}
        </path>
      );
    case 'line':
      return <line class={`ink ${shape.role}`} x1={shape.x1} y1={shape.y1} x2={shape.x2} y2={shape.y2} />;
    case 'mark':
      return (
        <g class="mark">
          <circle class="ink" cx={shape.x} cy={shape.y} r={shape.r} />
          <text
            x={shape.x}
            y={shape.y + shape.r * 0.5}
            font-size={shape.r * (shape.text.length > 1 ? 1.2 : 1.4)}
            text-anchor="middle"
          >
            {shape.text}
          </text>
        </g>
      );
    case 'text':
      return (
        <text
          class={`letters ${shape.role}`}
          x={shape.x}
          y={shape.y}
          font-size={shape.size}
          stroke-width={shape.size * 0.28}
          text-anchor={shape.anchor}
          transform={shape.turned ? `rotate(-90 ${shape.x} ${shape.y})` : undefined}
        >
          {shape.text}
        </text>
      );
  }
}
