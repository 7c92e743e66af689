/** The panel's way to the yard: one call by route name, typed by the contract. Made by client.ts; a test makes its own. */
import type { PlanProgress } from '../../worker/contract/plan.ts';
import type { Problem } from '../../worker/contract/problem.ts';
import type { RouteName } from '../../worker/contract/routes.ts';
import type { Answer, Body, Query } from '../../worker/contract/wire.ts';

export interface CallInput<N extends RouteName> {
  /** Values for {id} or {seq} in the path. */
  readonly path?: Readonly<Record<string, string>>;
  readonly query?: Query<N>;
  readonly body?: Body<N>;
  /** A yard's file, for the route that takes one. */
  readonly file?: string;
  /** Version of the thing edited, for If-Match. */
  readonly version?: number;
  /** Idempotency-Key of a write that keeps one of its own over reloads; else the client takes one. */
  readonly intent?: string;
  /** The way for a person to stop waiting; then the call rejects with {@link Stopped}. */
  readonly stop?: Stop;
}

export interface Stop {
  readonly signal: AbortSignal;
  /** What is being done, in words: "Holding the boards". */
  readonly doing: string;
}

/** A person stopped waiting. A question is broken off; a write goes on by itself, since it may have arrived already. */
export class Stopped extends Error {
  /** The write that goes on; null for a question, or where what goes on is kept somewhere already. */
  readonly left: LeftWrite | null;
  /** Something goes on. */
  readonly goesOn: boolean;
  constructor(left: LeftWrite | null, goesOn = left !== null) {
    super('stopped');
    this.name = 'Stopped';
    this.left = left;
    this.goesOn = goesOn;
  }
}

export interface LeftWrite {
  /** Its Idempotency-Key. */
  readonly key: string;
  readonly answer: Promise<CallResult<RouteName>>;
}

/** The answer, unless a person stops waiting for it first. */
export function unlessStopped<T>(answer: Promise<T>, signal: AbortSignal, stopped: () => Stopped): Promise<T> {
  return new Promise((resolve, reject) => {
    const leave = () => reject(stopped());
    signal.addEventListener('abort', leave, { once: true });
    answer.then(resolve, reject).finally(() => signal.removeEventListener('abort', leave));
  });
}

export type CallResult<N extends RouteName> =
  | { readonly ok: true; readonly answer: Answer<N> }
  | { readonly ok: false; readonly problem: Problem }
  | { readonly ok: false; readonly offline: true };

export interface YardApi {
  /** Yard and key without the key's secret: what is kept for them on this device bears it. */
  readonly name: string;
  call<N extends RouteName>(name: N, input?: CallInput<N>): Promise<CallResult<N>>;
  /** Plans like `call`, told the best so far as it grows; null when it was stopped. */
  followPlan(
    input: CallInput<'planJob'>,
    onProgress: (progress: PlanProgress) => void,
    stop: AbortSignal,
  ): Promise<CallResult<'planJob'> | null>;
}
