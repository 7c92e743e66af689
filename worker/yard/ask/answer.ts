/** One exhaustive table from each question to what answers it. */
import { askArchiveHead, askArchivePage } from '../archive.ts';
import type { QuestionAnswer, QuestionName, Questions, YardFacts } from '../command.ts';
import { refused } from '../decision.ts';
import { askDoctor } from '../doctor/doctor.ts';
import { type ApiKey, keyRows, keyViewOf } from '../keys.ts';
import { type Sql, soleRow } from '../sql.ts';
import { SqlState } from '../sql-state.ts';
import { yardRecord, yardSettings } from '../state.ts';
import { askBoard, askBoards, askBoardsToDraw, askTagStatus } from './boards.ts';
import { askFeed } from './feed.ts';
import { askJob, askJobs, askPlans, askReservations, askReservationsById, askSession, askSessions } from './jobs.ts';
import { askJournal, askMovement, askMovements } from './journal.ts';
import { askSnapshot, TooMuch } from './snapshot.ts';
import { askWorthFacts } from './worth.ts';

const YARD_ID = 'SELECT yard_id FROM identity';
const COUNTS = `SELECT
  (SELECT in_stock FROM tally) AS in_stock,
  (SELECT count(DISTINCT board_id) FROM reservation) AS held,
  (SELECT offcuts FROM tally) AS offcuts,
  (SELECT count(*) FROM job WHERE state = 'open') AS open_jobs`;

function askYardFacts(sql: Sql, key: ApiKey): YardFacts {
  const state = new SqlState(sql);
  const { name, version } = yardRecord(state);
  const counts = soleRow<{ in_stock: number; held: number; offcuts: number; open_jobs: number }>(sql, COUNTS);
  return {
    yardId: soleRow<{ yard_id: string }>(sql, YARD_ID).yard_id,
    name,
    settings: yardSettings(state),
    version,
    boards: { inStock: counts.in_stock, held: counts.held, offcuts: counts.offcuts },
    openJobs: counts.open_jobs,
    seq: state.seq(),
    you: { label: key.label, scopes: key.scopes },
  };
}

/** Who asks, and when. */
export interface Asking {
  readonly key: ApiKey;
  readonly atMs: number;
}

type Answerer<N extends QuestionName> = (
  sql: Sql,
  ask: Questions[N]['ask'],
  asking: Asking,
) => Questions[N]['answer'] | null;

const answerers: { readonly [N in QuestionName]: Answerer<N> } = {
  'yard-facts': (sql, _ask, { key }) => askYardFacts(sql, key),
  keys: (sql, _ask, { key, atMs }) => keyRows(sql, atMs).map((row) => keyViewOf(row, atMs, key.keyId)),
  feed: (sql, { page }, { key }) => askFeed(sql, key, page),
  board: askBoard,
  boards: askBoards,
  'boards-to-draw': askBoardsToDraw,
  'tag-status': askTagStatus,
  job: askJob,
  jobs: askJobs,
  plan: (sql, { planId }) => new SqlState(sql).get('plan', planId),
  plans: askPlans,
  reservations: askReservations,
  'reservations-by-id': askReservationsById,
  session: askSession,
  sessions: askSessions,
  movements: askMovements,
  movement: askMovement,
  snapshot: askSnapshot,
  'worth-facts': askWorthFacts,
  journal: askJournal,
  'archive-head': askArchiveHead,
  'archive-page': askArchivePage,
  doctor: askDoctor,
};

const tooMuch = refused(
  'too-large',
  'More boards of this wood are in stock than one question can look at (some 50,000). Write off what is gone, or keep a yard for each shed.',
);

/** Lists that come in pages answer null only for a page mark that is not theirs. */
const paged: ReadonlySet<QuestionName> = new Set([
  'boards',
  'jobs',
  'plans',
  'reservations',
  'sessions',
  'movements',
  'doctor',
]);

export function answerQuestion<N extends QuestionName>(
  sql: Sql,
  asking: Asking,
  name: N,
  ask: Questions[N]['ask'],
): QuestionAnswer<N> {
  let answer: Questions[N]['answer'] | null;
  try {
    answer = answerers[name](sql, ask, asking);
  } catch (cause) {
    if (cause instanceof TooMuch) return tooMuch;
    throw cause;
  }
  if (answer === null && paged.has(name)) {
    return refused('bad-request', 'This page mark ("after") does not belong to this list. Start from the first page.');
  }
  return { ok: true, answer };
}
