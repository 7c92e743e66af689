/** A list of rows to open. One stop for the Tab key; the arrows move inside it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

export interface Row {
  readonly key: string;
  readonly title: ComponentChildren;
  /** Right of the title, in figures. */
  readonly figure?: ComponentChildren;
  readonly under?: ComponentChildren;
}

export function RowList(props: {
  readonly label: string;
  readonly rows: readonly Row[];
  readonly onOpen: (key: string) => void;
}) {
  const [at, setAt] = useState(0);
  const stop = Math.min(at, props.rows.length - 1);
  return (
    <ul
      class="rows"
      aria-label={props.label}
      onKeyDown={(event) => {
        const to = target(event.key, stop, props.rows.length);
        if (to === null) return;
        event.preventDefault();
        setAt(to);
        const button = event.currentTarget.querySelectorAll('button').item(to);
        button?.focus();
      }}
    >
      {props.rows.map((row, index) => (
        <li key={row.key}>
          <button
            type="button"
            tabIndex={index === stop ? 0 : -1}
            onFocus={() => setAt(index)}
            onClick={() => props.onOpen(row.key)}
          >
            <span class="row-title">{row.title}</span>
            {row.figure === undefined ? null : <span class="row-figure">{row.figure}</span>}
            {row.under === undefined ? null : <span class="row-under">{row.under}</span>}
          </button>
        </li>
      ))}
    </ul>
  );
}

function target(key: string, at: number, count: number): number | null {
  if (key === 'ArrowDown') return Math.min(count - 1, at + 1);
  if (key === 'ArrowUp') return Math.max(0, at - 1);
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  return null;
}
