/**
 * What was written down in the shop and has not reached the yard yet, and writes that a person stopped waiting for. Each thing is kept on this device before it is
 * first sent, under the Idempotency-Key that it keeps; things go one after another, in the order they were written, and
 * leave the list only on the yard's word. So a connection that breaks before, during or after the answer loses nothing
 * and does nothing twice.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Problem } from '../../../worker/contract/problem.ts';
import type { RouteName } from '../../../worker/contract/routes.ts';
import type { Answer, Body } from '../../../worker/contract/wire.ts';
import {
  type CallInput,
  type CallResult,
  type LeftWrite,
  type Stop,
  Stopped,
  unlessStopped,
  type YardApi,
} from '../api.ts';
import type { DeviceTexts } from './device-texts.ts';
import { type Trouble, taken } from './task.ts';

/** Writes that may wait: they say what happened in the shop, and stay true however late they arrive. */
export type PatientRoute = 'readMoisture' | 'reconcile' | 'movePieces' | 'writeOffBoard';

export interface Waiting<N extends RouteName = RouteName> {
  /** Idempotency-Key, for as long as it waits. */
  readonly id: string;
  readonly route: N;
  readonly pathId: string;
  /** Values of the path where they are not {id} alone. */
  readonly path?: Readonly<Record<string, string>>;
  /** Version of the thing edited, for If-Match. */
  readonly version?: number;
  readonly body?: Body<N>;
  /** In words: "Reading of WO-14". */
  readonly what: string;
  /** Ids of the boards that it is about. */
  readonly about: readonly string[];
  readonly atMs: number;
  /** The yard said no; it stays until the user has seen it. */
  readonly refused: Problem | null;
}

export type Submission<N extends PatientRoute> = Pick<Waiting<N>, 'route' | 'pathId' | 'body' | 'what' | 'about'>;

export type Submitted<N extends PatientRoute> = CallResult<N> | { readonly ok: false; readonly waits: true };

export interface Outbox {
  /** Oldest first. */
  readonly waiting: ReadonlySignal<readonly Waiting[]>;
  readonly sending: ReadonlySignal<boolean>;
  /** Ids of boards that something waits for on this route and thing. */
  aboutWaiting(route: PatientRoute, pathId: string): ReadonlySet<string>;
  submit<N extends PatientRoute>(thing: Submission<N>, stop?: Stop): Promise<Submitted<N>>;
  /** Keeps a write that goes on although nobody waits for it, until the yard has said what became of it. */
  takeOver<N extends RouteName>(route: N, input: CallInput<N>, left: LeftWrite): void;
  /** Sends what waits, as far as the yard can be reached; answers how many went. */
  send(): Promise<number>;
  /** Sends one anew that was refused or is too old to be sent unasked. */
  sendAgain(id: string): Promise<number>;
  drop(id: string): Promise<void>;
}

/** The yard remembers what it answered for seven days; one that is older might be done twice. */
const UNASKED_MS = 6 * 24 * 3_600_000;
const KEPT_AS = 'outbox';

export const keptHere = 'Kept on this device; it goes to the yard when the yard can be reached.';

export function tooOld(thing: Pick<Waiting, 'atMs'>, nowMs: number): boolean {
  return nowMs - thing.atMs > UNASKED_MS;
}

export interface OutboxDeps {
  readonly api: YardApi;
  readonly texts: DeviceTexts;
  readonly nowMs: () => number;
  readonly newId: () => string;
  /** So many that waited have reached the yard. */
  readonly went: (count: number) => void;
}

