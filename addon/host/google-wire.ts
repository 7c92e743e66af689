/**
 * What crosses between the sidebar and the script of the Google file: one JSON text each way, because the bridge drops
 * dates and what is undefined. Calls may answer out of order, so each carries its number.
 */
import type { WriteJournal } from './guarded-write.ts';
import type { Area, Block, Clash, HostErrorCode, SettingScope, SheetHost, WritePlan } from './host.ts';

/** A block before the sidebar adds what it can work out itself. */
export type ReadBlock = Omit<Block, 'locale' | 'revision'> & {
  /** As Google writes it: "de_DE". */
  readonly localeTag: string;
};

/** A write, with the journal that the sidebar keeps: the script forgets everything between two calls. */
export interface WriteAnswer {
  readonly written: number;
  readonly clashes: readonly Clash[];
  readonly journal: WriteJournal;
}

/** Under this name the script keeps, for the user, which item of the menu was picked, until the sidebar has read it. */
export const PICKED_KEPT_AS = 'menu-picked';

/** What the device keeps never comes to Google. */
export type ScriptScope = Exclude<SettingScope, 'device'>;

export interface ScriptCalls {
  readSelection(expand: 'none' | 'table', rowCountMax: number): ReadBlock;
  readArea(area: Area): ReadBlock;
  selected(): Area | null;
  listSheets(): Awaited<ReturnType<SheetHost['listSheets']>>;
  planWrite(plan: WritePlan): readonly Clash[];
  write(plan: WritePlan, over: readonly string[]): WriteAnswer;
  undo(journal: WriteJournal): WriteAnswer;
  addSheet(name: string, rows: readonly (readonly (string | number | null)[])[]): { readonly name: string };
  reveal(area: Area): null;
  getSetting(key: string, scope: ScriptScope): string | null;
  setSetting(key: string, value: string | null, scope: ScriptScope): null;
  showPage(title: string, html: string): null;
  /** The item of the menu that this sidebar was opened by; null when it was opened plainly, or asked before. */
  picked(): string | null;
  forgetFile(): null;
}

export type CallName = keyof ScriptCalls;

export interface Request<N extends CallName = CallName> {
  readonly seq: number;
  readonly call: N;
  readonly given: Parameters<ScriptCalls[N]>;
}

export type Reply =
  | { readonly seq: number; readonly ok: true; readonly value: unknown }
  | { readonly seq: number; readonly ok: false; readonly code: HostErrorCode; readonly help: string };
