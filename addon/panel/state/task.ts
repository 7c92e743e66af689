/**
 * One thing under way: its words while it runs, and what went wrong. Nothing is shown for the first 400 ms, because a
 * flash of "Loading" is worse than none; a later run makes the answers of the earlier ones worthless.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Problem } from '../../../worker/contract/problem.ts';
import type { RouteName } from '../../../worker/contract/routes.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import { HostError, type HostErrorCode } from '../../host/host.ts';
import { type CallResult, type Stop, Stopped } from '../api.ts';

export type Trouble =
  | { readonly kind: 'problem'; readonly problem: Problem }
  | { readonly kind: 'offline' }
  | { readonly kind: 'host'; readonly code: HostErrorCode; readonly help: string }
  /** A sentence of the panel's own: what is missing before this can be done. */
  | { readonly kind: 'told'; readonly help: string };

export interface Task {
  /** Under way, from the first moment: buttons are off. */
  readonly busy: ReadonlySignal<boolean>;
  /** It runs for so long that a person may want to stop waiting. */
  readonly stoppable: ReadonlySignal<boolean>;
  /** Waits no longer: questions to the yard are broken off, a write that is on its way goes on by itself. */
  stop(): void;
  /** What to say while it runs; null before 400 ms and when idle. */
  readonly saying: ReadonlySignal<string | null>;
  readonly trouble: ReadonlySignal<Trouble | null>;
  /** Runs the work, which hands `stop` on to its calls; answers whether it went through. */
  run(saying: string, work: (stop: Stop) => Promise<Trouble | null>): Promise<boolean>;
  /** Does the last run again, after trouble. */
  again(): Promise<boolean>;
  clear(): void;
}

const SAY_AFTER_MS = 400;
const STOPPABLE_AFTER_MS = 5_000;

const STOPPED: Trouble = {
  kind: 'told',
  help: 'You stopped waiting. What was on its way may still arrive; look before you do it again. Doing it again is safe: nothing is done twice.',
};
const BROKEN_OFF: Trouble = { kind: 'told', help: 'You stopped it. Nothing more of it is on its way.' };
const GOES_ON: Trouble = {
  kind: 'told',
  help: 'You stopped waiting. It may have reached the yard or not. Until the yard says which, it stands at the top among what is not with the yard yet; it is never done twice.',
};

/** The last troubles of this sidebar, for whoever has to find out why. Words and numbers of ours, never what cells hold. */
export interface PastTrouble {
  readonly atMs: number;
  readonly doing: string;
  readonly what: string;
}
const pastTroubles: PastTrouble[] = [];
const PAST_KEPT = 20;
export const troublesSoFar = (): readonly PastTrouble[] => pastTroubles;

function note(doing: string, trouble: Trouble): void {
  if (trouble.kind === 'told') return;
  const what =
    trouble.kind === 'problem'
      ? `${problemName(trouble.problem)} ${trouble.problem.status} ${trouble.problem.instance}`
      : trouble.kind === 'host'
        ? `host: ${trouble.code}`
        : trouble.kind;
  pastTroubles.push({ atMs: Date.now(), doing, what });
  if (pastTroubles.length > PAST_KEPT) pastTroubles.shift();
}

export function makeTask(): Task {
  const busy = signal(false);
  const saying = signal<string | null>(null);
  const trouble = signal<Trouble | null>(null);
  const stoppable = signal(false);
  let turn = 0;
  let last: (() => Promise<boolean>) | null = null;
  let running = new AbortController();

  async function run(words: string, work: (stop: Stop) => Promise<Trouble | null>): Promise<boolean> {
    turn += 1;
    const mine = turn;
    const stopping = new AbortController();
    const { signal } = stopping;
    running = stopping;
    last = () => run(words, work);
    busy.value = true;
    stoppable.value = false;
    trouble.value = null;
    const timer = setTimeout(() => {
      if (mine === turn) saying.value = words;
    }, SAY_AFTER_MS);
    const long = setTimeout(() => {
      if (mine === turn) stoppable.value = true;
    }, STOPPABLE_AFTER_MS);
    const found = await work({ signal, doing: words }).catch((thrown: unknown) => {
      return thrown instanceof Stopped ? (thrown.goesOn ? GOES_ON : BROKEN_OFF) : troubleOf(thrown);
    });
    clearTimeout(timer);
    clearTimeout(long);
    if (found !== null) note(words, found);
    if (trouble.value === STOPPED && signal.aborted && (found === GOES_ON || found === BROKEN_OFF))
      trouble.value = found;
    if (mine !== turn) return false;
    rest(found);
    return found === null;
  }

  function rest(found: Trouble | null): void {
    busy.value = false;
    stoppable.value = false;
    saying.value = null;
    trouble.value = found;
  }

  return {
    busy,
    saying,
    trouble,
    stoppable,
    stop() {
      if (!busy.value) return;
      turn += 1;
      rest(STOPPED);
      running.abort();
    },
    run,
    again: () => last?.() ?? Promise.resolve(false),
    clear: () => {
      trouble.value = null;
    },
  };
}

/** Takes a call's answer where it went through; otherwise gives the trouble. */
export function taken<N extends RouteName>(
  result: CallResult<N>,
  take: (answer: Answer<N>) => void | Promise<void>,
): Trouble | null | Promise<Trouble | null> {
  if (!result.ok) return 'offline' in result ? { kind: 'offline' } : { kind: 'problem', problem: result.problem };
  const done = take(result.answer);
  return done instanceof Promise ? done.then(() => null) : null;
}

/** The host's own refusals keep their words; anything else is a fault of ours and says so. */
export function troubleOf(thrown: unknown): Trouble {
  if (thrown instanceof HostError) return { kind: 'host', code: thrown.code, help: thrown.message };
  if (typeof console !== 'undefined') console.error(thrown);
  return {
    kind: 'host',
    code: 'unknown',
    help: 'Something went wrong in the sidebar itself. Nothing was changed in the yard. Reload it and try again.',
  };
}

/** Somebody changed it since it was shown here: what is shown is to be read again. */
export function isStale(trouble: Trouble | null): boolean {
  return trouble?.kind === 'problem' && problemName(trouble.problem) === 'version-stale';
}

/** The short name of a problem: "board-held" of "/problems/board-held". */
export function problemName(problem: Problem): string {
  return problem.type.split('/').at(-1) ?? '';
}
