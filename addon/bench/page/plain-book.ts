/** A workbook as the build hands it to the page (bench/books.json): plain cell values by sheet, and how it writes numbers. */
import type { Locale } from '../../host/host.ts';

interface PlainArea {
  readonly row: number;
  readonly column: number;
  readonly rowCount: number;
  readonly columnCount: number;
}

export interface PlainSheet {
  readonly name: string;
  /** Texts that start with "=" are formulas. */
  readonly rows: readonly (readonly (string | number | null)[])[];
  /** In pixels, from the first column. */
  readonly columnWidths?: readonly number[];
  readonly merged?: readonly PlainArea[];
  readonly hiddenRows?: readonly number[];
  /** Ranges that nobody may edit. */
  readonly protected?: readonly (PlainArea & { readonly name: string })[];
  readonly formats?: readonly { readonly row: number; readonly column: number; readonly format: string }[];
}

export interface PlainBook {
  readonly id: string;
  readonly name: string;
  readonly locale: Locale;
  readonly sheets: readonly PlainSheet[];
}
