/**
 * What a yard can be told and asked: the one language between the HTTP side and the Yard object. Everything here is
 * plain data. Ids, the time and the actor come from outside, so that deciding stays pure.
 */
import type { Restored } from '../contract/archive.ts';
import type { Board, BoardDraft, BoardPatch, BoardView, Reading } from '../contract/board.ts';
import type { DoctorPage } from '../contract/doctor.ts';
import type { JobDraft, JobPatch, JobView, JobWithParts, Part, PieceStep } from '../contract/job.ts';
import type { Feed, KeyView } from '../contract/key.ts';
import type { Movement, MovementView } from '../contract/movement.ts';
import type { Plan, PlanBody } from '../contract/plan.ts';
import type { Conflict, Fault, ProblemName } from '../contract/problem.ts';
import type { Scope } from '../contract/routes.ts';
import type {
  BoardOutcome,
  OffcutMade,
  Reservation,
  ReservationView,
  Session,
  WoodBalance,
} from '../contract/session.ts';
import type { Settings } from '../contract/settings.ts';

export interface BoardRow {
  /** Index of the row in the request, so that faults can name it. */
  readonly row: number;
  readonly draft: BoardDraft;
  /** An offcut of a board that never was in the yard; left out for one that was received whole. */
  readonly isOffcut?: boolean;
}

/** ifVersion: the version that the caller read of what is changed; left out or null, whatever it is now. */
export type Command =
  | { readonly do: 'change-settings'; readonly settings: Settings; readonly ifVersion?: number | null }
  | {
      readonly do: 'take-in-boards';
      readonly rows: readonly BoardRow[];
      readonly allOrNothing: boolean;
      readonly faults: readonly Fault[];
    }
  | { readonly do: 'correct-board'; readonly boardId: string; readonly ifVersion: number; readonly patch: BoardPatch }
  | { readonly do: 'read-moisture'; readonly boardId: string; readonly readings: readonly Reading[] }
  | { readonly do: 'write-off-board'; readonly boardId: string; readonly why: string }
  | { readonly do: 'open-job'; readonly draft: JobDraft }
  | { readonly do: 'change-job'; readonly jobId: string; readonly ifVersion: number; readonly patch: JobPatch }
  | {
      readonly do: 'set-cut-list';
      readonly jobId: string;
      readonly parts: readonly Part[];
      readonly faults: readonly Fault[];
      readonly allOrNothing: boolean;
      readonly ifVersion: number | null;
    }
  | { readonly do: 'move-pieces'; readonly jobId: string; readonly steps: readonly PieceStep[] }
  | { readonly do: 'keep-plan'; readonly plan: PlanBody }
  | { readonly do: 'drop-plan'; readonly planId: string; readonly ifVersion?: number | null }
  | {
      readonly do: 'reserve-plan';
      readonly planId: string;
      readonly how: 'whole' | 'runs';
      readonly ifVersion?: number | null;
    }
  | {
      readonly do: 'reserve';
      readonly jobId: string;
      readonly boards: readonly {
        readonly boardId?: string | undefined;
        readonly tag?: string | undefined;
        readonly fromNm?: number | undefined;
        readonly toNm?: number | undefined;
      }[];
    }
  | { readonly do: 'release'; readonly ids: readonly string[] }
  | {
      readonly do: 'open-session';
      readonly planId: string;
      readonly boardIds: readonly string[] | null;
      readonly ifVersion?: number | null;
    }
  | {
      readonly do: 'reconcile';
      readonly sessionId: string;
      readonly restAsPlanned: boolean;
      readonly boards: readonly BoardOutcome[];
      readonly allowExtra: boolean;
    }
  | { readonly do: 'undo'; readonly seq: number };

/** What happens to keys: no part of the stock, so it changes no state that the journal replays; the journal names it. */
export type KeyCommand =
  | { readonly do: 'make-key'; readonly key: NewKey }
  | {
      readonly do: 'rotate-key';
      readonly keyId: string;
      readonly next: Pick<NewKey, 'keyId' | 'digest'>;
      readonly oldHours: number;
    }
  | { readonly do: 'revoke-key'; readonly keyId: string }
  /** The asking key is the link code: it becomes this key, and is used up. */
  | { readonly do: 'use-link'; readonly next: Pick<NewKey, 'keyId' | 'digest'> };

/** Given to decide from outside. today is the shop's day, for rests. */
export interface Occasion {
  readonly atMs: number;
  readonly today: string;
  readonly by: string;
  /** A new id with this prefix ("bd"), unique in the yard. */
  readonly newId: (prefix: 'bd' | 'jb' | 'pl' | 'rs' | 'cs') => string;
}

/** Why the yard says no, with the facts. One refusal is one problem on the wire. */
export interface Refusal {
  readonly why: ProblemName;
  /** What is wrong and what to do about it, in the shop's words. */
  readonly detail: string;
  readonly faults?: readonly Fault[];
  readonly conflicts?: readonly Conflict[];
}

