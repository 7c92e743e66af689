/** A small table with its caption; figures stand right. */
import type { ComponentChildren } from 'preact';

export interface TableRow {
  readonly key: string;
  readonly cells: readonly ComponentChildren[];
  /** A sum: a line above, and heavier. */
  readonly sum?: boolean;
}

export function Table(props: {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly TableRow[];
  /** Columns (0-based) that hold figures. */
  readonly figures?: readonly number[];
  readonly captionHidden?: boolean;
}) {
  const kind = (column: number) => (props.figures?.includes(column) === true ? 'number' : undefined);
  return (
    <table>
      <caption class={props.captionHidden === true ? 'only-spoken' : undefined}>{props.caption}</caption>
      <thead>
        <tr>
          {props.heads.map((head, column) =>
            head === '' ? (
              <td key={head} />
            ) : (
              <th key={head} scope="col" class={kind(column)}>
                {head}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {props.rows.map((row) => (
          <tr key={row.key} class={row.sum === true ? 'sum-line' : undefined}>
            {row.cells.map((cell, column) => {
              const key = props.heads[column] ?? column;
              return column === 0 ? (
                <th key={key} scope="row" class={kind(column)}>
                  {cell}
                </th>
              ) : (
                <td key={key} class={kind(column)}>
                  {cell}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
