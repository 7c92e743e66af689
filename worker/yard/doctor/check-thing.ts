/** One thing of the yard: the journal alone makes it what it is, it has its form, lists find it, and the rules hold around it. */
import type { Board } from '../../contract/board.ts';
import type { Finding } from '../../contract/doctor.ts';
import { entityFault } from '../../contract/entity.ts';
import type { EntityKind } from '../../contract/movement.ts';
import type { Plan } from '../../contract/plan.ts';
import { latestReading } from '../../wood/reading.ts';
import { brokenRules } from '../decide/rules.ts';
import { sameValue } from '../same-value.ts';
import type { Sql, SqlRow, SqlValue } from '../sql.ts';
import type { Entities, YardReader } from '../state.ts';
import { tagFold, tagSort } from '../tag.ts';
import { planFaults } from './check-plan.ts';
import { type JournalPages, thingName } from './journal-pages.ts';

type Columns = Readonly<Record<string, SqlValue>>;

/** What the columns beside the body must say. A reservation has no body: its columns are itself. */
const columns: { readonly [K in EntityKind]: (thing: Entities[K]) => Columns } = {
  settings: ({ version }) => ({ version }),
  board: (board: Board) => ({
    tag_fold: tagFold(board.tag),
    tag_sort: tagSort(board.tag),
    species: board.species,
    length_nm: board.lengthNm,
    thickness_nm: board.thicknessNm,
    moisture_percent: latestReading(board.readings)?.moisturePercent ?? null,
    state: board.state,
    is_offcut: board.origin.kind === 'offcut' ? 1 : 0,
    version: board.version,
  }),
  job: ({ state, version }) => ({ state, version }),
  part: ({ jobId, place, version }) => ({ job_id: jobId, place, version }),
  plan: ({ jobId, jobRevision, state, version }) => ({ job_id: jobId, job_revision: jobRevision, state, version }),
  reservation: () => ({}),
  session: ({ jobId, planId, state, version }) => ({ job_id: jobId, plan_id: planId, state, version }),
};

const READ_ROW = {
  settings: 'SELECT version FROM yard WHERE id = ?',
  board: 'SELECT * FROM board WHERE id = ?',
  job: 'SELECT * FROM job WHERE id = ?',
  part: 'SELECT * FROM part WHERE id = ?',
  plan: 'SELECT * FROM plan WHERE id = ?',
  reservation: 'SELECT * FROM reservation WHERE id = ?',
  session: 'SELECT * FROM session WHERE id = ?',
} as const;

function columnFaults<K extends EntityKind>(sql: Sql, kind: K, id: string, thing: Entities[K]): readonly string[] {
  const row = sql.row<SqlRow>(READ_ROW[kind], id);
  return Object.entries(columns[kind](thing)).flatMap(([name, value]) =>
    row?.[name] === value ? [] : [`the column ${name} says ${row?.[name]}, the thing ${value}`],
  );
}

function replayFaults<K extends EntityKind>(
  pages: JournalPages,
  kind: K,
  id: string,
  life: readonly number[],
  present: Entities[K] | null,
): readonly Finding[] {
  const what = thingName(kind, id);
  const astray = life.find((seq) => !pages.page(seq)?.byThing.has(what));
  if (astray !== undefined) {
    return [{ rule: 'journal-index', what, words: `leads to movement ${astray}, which does not touch it` }];
  }
  try {
    if (sameValue(pages.folded(kind, id, life), present)) return [];
    return [{ rule: 'replay', what, words: 'is not what the journal makes of it' }];
  } catch (cause) {
    return [{ rule: 'replay', what, words: cause instanceof Error ? cause.message : String(cause) }];
  }
}

/** Null where the thing cannot even be read. */
function read<K extends EntityKind>(state: YardReader, kind: K, id: string): { thing: Entities[K] | null } | null {
  try {
    return { thing: state.get(kind, id) };
  } catch {
    return null;
  }
}

export function checkThing<K extends EntityKind>(
  sql: Sql,
  state: YardReader,
  pages: JournalPages,
  kind: K,
  id: string,
  life: readonly number[],
): readonly Finding[] {
  const what = thingName(kind, id);
  const present = read(state, kind, id);
  if (!present) return [{ rule: 'form', what, words: 'it cannot be read' }];
  const { thing } = present;
  const replayed = replayFaults(pages, kind, id, life, thing);
  if (thing === null) return replayed;
  const fault = entityFault(kind, id, thing);
  if (fault !== null) return [...replayed, { rule: 'form', what, words: fault }];
  const plan = kind === 'plan' ? planFaults(thing as Plan) : [];
  return [
    ...replayed,
    ...columnFaults(sql, kind, id, thing).map((words): Finding => ({ rule: 'columns', what, words })),
    ...plan.map((words): Finding => ({ rule: 'plan', what, words })),
    ...brokenRules(state, [{ entity: kind, id, was: {}, now: {} }]).map(
      ({ words }): Finding => ({ rule: 'fit', what, words }),
    ),
  ];
}