/** What the caller gets back beside the movement, by command. */
export interface Told {
  readonly seq: number;
  readonly taken?: readonly { readonly row: number; readonly id: string; readonly tag: string }[];
  readonly faults?: readonly Fault[];
  readonly notes?: readonly string[];
  readonly boardId?: string;
  readonly jobId?: string;
  readonly planId?: string;
  readonly sessionId?: string;
  readonly reservationIds?: readonly string[];
  readonly balances?: readonly WoodBalance[];
  readonly offcuts?: readonly OffcutMade[];
  readonly wantedAgain?: readonly {
    readonly partKey: string;
    readonly label: string;
    readonly element: number | null;
    readonly count: number;
  }[];
  readonly undoneSeq?: number;
  readonly key?: KeyView;
  readonly shown?: Shown;
}

/** Things as they stood when the write was done. A plan's body never changes, so its head is enough. */
export interface Shown {
  readonly board?: BoardView;
  readonly job?: JobWithParts;
  readonly session?: SessionView;
  readonly settings?: { readonly version: number };
  readonly movement?: MovementView;
  readonly reservations?: readonly ReservationView[];
  readonly plan?: Pick<Plan, 'id' | 'state' | 'version'>;
}

/** Who asks: parsed from the key; the yard compares the digest. */
export interface Asker {
  readonly keyId: string;
  /** HMAC-SHA-256 of the secret under the pepper, hex. */
  readonly digest: string;
  /** Under the pepper before, while the service changes from one to the next. */
  readonly formerDigest?: string;
  readonly scope: Scope | 'feed';
}

/** A key as the yard keeps it: never the secret, only its digest. */
export interface NewKey {
  readonly keyId: string;
  readonly digest: string;
  readonly label: string;
  readonly scopes: readonly string[];
  /** null or left out: until it is taken back. */
  readonly expiresAtMs?: number | null;
  /** What a feed link shows; null or left out for a key. */
  readonly feed?: Feed | null;
}

/** Same key and same fingerprint: the stored answer; same key, other fingerprint: refused. */
export interface Receipt {
  readonly idempotencyKey: string;
  /** SHA-256 of method, path and body, hex. */
  readonly fingerprint: string;
}

export type CommandAnswer =
  | { readonly ok: true; readonly told: Told; readonly replayed: boolean }
  | { readonly ok: false; readonly refusal: Refusal; readonly replayed: boolean };

export interface BoardFilter {
  readonly species?: string | undefined;
  readonly thicknessNmMin?: number | undefined;
  readonly thicknessNmMax?: number | undefined;
  readonly lengthNmMin?: number | undefined;
  readonly moisturePercentMax?: number | undefined;
  readonly state?: 'in-stock' | 'cut-up' | 'written-off' | undefined;
  readonly free?: boolean | undefined;
  readonly offcuts?: boolean | undefined;
  readonly q?: string | undefined;
}
export interface PageAsk {
  readonly after: string | null;
  readonly limit: number;
}
export interface Page<T> {
  readonly items: readonly T[];
  readonly next: string | null;
}

/** Which boards in stock a question works on. */
export type BoardsWanted =
  | { readonly which: 'all' }
  | { readonly which: 'named'; readonly ids: readonly string[] }
  /** Of the woods on the cut lists of the jobs asked for, and these besides. */
  | { readonly which: 'of-jobs'; readonly alsoIds: readonly string[] }
  /** Of the woods of these rows. */
  | { readonly which: 'of-parts'; readonly parts: readonly WoodAsked[] };
/** What a row of a cut list asks of the wood. */
export type WoodAsked = Pick<Part, 'species' | 'lengthNm' | 'thicknessNm' | 'lamination'>;

/** Boards, settings and demand at one seq: what takeoff, planner and offcut questions work on. */
export interface Snapshot {
  readonly seq: number;
  readonly settings: Settings;
  /** Those asked for, in stock, each with every held run. */
  readonly boards: readonly BoardView[];
  /** The jobs asked for, with parts and pieces. */
  readonly jobs: readonly JobWithParts[];
}

/** How offcuts ended, the last ones first, and the finished sizes on open cut lists. */
export interface WorthFacts {
  readonly offcuts: readonly { readonly lengthNm: number; readonly widthNm: number; readonly isUsed: boolean }[];
  readonly sizes: readonly { readonly lengthNm: number; readonly widthNm: number; readonly count: number }[];
}

export interface SessionView extends Session {
  readonly jobName: string;
}

export interface YardFacts {
  readonly yardId: string;
  readonly name: string;
  readonly settings: Settings;
  /** Of the settings. */
  readonly version: number;
  readonly boards: { readonly inStock: number; readonly held: number; readonly offcuts: number };
  readonly openJobs: number;
  readonly seq: number;
  readonly you: { readonly label: string; readonly scopes: readonly string[] };
}

/** One list, as a feed link shows it. */
export type FeedAnswer = { readonly settings: Settings } & (
  | { readonly list: 'stock'; readonly page: Page<BoardView> }
  | { readonly list: 'held'; readonly page: Page<HeldRow> }
  | { readonly list: 'cut-list'; readonly job: JobWithParts }
);
/** A reservation with the species and length of its board. */
export type HeldRow = ReservationView & { readonly species: string; readonly lengthNm: number };

