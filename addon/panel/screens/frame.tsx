/** The panel's frame: the yard's name, the tabs, the screen in front, and the one line that speaks. */
import { useRef } from 'preact/hooks';
import { contractVersion } from '../../../worker/contract/routes.ts';
import { PanelContext, useCore } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { type Later, LaterScreen, later } from '../parts/later.tsx';
import { useKeptFocus } from '../parts/use-kept-focus.ts';
import { useOnce } from '../parts/use-once.ts';
import { useReload } from '../parts/use-reload.ts';
import { type Tab, tabs } from '../state/shell.ts';
import { momentText } from '../words/measure.ts';
import { PendingNote } from './pending.tsx';
import { fetchStock, Stock } from './stock.tsx';
import { WithWhole } from './with-whole.tsx';

/** Stock is there at once; the rest is fetched behind it. */
const rest: Record<Exclude<Tab, 'Stock'>, Later> = {
  Job: later(async () => (await import('./job.tsx')).Job),
  Cuts: later(async () => (await import('./cuts.tsx')).Cuts),
  Held: later(async () => (await import('./held.tsx')).Held),
  Offcuts: later(async () => (await import('./offcuts.tsx')).Offcuts),
  Drying: later(async () => (await import('./drying.tsx')).Drying),
  Wood: later(async () => (await import('./wood.tsx')).Wood),
  Journal: later(async () => (await import('./journal.tsx')).Journal),
  Shop: later(async () => (await import('./shop.tsx')).Shop),
  Help: later(async () => (await import('./help.tsx')).Help),
};

const foot = later(async () => (await import('./foot.tsx')).Foot);

const fetchTheRest = () => {
  for (const screen of [foot, ...Object.values(rest)]) screen.fetch();
  fetchStock();
};

function Screen(props: { readonly tab: Tab }) {
  const { tab } = props;
  if (tab === 'Stock') return <Stock />;
  return (
    <WithWhole>
      <LaterScreen key={tab} of={rest[tab]} />
    </WithWhole>
  );
}

export function Frame() {
  const { shell, yard, whole } = useCore();
  const root = useRef<HTMLDivElement>(null);
  useReload(() => yard.load());
  useOnce(() => {
    whole.fetch();
    fetchTheRest();
  });
  useKeptFocus(root);
  const tab = shell.tab.value;
  return (
    <div class="heartside" ref={root}>
      <header class="top">
        <h1>{yard.facts.value?.name ?? 'Heartside'}</h1>
        <Reached />
        <OtherVersion />
        <PendingNote />
      </header>
      <TabBar />
      <div class="screen" id="screen" role="tabpanel" aria-labelledby={`tab-${tab}`} tabIndex={-1}>
        <Screen tab={tab} />
      </div>
      <div class="foot">
        <SheetFoot />
        <p class="said" role="status" aria-live="polite">
          {shell.said.value}
        </p>
      </div>
    </div>
  );
}

/** What stands below every screen once it is there; nothing waits for it. */
function SheetFoot() {
  const panel = useCore().whole.loaded.value;
  const Foot = foot.loaded.value?.Screen;
  if (panel === null || Foot === undefined) return null;
  return (
    <PanelContext.Provider value={panel}>
      <Foot />
    </PanelContext.Provider>
  );
}

/** Shown only when the yard cannot be reached: how old the figures are, and the way to try again. */
function Reached() {
  const { shell, yard, reach } = useCore();
  const unreached = reach.unreached.value;
  const trouble = yard.task.trouble.value ?? (unreached === null ? null : ({ kind: 'offline' } as const));
  if (trouble === null) return null;
  const readAt = unreached?.asOfMs ?? null;
  const wrongKey = trouble.kind === 'problem' && trouble.problem.status === 401;
  return (
    <div class="banner" role="alert">
      <p>
        {wrongKey
          ? 'The yard does not know this key. Ask its owner for another.'
          : trouble.kind === 'offline'
            ? 'The yard cannot be reached.'
            : trouble.kind === 'problem'
              ? trouble.problem.title
              : trouble.help}
        {readAt === null ? null : <> What you see is from {momentText(readAt, shell.today())}.</>}
      </p>
      <Button kind="plain" onPress={() => void yard.load()}>
        Try again
      </Button>
    </div>
  );
}

/** The yard speaks a newer or an older contract than this sidebar was made for. */
function OtherVersion() {
  const theirs = useCore().yard.facts.value?.contract;
  if (theirs === undefined || theirs === contractVersion) return null;
  return (
    <div class="banner" role="status">
      <p>
        {theirs > contractVersion
          ? 'The yard is newer than this sidebar. Close the sidebar and open it again; in Google Sheets and Excel the add-in may need its new files.'
          : 'This sidebar is newer than the yard. Some of it may not work until the yard is brought up to date.'}
      </p>
    </div>
  );
}

function TabBar() {
  const { shell } = useCore();
  const bar = useRef<HTMLDivElement>(null);
  const now = shell.tab.value;
  const go = (to: number) => {
    const tab = tabs[(to + tabs.length) % tabs.length];
    if (tab === undefined) return;
    shell.tab.value = tab;
    bar.current?.querySelector<HTMLButtonElement>(`#tab-${tab}`)?.focus();
  };
  return (
    <div
      class="tabs"
      role="tablist"
      aria-label="Parts of the shop"
      ref={bar}
      onKeyDown={(event) => {
        const at = tabs.indexOf(now);
        const to = { ArrowRight: at + 1, ArrowLeft: at - 1, ArrowDown: at + 5, ArrowUp: at - 5, Home: 0, End: -1 }[
          event.key
        ];
        if (to === undefined) return;
        event.preventDefault();
        go(to);
      }}
    >
      {tabs.map((tab) => (
        <button
          key={tab}
          id={`tab-${tab}`}
          type="button"
          role="tab"
          aria-selected={tab === now}
          aria-controls="screen"
          tabIndex={tab === now ? 0 : -1}
          onClick={() => shell.pressTab(tab)}
        >
          {tab}
        </button>
      ))}
    </div>
  );
}
