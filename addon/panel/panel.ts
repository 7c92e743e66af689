/**
 * Everything that a screen may reach for, made once a panel and handed down by context. What the panel opens with is the
 * core; the rest, which reads sheets and works on jobs, is fetched behind it.
 */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { SheetHost } from '../host/host.ts';
import type { YardApi } from './api.ts';
import type { Fetched } from './parts/later.tsx';
import type { BoardRows } from './state/board-rows.ts';
import type { Connections } from './state/connections.ts';
import type { CutListState } from './state/cut-list.ts';
import type { CutsState } from './state/cuts.ts';
import type { DryingState } from './state/drying.ts';
import type { HeldState } from './state/held.ts';
import type { JobState } from './state/job.ts';
import type { JournalState } from './state/journal.ts';
import type { OffcutsState } from './state/offcuts.ts';
import type { Outbox } from './state/outbox.ts';
import type { Reach } from './state/reach.ts';
import type { SelectedRows } from './state/selected-rows.ts';
import type { SheetStatus } from './state/sheet-status.ts';
import type { Shell } from './state/shell.ts';
import type { StockState } from './state/stock.ts';
import type { WriteBack } from './state/write-back.ts';
import type { YardState } from './state/yard.ts';

export interface Core {
  readonly host: SheetHost;
  readonly api: YardApi;
  readonly shell: Shell;
  readonly reach: Reach;
  readonly outbox: Outbox;
  readonly yard: YardState;
  readonly stock: StockState;
  /** Where the yard answers, where the page brought the connection. */
  readonly connection: ConnectedTo | null;
  /** The yards of this user; null where the page holds the connection (the bench). */
  readonly connections: Connections | null;
  /** Forgets the yard in front, its key and what this device last knew of it. */
  disconnect(): Promise<void>;
  /** This and everything else, once it is fetched. */
  readonly whole: Fetched<Panel>;
}

export interface Panel extends Core {
  readonly boardRows: BoardRows;
  readonly job: JobState;
  readonly cutList: CutListState;
  readonly cuts: CutsState;
  readonly held: HeldState;
  readonly offcuts: OffcutsState;
  readonly drying: DryingState;
  readonly journal: JournalState;
  readonly writeBack: WriteBack;
  readonly sheetStatus: SheetStatus;
  readonly selectedRows: SelectedRows;
}

export interface ConnectedTo {
  readonly address: string;
  readonly yardName: string;
}

export const CoreContext = createContext<Core | null>(null);
export const PanelContext = createContext<Panel | null>(null);

/** For what the panel opens with. */
export function useCore(): Core {
  const core = useContext(CoreContext);
  if (core === null) throw new Error('a screen stands outside the panel');
  return core;
}

/** For the screens that are fetched. */
export function usePanel(): Panel {
  const panel = useContext(PanelContext);
  if (panel === null) throw new Error('a screen stands outside the panel');
  return panel;
}