/** What a yard can be asked. Each answer is null where the thing is not there. */
export interface Questions {
  'yard-facts': { ask: Record<string, never>; answer: YardFacts };
  board: { ask: { readonly boardId: string }; answer: BoardView };
  boards: { ask: { readonly filter: BoardFilter; readonly page: PageAsk }; answer: Page<BoardView> };
  /** Boards as they are, whatever became of them, and how the shop shows sizes; a board that is gone is left out. */
  'boards-to-draw': {
    ask: { readonly boardIds: readonly string[] };
    answer: { readonly settings: Settings; readonly boards: readonly Board[] };
  };
  'tag-status': {
    ask: { readonly tags: readonly string[] };
    answer: { readonly seq: number; readonly boards: readonly (BoardView | null)[] };
  };
  job: { ask: { readonly jobId: string }; answer: JobWithParts };
  jobs: {
    ask: { readonly state?: 'open' | 'done' | 'cancelled' | undefined; readonly page: PageAsk };
    answer: Page<JobView>;
  };
  plan: { ask: { readonly planId: string }; answer: Plan };
  plans: { ask: { readonly jobId: string; readonly page: PageAsk }; answer: Page<Plan> };
  reservations: {
    ask: { readonly jobId?: string | undefined; readonly boardId?: string | undefined; readonly page: PageAsk };
    answer: Page<ReservationView>;
  };
  'reservations-by-id': { ask: { readonly ids: readonly string[] }; answer: readonly ReservationView[] };
  session: { ask: { readonly sessionId: string }; answer: SessionView };
  sessions: {
    ask: {
      readonly jobId?: string | undefined;
      readonly state?: 'open' | 'closed' | undefined;
      readonly page: PageAsk;
    };
    answer: Page<SessionView>;
  };
  movements: {
    ask: { readonly boardId?: string | undefined; readonly jobId?: string | undefined; readonly page: PageAsk };
    answer: Page<MovementView>;
  };
  movement: { ask: { readonly seq: number }; answer: MovementView };
  /** jobIds null: every open job. */
  snapshot: {
    ask: { readonly jobIds: readonly string[] | null; readonly boards: BoardsWanted };
    answer: Snapshot;
  };
  /** What the yard's own past and its open cut lists say of the worth of a rest. */
  'worth-facts': { ask: Record<string, never>; answer: WorthFacts };
  /** Keys and feed links: those that work, and those that ended in the last 90 days. */
  keys: { ask: Record<string, never>; answer: readonly KeyView[] };
  /** What the asker's own feed link shows, page by page. */
  feed: { ask: { readonly page: PageAsk }; answer: FeedAnswer };
  /** Movements oldest first, whole, for replay and export. */
  journal: { ask: { readonly afterSeq: number; readonly limit: number }; answer: readonly Movement[] };
  /** The first lines of the yard's file, and how many movements follow. */
  'archive-head': {
    ask: { readonly upToSeq?: number | undefined };
    answer: { readonly text: string; readonly movements: number };
  };
  /** Movement lines of the yard's file, about so many characters of them. */
  'archive-page': {
    ask: { readonly afterSeq: number; readonly upToSeq: number; readonly chars: number };
    answer: { readonly text: string; readonly lastSeq: number };
  };
  /** A part of the check of the whole yard; after is the mark of the part before, null to begin. */
  doctor: { ask: { readonly after: string | null }; answer: DoctorPage };
}
export type QuestionName = keyof Questions;

export type QuestionAnswer<N extends QuestionName> =
  | { readonly ok: true; readonly answer: Questions[N]['answer'] | null }
  | { readonly ok: false; readonly refusal: Refusal };

export type RestoreAnswer =
  | { readonly ok: true; readonly restored: Restored }
  | { readonly ok: false; readonly refusal: Refusal };

/** The face that the Yard object shows the HTTP side (RPC), and that the Node adapter shows the tests. */
export interface YardDoor {
  found(input: {
    readonly yardId: string;
    readonly name: string;
    readonly key: NewKey;
  }): Promise<{ readonly founded: boolean }>;
  /** An owner's key from who runs the service, for a shop that lost its last one. False: no such yard, or the id is taken. */
  giveOwnerKey(key: NewKey): Promise<{ readonly given: boolean }>;
  command(
    asker: Asker,
    receipt: Receipt,
    command: Command | KeyCommand,
    occasion: { readonly atMs: number; readonly today: string },
  ): Promise<CommandAnswer>;
  ask<N extends QuestionName>(asker: Asker, name: N, ask: Questions[N]['ask']): Promise<QuestionAnswer<N>>;
  /** Lines of a yard's file, into a newly founded yard; firstLine counts from 1 among all that were sent. */
  restore(asker: Asker, firstLine: number, lines: readonly string[]): Promise<RestoreAnswer>;
}

export type { Reservation };
