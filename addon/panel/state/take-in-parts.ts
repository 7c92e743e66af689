/**
 * A long list of boards goes in part by part, so that no request is larger than the yard takes. A part whose answer was
 * lost is sent again as the same write; what went wrong in the middle leaves the parts before it in, and the next try
 * goes on from there. After a reload of the panel the yard is asked which tags it has, and only the others are sent.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import { limits } from '../../../worker/contract/limits.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { BoardInput } from '../../sheet/read-boards.ts';
import type { ReadRow } from '../../sheet/read-rows.ts';
import type { CallResult, Stop, YardApi } from '../api.ts';
import { type Trouble, taken } from './task.ts';

type Row = ReadRow<BoardInput>;
type Fault = Answer<'takeInBoards'>['faults'][number];

/** Rows of a part: few enough that a slow line gets one through. */
export const PART_ROWS = 500;
/** Rows of one request that is done whole or not at all. */
export const WHOLE_ROWS = limits.boardsPerIntake;
/** Half of what a body may have; boards with long notes and many defects make shorter parts. */
const PART_CHARS = 1_000_000;

export interface Progress {
  readonly done: number;
  readonly of: number;
}

export interface PartsTaken {
  readonly count: number;
  /** With the row that the yard found fault with. */
  readonly faults: readonly { readonly row: Row | null; readonly fault: Fault }[];
}

/** Some of the rows each, in their order. */
export function partsOf(rows: readonly Row[], mostRows: number): readonly (readonly Row[])[] {
  const parts: Row[][] = [];
  let chars = Number.POSITIVE_INFINITY;
  for (const row of rows) {
    const length = JSON.stringify(row.draft).length + 1;
    const part = parts.at(-1);
    if (part && part.length < mostRows && chars + length <= PART_CHARS) {
      part.push(row);
      chars += length;
    } else {
      parts.push([row]);
      chars = length;
    }
  }
  return parts;
}

export interface TakingIn {
  /** How far it is; null before and after, and for what goes in at once. */
  readonly progress: ReadonlySignal<Progress | null>;
  /** Sends what is left of these rows; null when all went through, and then done() is told what came of it. */
  send(
    rows: readonly Row[],
    allOrNothing: boolean,
    stop: Stop,
    done: (taken: PartsTaken) => void,
  ): Promise<Trouble | null>;
  startOver(): void;
}

interface Open {
  readonly rows: readonly Row[];
  readonly parts: readonly (readonly Row[])[];
  next: number;
  taken: PartsTaken;
}

/** A part of which no row can be taken is refused as a whole; of a longer list it is a part like any other. */
function faultsOfAll(result: CallResult<'takeInBoards'>, rows: number): readonly Fault[] | null {
  if (result.ok || 'offline' in result) return null;
  const faults = result.problem.faults ?? [];
  return new Set(faults.map(({ row }) => row)).size === rows ? faults : null;
}

export function makeTakingIn(api: Pick<YardApi, 'call'>): TakingIn {
  const progress = signal<Progress | null>(null);
  let open: Open | null = null;

  function show(now: Open): void {
    const done = now.parts.slice(0, now.next).reduce((sum, part) => sum + part.length, 0);
    progress.value = now.parts.length > 1 ? { done, of: now.rows.length } : null;
  }

  function startOver(): void {
    open = null;
    progress.value = null;
  }

  return {
    progress,
    startOver,
    async send(rows, allOrNothing, stop, done) {
      const parts = partsOf(rows, allOrNothing ? WHOLE_ROWS : PART_ROWS);
      if (allOrNothing && parts.length > 1) {
        const help = `All or nothing goes for ${WHOLE_ROWS.toLocaleString('en-US')} rows at once. Select fewer rows, or leave out those that cannot be read.`;
        return { kind: 'told', help };
      }
      if (open?.rows !== rows) open = { rows, parts, next: 0, taken: { count: 0, faults: [] } };
      const now = open;
      show(now);
      for (let part = now.parts[now.next]; part; part = now.parts[now.next]) {
        const sent = part;
        const body = { boards: sent.map(({ draft }) => draft), allOrNothing };
        const result = await api.call('takeInBoards', { stop, body }).catch((thrown: unknown) => {
          // Stopped: whether this part is in is not known, so the next try begins from what the yard has.
          startOver();
          throw thrown;
        });
        // Another list was begun meanwhile: this one is nobody's any more.
        if (open !== now) return null;
        const settle = (count: number, found: readonly Fault[]) => {
          const faults = found.map((fault) => ({ row: sent[fault.row ?? -1] ?? null, fault }));
          now.taken = { count: now.taken.count + count, faults: [...now.taken.faults, ...faults] };
          now.next += 1;
          show(now);
        };
        const noRow = now.parts.length > 1 ? faultsOfAll(result, sent.length) : null;
        const trouble = noRow
          ? settle(0, noRow)
          : await taken(result, (answer) => settle(answer.taken.length, answer.faults));
        if (trouble) return trouble;
      }
      const all = now.taken;
      startOver();
      done(all);
      return null;
    },
  };
}
