/** The sidebar's entry: mounts the panel on a spreadsheet host. The page that mounts it may bring a connected yard of its own. */
import './panel.css';
import { render } from 'preact';
import type { SheetHost } from '../host/host.ts';
import type { YardApi } from './api.ts';
import { pageClient } from './client.ts';
import { type ConnectedTo, type Panel, PanelContext } from './panel.ts';
import { Connect } from './screens/connect.tsx';
import { Frame } from './screens/frame.tsx';
import { makeBoardRows } from './state/board-rows.ts';
import { type Connection, type Connections, makeConnections } from './state/connections.ts';
import { makeCutList } from './state/cut-list.ts';
import { makeCuts } from './state/cuts.ts';
import { deviceTexts } from './state/device-texts.ts';
import { makeDrying } from './state/drying.ts';
import { makeHeld } from './state/held.ts';
import { makeJobState } from './state/job.ts';
import { makeJournal } from './state/journal.ts';
import { keepSending, pageSending } from './state/keep-sending.ts';
import { withLastKnown } from './state/last-known.ts';
import { makeOffcuts } from './state/offcuts.ts';
import { makeOutbox } from './state/outbox.ts';
import { makeReach } from './state/reach.ts';
import { makeSheetStatus } from './state/sheet-status.ts';
import { makeShell } from './state/shell.ts';
import { makeStock } from './state/stock.ts';
import { makeWriteBack } from './state/write-back.ts';
import { makeYardState } from './state/yard.ts';
import { count } from './words/measure.ts';

export interface PanelDeps {
  readonly host: SheetHost;
  /** A yard that the page is connected to already (the bench). null: the panel asks for address and key, and keeps them for the user. */
  readonly api: YardApi | null;
  /** Where that yard answers, for the Shop tab; null where the panel asked for it itself. */
  readonly connection?: ConnectedTo | null;
  readonly nowMs?: () => number;
}

/** Draws the panel into root at once, before the host or the yard has answered; gives back the way to take it down. */
export function mountPanel(root: HTMLElement, deps: PanelDeps): () => void {
  const nowMs = deps.nowMs ?? (() => Date.now());
  root.classList.add('heartside-root');
  render(<Root host={deps.host} api={deps.api} connection={deps.connection ?? null} nowMs={nowMs} />, root);
  return () => render(null, root);
}

interface RootProps {
  readonly host: SheetHost;
  readonly api: YardApi | null;
  readonly connection: ConnectedTo | null;
  readonly nowMs: () => number;
}

function Root(props: RootProps) {
  if (props.api !== null) return <Connected {...props} api={props.api} connections={null} />;
  return <Asking {...props} />;
}

const connectionsOf = new WeakMap<SheetHost, ReturnType<typeof makeConnections>>();

function Asking(props: RootProps) {
  const connections = connectionsOf.get(props.host) ?? makeConnections(props.host, pageClient);
  connectionsOf.set(props.host, connections);
  const now: Connection = connections.now.value;
  if (now.kind !== 'connected') return <Connect connections={connections} />;
  return <Connected {...props} api={now.api} connections={connections} />;
}

const panels = new WeakMap<YardApi, Panel>();

function Connected(props: RootProps & { readonly api: YardApi; readonly connections: Connections | null }) {
  const panel = panels.get(props.api) ?? makePanel(props, props.api, props.connections);
  panels.set(props.api, panel);
  return (
    <PanelContext.Provider value={panel}>
      {/* Another yard is another panel: nothing of the one before stays in front. */}
      <Frame key={props.api.name} />
    </PanelContext.Provider>
  );
}

function makePanel(props: RootProps, bare: YardApi, connections: Connections | null): Panel {
  const { host, connection } = props;
  const shell = makeShell(props.nowMs);
  const reach = makeReach();
  const texts = deviceTexts(host, bare.name);
  const api = withLastKnown(bare, texts, reach, props.nowMs);
  const outbox = makeOutbox({
    api,
    texts,
    nowMs: props.nowMs,
    newId: () => crypto.randomUUID(),
    went(sent) {
      shell.changed();
      shell.say(`${count(sent, 'thing')} that waited ${sent === 1 ? 'is' : 'are'} with the yard now.`);
    },
  });
  keepSending(outbox, reach, shell, pageSending);
  const writeBack = makeWriteBack(host, shell);
  const job = makeJobState(api, shell, outbox);
  const boardRows = makeBoardRows(api, host, shell, writeBack);
  const cutList = makeCutList(api, host, shell, job, writeBack, () => Math.random());
  return {
    host,
    api,
    shell,
    reach,
    outbox,
    connection,
    yard: makeYardState(api, shell, host),
    stock: makeStock(api, shell, outbox),
    boardRows,
    job,
    cutList,
    sheetStatus: makeSheetStatus(host, writeBack, boardRows, cutList),
    cuts: makeCuts(api, host, shell, outbox),
    held: makeHeld(api, shell),
    offcuts: makeOffcuts(api, shell),
    drying: makeDrying(api, shell),
    journal: makeJournal(api, shell),
    writeBack,
    connections,
    async disconnect() {
      await api.forget();
      await connections?.disconnect();
    },
  };
}
