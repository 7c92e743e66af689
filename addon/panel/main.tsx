/** The sidebar's entry: mounts the panel on a spreadsheet host. The page that mounts it may bring a connected yard of its own. */
import './panel.css';
import { render } from 'preact';
import type { SheetHost } from '../host/host.ts';
import type { YardApi } from './api.ts';
import { pageClient } from './client.ts';
import { type ConnectedTo, type Core, CoreContext } from './panel.ts';
import { fetched } from './parts/later.tsx';
import { Connect } from './screens/connect.tsx';
import { Frame } from './screens/frame.tsx';
import { type Connection, type Connections, makeConnections } from './state/connections.ts';
import { deviceTexts } from './state/device-texts.ts';
import { keepSending, pageSending } from './state/keep-sending.ts';
import { withLastKnown } from './state/last-known.ts';
import { makeOutbox, withLeftWrites } from './state/outbox.ts';
import { makeReach } from './state/reach.ts';
import { makeShell } from './state/shell.ts';
import { makeStock } from './state/stock.ts';
import { unconnected } from './state/unconnected.ts';
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
  if (now.kind !== 'connected') {
    const core = unconnectedCores.get(props.host) ?? makeCore(props, unconnected, connections);
    unconnectedCores.set(props.host, core);
    return (
      <CoreContext.Provider value={core}>
        <Connect connections={connections} />
      </CoreContext.Provider>
    );
  }
  return <Connected {...props} api={now.api} connections={connections} />;
}

const cores = new WeakMap<YardApi, Core>();
/** What a person sees before a yard is connected. */
const unconnectedCores = new WeakMap<SheetHost, Core>();

function Connected(props: RootProps & { readonly api: YardApi; readonly connections: Connections | null }) {
  const core = cores.get(props.api) ?? makeCore(props, props.api, props.connections);
  cores.set(props.api, core);
  return (
    <CoreContext.Provider value={core}>
      {/* Another yard is another panel: nothing of the one before stays in front. */}
      <Frame key={props.api.name} />
    </CoreContext.Provider>
  );
}

function makeCore(props: RootProps, bare: YardApi, connections: Connections | null): Core {
  const { host, connection } = props;
  const shell = makeShell(props.nowMs);
  const reach = makeReach();
  const texts = deviceTexts(host, bare.name);
  const known = withLastKnown(bare, texts, reach, props.nowMs);
  const outbox = makeOutbox({
    api: known,
    texts,
    nowMs: props.nowMs,
    newId: () => crypto.randomUUID(),
    went(sent) {
      shell.changed();
      shell.say(`${count(sent, 'thing')} that waited ${sent === 1 ? 'is' : 'are'} with the yard now.`);
    },
  });
  const api = withLeftWrites(known, outbox);
  keepSending(outbox, reach, shell, pageSending);
  const core: Core = {
    host,
    api,
    shell,
    reach,
    outbox,
    connection,
    yard: makeYardState(api, shell, host),
    stock: makeStock(api, shell, outbox),
    connections,
    async disconnect() {
      await known.forget();
      await connections?.disconnect();
    },
    whole: fetched(async () => (await import('./whole.ts')).makeWhole(core)),
  };
  return core;
}