export function makeOutbox({ api, texts, nowMs, newId, went: tellWent }: OutboxDeps): Outbox {
  const waiting = signal<readonly Waiting[]>([]);
  const sending = signal(false);
  /** Answers for those who stand and wait for them. */
  const asking = new Map<string, (answer: CallResult<RouteName>) => void>();
  /** Ids of writes that were taken over and whose first answer is still out. */
  const underWay = new Set<string>();
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = turn.then(work, work);
    turn = done.catch(() => undefined);
    return done;
  };

  /** Another sidebar of the same user may have changed the list: each change is made to what is kept now. */
  async function change(next: (now: readonly Waiting[]) => readonly Waiting[]): Promise<void> {
    const list = next(await kept());
    await texts.set(KEPT_AS, list.length === 0 ? null : JSON.stringify(list));
    waiting.value = list;
  }

  async function kept(): Promise<readonly Waiting[]> {
    const text = await texts.get(KEPT_AS);
    if (text === null) return [];
    const list: unknown = JSON.parse(text);
    return Array.isArray(list) ? list : [];
  }

  async function sendAll(): Promise<number> {
    let went = 0;
    sending.value = true;
    try {
      await change((now) => now);
      for (;;) {
        const next = waiting.value.find((thing) => thing.refused === null && !tooOld(thing, nowMs()));
        if (next === undefined || underWay.has(next.id)) return went;
        const result = await sendOne(next);
        const answer = asking.get(next.id);
        if (answer === undefined && undecided(result)) return went;
        if (answer !== undefined && lost(result)) return went;
        if (answer === undefined) await settle(next.id, result);
        else await change((now) => now.filter((thing) => thing.id !== next.id));
        answer?.(result);
        if (result.ok) went += 1;
      }
    } finally {
      sending.value = false;
    }
  }

  /** The yard's word on a thing that nobody stands and waits for: done, or no; a no stays until it was seen. */
  const settle = (id: string, result: CallResult<RouteName>) => {
    const refused = !result.ok && 'problem' in result ? result.problem : null;
    return change((now) =>
      refused === null
        ? now.filter((thing) => thing.id !== id)
        : now.map((thing) => (thing.id === id ? { ...thing, refused } : thing)),
    );
  };

  async function sendAndTell(): Promise<number> {
    const went = await sendAll();
    if (went > 0) tellWent(went);
    return went;
  }

  const sendOne = <N extends RouteName>(thing: Waiting<N>): Promise<CallResult<N>> =>
    api.call(thing.route, {
      path: thing.path ?? { id: thing.pathId },
      ...(thing.body === undefined ? {} : { body: thing.body }),
      ...(thing.version === undefined ? {} : { version: thing.version }),
      intent: thing.id,
    });

  function submitted<N extends PatientRoute>(whole: Waiting<N>, isLeft: () => boolean): Promise<Submitted<N>> {
    return inTurn(async () => {
      try {
        await change((now) => [...now, whole]);
      } catch {
        // No room on this device: then it goes at once or not at all, and the form keeps what was typed.
        return sendOne(whole);
      }
      let answer: CallResult<N> | null = null;
      if (!isLeft()) {
        asking.set(whole.id, (result) => {
          answer = result as CallResult<N>;
        });
      }
      const went = await sendAll().finally(() => asking.delete(whole.id));
      if (isLeft() && went > 0) tellWent(went);
      return answer ?? { ok: false, waits: true };
    });
  }

  /** The answer that was under way when it was taken over; without one it is sent again as the same write. */
  async function followed(id: string, left: LeftWrite): Promise<void> {
    const result = await left.answer.catch((): CallResult<RouteName> => ({ ok: false, offline: true }));
    await inTurn(async () => {
      underWay.delete(id);
      if (undecided(result)) return;
      await settle(id, result);
      if (result.ok) tellWent(1);
    });
  }

  return {
    waiting,
    sending,
    aboutWaiting: (route, pathId) =>
      new Set(
        waiting.value.flatMap((thing) =>
          thing.route === route && thing.pathId === pathId && thing.refused === null ? thing.about : [],
        ),
      ),
    submit(thing, stop) {
      const id = newId();
      let left = false;
      const answer = submitted({ ...thing, id, atMs: nowMs(), refused: null }, () => left);
      if (stop === undefined) return answer;
      return unlessStopped(answer, stop.signal, () => {
        left = true;
        asking.delete(id);
        return new Stopped(null, true);
      });
    },
    takeOver(route, input, left) {
      const { path, version, body, stop } = input;
      const whole: Waiting<typeof route> = {
        id: left.key,
        route,
        pathId: '',
        path: path ?? {},
        ...(body === undefined ? {} : { body }),
        ...(version === undefined ? {} : { version }),
        what: stop?.doing ?? '',
        about: [],
        atMs: nowMs(),
        refused: null,
      };
      const withIt = (now: readonly Waiting[]) => [...now.filter((thing) => thing.id !== whole.id), whole as Waiting];
      underWay.add(whole.id);
      waiting.value = withIt(waiting.value);
      // Without room on this device it is kept as long as the sidebar is open.
      void inTurn(() => change(withIt)).catch(() => undefined);
      void followed(whole.id, left);
    },
    send: () => inTurn(sendAndTell),
    sendAgain: (id) =>
      inTurn(async () => {
        // The yard remembers the refusal under the old key; nothing was done under it.
        await change((now) =>
          now.map((thing) =>
            thing.id === id ? { ...thing, id: thing.refused ? newId() : id, atMs: nowMs(), refused: null } : thing,
          ),
        );
        return sendAndTell();
      }),
    drop: (id) => inTurn(() => change((now) => now.filter((thing) => thing.id !== id))),
  };
}

/** No word from the yard itself: it may have been done or not. */
function lost<N extends RouteName>(result: CallResult<N>): boolean {
  return !result.ok && ('offline' in result || result.problem.status >= 500);
}

/** Nor a word on this thing: the key is not known, or too much was asked at once. */
function undecided<N extends RouteName>(result: CallResult<N>): boolean {
  return lost(result) || (!result.ok && 'problem' in result && [401, 408, 429].includes(result.problem.status));
}

/** As `taken`, for what may be left waiting: that is no trouble either, and is told apart. */
export function takenOrKept<N extends PatientRoute>(
  result: Submitted<N>,
  take: (answer: Answer<N>) => void,
  kept: () => void,
): Trouble | null | Promise<Trouble | null> {
  if (!('waits' in result)) return taken(result, take);
  kept();
  return null;
}

/** A yard whose writes are never lost sight of: one that a person stopped waiting for goes to the outbox. */
export function withLeftWrites(api: YardApi, outbox: Pick<Outbox, 'takeOver'>): YardApi {
  return {
    name: api.name,
    followPlan: (input, onProgress, stop) => api.followPlan(input, onProgress, stop),
    call: (name, input) =>
      api.call(name, input).catch((thrown: unknown) => {
        if (thrown instanceof Stopped && thrown.left !== null) outbox.takeOver(name, input ?? {}, thrown.left);
        throw thrown;
      }),
  };
}
