/** The panel's frame: the yard's name, the tabs, the screen in front, and the one line that speaks. */
import { useRef } from 'preact/hooks';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { type Later, LaterScreen, later } from '../parts/later.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useKeptFocus } from '../parts/use-kept-focus.ts';
import { useOnce } from '../parts/use-once.ts';
import { useReload } from '../parts/use-reload.ts';
import { type Tab, tabs } from '../state/shell.ts';
import { count, momentText } from '../words/measure.ts';
import { PendingNote } from './pending.tsx';
import { Stock } from './stock.tsx';
import { WriteBackNote } from './write-back.tsx';

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
};

const fetchTheRest = () => {
  for (const screen of Object.values(rest)) screen.fetch();
};

const Screen = ({ tab }: { readonly tab: Tab }) =>
  tab === 'Stock' ? <Stock /> : <LaterScreen key={tab} of={rest[tab]} />;

export function Frame() {
  const { shell, yard, sheetStatus } = usePanel();
  const root = useRef<HTMLDivElement>(null);
  useReload(() => yard.load());
  useOnce(fetchTheRest);
  useOnce(() => void sheetStatus.look());
  useKeptFocus(root);
  const tab = shell.tab.value;
  return (
    <div class="heartside" ref={root}>
      <header class="top">
        <h1>{yard.facts.value?.name ?? 'Heartside'}</h1>
        <Reached />
        <PendingNote />
      </header>
      <TabBar />
      <div class="screen" id="screen" role="tabpanel" aria-labelledby={`tab-${tab}`} tabIndex={-1}>
        <Screen tab={tab} />
      </div>
      <div class="foot">
        <StaleNote />
        <WriteBackNote />
        <p class="said" role="status" aria-live="polite">
          {shell.said.value}
        </p>
      </div>
    </div>
  );
}

/** Shown only when the yard cannot be reached: how old the figures are, and the way to try again. */
function Reached() {
  const { shell, yard, reach } = usePanel();
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

/** The sheet in front shows an older state than the yard has. */
function StaleNote() {
  const { sheetStatus } = usePanel();
  const stale = sheetStatus.stale.value;
  if (stale === null) return null;
  return (
    <aside class="write-back" aria-label="Status in the sheet">
      <div class="row spread">
        <span>
          {count(stale.cells, 'cell')} on “{stale.sheet}” {stale.cells === 1 ? 'is' : 'are'} behind the yard.
        </span>
        <Button kind="quiet" task={sheetStatus.task} onPress={() => void sheetStatus.refresh()}>
          Show and refresh
        </Button>
      </div>
      <TaskStatus task={sheetStatus.task} />
    </aside>
  );
}

function TabBar() {
  const { shell } = usePanel();
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
          onClick={() => {
            shell.tab.value = tab;
          }}
        >
          {tab}
        </button>
      ))}
    </div>
  );
}
