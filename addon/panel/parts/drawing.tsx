/**
 * A board as a shop drawing: ink lines and hatching, no colour needed. A board is long and thin, so its width is drawn
 * larger than its length where the panel is narrow; the drawing says so. Every word in it stands again in the list beneath.
 */
import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Drawing as DrawingData, Role, Shape } from '../../../worker/contract/drawing.ts';
import { type PlacedText, placeTexts } from './drawing-texts.ts';
import { Hatches, hatchedRoles, LegendSwatch } from './hatch.tsx';

const PAD_PX = 10;
const HEIGHT_PX_MIN = 72;
const HEIGHT_PX_MAX = 150;
const STRETCH_MAX = 4;
const LARGE_PX = 960;

export function Drawing(props: {
  readonly drawing: DrawingData;
  /** The same facts as a list or table, for those who cannot see the drawing. */
  readonly children?: preact.ComponentChildren;
  readonly twinTitle?: string;
}) {
  const { drawing } = props;
  const id = useId();
  const frame = useRef<HTMLDivElement>(null);
  const [roomPx, setRoomPx] = useState(276);
  const [large, setLarge] = useState(false);
  useLayoutEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const measure = () => setRoomPx(Math.max(180, Math.floor(element.clientWidth)));
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(element);
    return () => watcher.disconnect();
  }, []);

  const widthPx = large ? LARGE_PX : roomPx;
  const scale = scaleOf(drawing, widthPx);
  const heightPx = Math.ceil(drawing.heightMm * scale.y + 2 * PAD_PX);
  const texts = placeTexts(drawing.shapes, { x: scale.x, y: scale.y, padPx: PAD_PX, widthPx, heightPx });
  const ratio = scale.y / scale.x;

  return (
    <figure class="drawing">
      <div
        ref={frame}
        class={`sheet-of-paper${large ? ' large' : ''}`}
        // A scrolling region must be reachable by the keyboard.
        tabIndex={large ? 0 : undefined}
      >
        <svg
          width={widthPx}
          height={heightPx}
          viewBox={`0 0 ${widthPx} ${heightPx}`}
          role="img"
          aria-labelledby={`${id}-title ${id}-desc`}
        >
          <title id={`${id}-title`}>{drawing.title}</title>
          <desc id={`${id}-desc`}>{drawing.description}</desc>
          <defs>
            <Hatches prefix={id} />
          </defs>
          {drawing.shapes.map((shape, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no name of their own and are drawn anew as a whole
            <ShapeMark key={index} shape={shape} scale={scale} prefix={id} />
          ))}
          {texts.map((text) => (
            <TextMark key={`${text.x} ${text.y} ${text.text}`} text={text} />
          ))}
        </svg>
      </div>
      <div class="drawing-foot">
        {ratio > 1.05 ? <span>Width drawn {ratio.toFixed(1)} times as large as length</span> : <span>To scale</span>}
        <button type="button" class="button quiet" aria-pressed={large} onClick={() => setLarge(!large)}>
          {large ? 'Fit the panel' : 'Larger'}
        </button>
      </div>
      {drawing.legend.length === 0 ? null : (
        <ul class="legend" aria-label="Legend">
          {drawing.legend.map((entry) => (
            <li key={entry.role}>
              <LegendSwatch role={entry.role} /> {entry.text}
            </li>
          ))}
        </ul>
      )}
      <details class="twin">
        <summary>{props.twinTitle ?? 'The drawing in words'}</summary>
        <p>{drawing.description}</p>
        {props.children}
      </details>
    </figure>
  );
}

interface Scale {
  readonly x: number;
  readonly y: number;
}

/** Pixels a millimetre, along and across. */
export function scaleOf(drawing: Pick<DrawingData, 'widthMm' | 'heightMm'>, widthPx: number): Scale {
  const x = (widthPx - 2 * PAD_PX) / Math.max(1, drawing.widthMm);
  const wanted = HEIGHT_PX_MIN / Math.max(1, drawing.heightMm);
  const ceiling = HEIGHT_PX_MAX / Math.max(1, drawing.heightMm);
  return { x, y: Math.max(x, Math.min(wanted, x * STRETCH_MAX, Math.max(x, ceiling))) };
}

function ShapeMark(props: { readonly shape: Shape; readonly scale: Scale; readonly prefix: string }) {
  const { shape, scale } = props;
  const x = (mm: number) => PAD_PX + mm * scale.x;
  const y = (mm: number) => PAD_PX + mm * scale.y;
  if (shape.shape === 'rect') {
    return (
      <rect
        class={`ink ${shape.role}`}
        x={x(shape.x)}
        y={y(shape.y)}
        width={Math.max(0.5, shape.w * scale.x)}
        height={Math.max(0.5, shape.h * scale.y)}
        fill={hatchedRoles.has(shape.role) ? `url(#${props.prefix}-${shape.role})` : undefined}
      >
        {shape.title === undefined ? null : <title>{shape.title}</title>}
      </rect>
    );
  }
  if (shape.shape === 'line') {
    return <line class={`ink ${shape.role}`} x1={x(shape.x1)} y1={y(shape.y1)} x2={x(shape.x2)} y2={y(shape.y2)} />;
  }
  if (shape.shape === 'mark') {
    return (
      <g class={`mark ${shape.role}`}>
        <circle cx={x(shape.x)} cy={y(shape.y)} r={8} />
        <text x={x(shape.x)} y={y(shape.y) + 3.8} text-anchor="middle">
          {shape.text}
        </text>
      </g>
    );
  }
  return null;
}

function TextMark(props: { readonly text: PlacedText }) {
  const { text } = props;
  return (
    <text
      class={`letters ${text.role}`}
      x={text.x}
      y={text.y}
      text-anchor={text.anchor}
      dominant-baseline="central"
      transform={text.turned ? `rotate(-90 ${text.x} ${text.y})` : undefined}
    >
      {text.text}
    </text>
  );
}

export type { Role };
