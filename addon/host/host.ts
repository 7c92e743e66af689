/**
 * The one narrow interface to a spreadsheet. Everything above it is shared and knows no host; one method is one round
 * trip; only JSON crosses it. A host never throws its own text at the user: it throws HostError with a code.
 */

/** A cell area, 0-based, on one sheet; rowCount and columnCount at least 1. */
export interface Area {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rowCount: number;
  readonly columnCount: number;
}

export type CellKind = 'empty' | 'number' | 'text' | 'boolean' | 'date' | 'error';

export interface Cell {
  readonly kind: CellKind;
  /** The stored value: number (dates too, as the sheet's serial), text, boolean; null when empty. */
  readonly raw: number | string | boolean | null;
  /** As the sheet shows it. */
  readonly text: string;
  readonly formula: string | null;
  /** Number format, where the host tells it. */
  readonly format: string | null;
}

/** What was read: cells[r][c] for the area, with what the sheet hides or merges inside it. */
export interface Block {
  readonly area: Area;
  readonly cells: readonly (readonly Cell[])[];
  /** Rows of the area (0-based within it) that are hidden or filtered out. */
  readonly hiddenRows: readonly number[];
  readonly merged: readonly Area[];
  readonly locale: Locale;
  /** Hash of what was read; handed back with a write, so that a changed sheet is noticed. */
  readonly revision: string;
}

export interface Locale {
  /** BCP 47 tag. */
  readonly tag: string;
  readonly decimal: '.' | ',';
  readonly dateOrder: 'mdy' | 'dmy' | 'ymd';
}

export interface Capabilities {
  readonly host: 'bench' | 'google' | 'excel' | 'file';
  readonly pushesSelection: boolean;
  readonly undoesNatively: boolean;
  readonly notes: boolean;
}

/** Cells to set, each with what was read there before (text), so that the host re-checks inside the write. */
export interface CellWrite {
  readonly row: number;
  readonly column: number;
  readonly value: string | number | null;
  /** What the writer believes stands there now; null for an empty cell. */
  readonly expects: string | null;
  /** Number format to set first ("@" for text that must stay text); null leaves it. */
  readonly format: string | null;
}

export interface WritePlan {
  readonly sheet: string;
  /** What this is, for the undo list: "Status beside 12 rows". */
  readonly label: string;
  readonly cells: readonly CellWrite[];
  /** Where the headings of own columns stand; those among the cells get a quiet tint and this note. */
  readonly heading: { readonly row: number; readonly note: string } | null;
}

export type ClashWhy = 'formula' | 'not-empty' | 'changed' | 'protected' | 'merged' | 'hidden';
export interface Clash {
  readonly row: number;
  readonly column: number;
  /** As a person names it: "I7". */
  readonly address: string;
  readonly why: ClashWhy;
  readonly holds: string;
  /** For a protected cell: what protects it, as the sheet names it: “Prices” (M1:M160). */
  readonly protectedBy?: string;
}

export interface WriteResult {
  readonly written: number;
  readonly clashes: readonly Clash[];
  /** Give it to undo(); null where nothing was written. */
  readonly undoToken: string | null;
}

export type HostErrorCode =
  | 'busy-editing'
  | 'protected'
  | 'not-authorised'
  | 'wrong-account'
  | 'too-large'
  | 'quota'
  | 'gone'
  | 'offline'
  | 'unsupported'
  | 'nothing-selected'
  | 'unknown';

export class HostError extends Error {
  readonly code: HostErrorCode;
  constructor(code: HostErrorCode, help: string) {
    super(help);
    this.name = 'HostError';
    this.code = code;
  }
}

/**
 * user: for this user alone, wherever the host keeps that; never in the document. file: goes with the document to whoever
 * gets it. device: on this device for this user, and there without a connection.
 */
export type SettingScope = 'user' | 'file' | 'device';

/** What an item of the host's own menu asks the panel for. */
export const hostCommands = ['use-selection', 'refresh', 'undo', 'help'] as const;
export type HostCommand = (typeof hostCommands)[number];

export interface OpensWithFile {
  get(): Promise<boolean>;
  set(on: boolean): Promise<void>;
}

export interface SheetHost {
  capabilities(): Promise<Capabilities>;
  /** The selected cells; expand 'table' grows a small selection to the region around it. */
  readSelection(options: { readonly expand: 'none' | 'table'; readonly rowCountMax: number }): Promise<Block>;
  readArea(area: Area): Promise<Block>;
  /** The used area of each sheet. */
  listSheets(): Promise<readonly { readonly name: string; readonly used: Area | null }[]>;
  /** What the write would run into; writes nothing. */
  planWrite(plan: WritePlan): Promise<readonly Clash[]>;
  /** Writes every cell without a clash, and those with one that are named in `over` (by address). Never over a formula unless named. */
  write(plan: WritePlan, over: readonly string[]): Promise<WriteResult>;
  /** A new sheet with these rows; never overwrites one: a taken name gets a number. */
  addSheet(name: string, rows: readonly (readonly (string | number | null)[])[]): Promise<{ readonly name: string }>;
  undo(undoToken: string): Promise<WriteResult>;
  reveal(area: Area): Promise<void>;
  /** Calls back after the user selects something else, if the host pushes it; returns the way to stop. */
  onSelection(listener: (area: Area) => void): () => void;
  /**
   * The table that the first selected cell stands in, read without disturbing who types: null while a cell is being
   * edited. For a look that nobody asked for; left out where the program doesn't tell what is selected.
   */
  readonly glanceAtTable?: (rowCountMax: number) => Promise<Block | null>;
  /** Calls back when the user picks an item of the host's own menu, and at once for one picked just before; returns the way to stop. */
  onCommand(listener: (command: HostCommand) => void): () => void;
  /** Small texts kept apart from the cells. */
  readonly settings: {
    /** Forgets every text of ours that goes with the file. */
    forgetFile(): Promise<void>;
    get(key: string, scope: SettingScope): Promise<string | null>;
    set(key: string, value: string | null, scope: SettingScope): Promise<void>;
  };
  /** Whether the panel opens by itself with this file; left out where the program can't do that. */
  readonly opensWithFile?: OpensWithFile;
  focusSheet(): Promise<void>;
  /** Shows a self-contained page (cut cards) for printing. */
  showPage(title: string, html: string): Promise<void>;
}
