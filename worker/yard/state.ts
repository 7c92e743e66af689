/**
 * The things a yard holds and the small port through which they are read and written. The rules read through
 * YardReader only, so the same rules run on maps in memory and on SQL.
 */
import type { Board } from '../contract/board.ts';
import type { Job, PartWithPieces } from '../contract/job.ts';
import type { EntityKind, Movement } from '../contract/movement.ts';
import type { Plan } from '../contract/plan.ts';
import type { Reservation, Session } from '../contract/session.ts';
import { type Settings, settings as settingsSchema } from '../contract/settings.ts';

/** There is one: its id is YARD. */
export interface YardRecord {
  readonly yardId: string;
  readonly name: string;
  readonly settings: Settings;
  readonly version: number;
}
export const YARD = 'yard';

/** A row of a cut list with its pieces. place is its row in the list, from 0. */
export type StoredPart = PartWithPieces & { readonly jobId: string; readonly place: number };

export interface Entities {
  readonly settings: YardRecord;
  readonly board: Board;
  readonly job: Job;
  readonly part: StoredPart;
  readonly plan: Plan;
  readonly reservation: Reservation;
  readonly session: Session;
}
export type Entity<K extends EntityKind = EntityKind> = Entities[K];

export function partId(jobId: string, key: string): string {
  return `${jobId}/${key}`;
}

/** A plan without its layouts, which are long. */
export type PlanHead = Pick<Plan, 'id' | 'jobId' | 'jobRevision' | 'state'>;

export interface YardReader {
  /** Seq of the last movement; 0 before the yard was founded. */
  seq(): number;
  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null;
  /** Every board that bears or bore this tag, compared without case. */
  boardsByTag(tag: string): readonly Board[];
  /** In the order of the cut list. */
  partsOfJob(jobId: string): readonly StoredPart[];
  plansOfJob(jobId: string): readonly PlanHead[];
  /** By place along the board. */
  reservationsOnBoard(boardId: string): readonly Reservation[];
  /** Those of the board that have some of this run, by place along it; runs that only touch have none. */
  reservationsAcross(boardId: string, fromNm: number, toNm: number): readonly Reservation[];
  reservationsOfJob(jobId: string): readonly Reservation[];
  reservationsOfPlan(planId: string): readonly Reservation[];
  sessionsOfPlan(planId: string): readonly Session[];
  sessionsOfJob(jobId: string): readonly Session[];
}

/** What undo asks of the journal. */
export interface JournalReader {
  movement(seq: number): Movement | null;
  /** The last movement before this seq that touched the thing; null for none. */
  touchBefore(kind: EntityKind, id: string, seq: number): number | null;
  /** The last movement that undoes this one; null for none. */
  undoOf(seq: number): number | null;
}

/** All that deciding may see: it reads, and changes nothing. */
export interface Known extends YardReader, JournalReader {}

export interface YardState extends Known {
  /** A thing that is new; throws when one of this kind has its id already. */
  add<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void;
  put<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void;
  remove(kind: EntityKind, id: string): void;
  append(movement: Movement): void;
}

export function yardRecord(state: YardReader): YardRecord {
  const record = state.get('settings', YARD);
  if (!record) throw new Error('this yard was never founded');
  return record;
}

/** By the record that they were read from, which a state gives again as long as it is the same. */
const settingsRead = new WeakMap<object, Settings>();

/** The shop's figures; one that was not there yet when they were written takes its default. */
export function yardSettings(state: YardReader): Settings {
  const written = yardRecord(state).settings;
  const known = settingsRead.get(written);
  if (known) return known;
  const settings = settingsSchema.parse(written);
  settingsRead.set(written, settings);
  return settings;
}

/** The board in stock that bears this tag. */
export function liveBoardByTag(state: YardReader, tag: string): Board | null {
  return state.boardsByTag(tag).find((board) => board.state === 'in-stock') ?? null;
}
