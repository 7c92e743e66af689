/**
 * The tables of one yard and how they came to be. Migrations only ever get appended; a database that is newer than the
 * code is refused. The last guards stand in the database itself: the journal cannot be changed, and two reservations
 * cannot overlap, whatever the code above does.
 */
import { type Sql, soleRow } from './sql.ts';

const FIRST = `
CREATE TABLE yard (id TEXT PRIMARY KEY, body TEXT NOT NULL, version INTEGER NOT NULL) STRICT;

CREATE TABLE board (
  id TEXT PRIMARY KEY,
  tag_fold TEXT NOT NULL,
  tag_sort TEXT NOT NULL,
  species TEXT NOT NULL,
  length_nm INTEGER NOT NULL CHECK (length_nm > 0),
  thickness_nm INTEGER NOT NULL CHECK (thickness_nm > 0),
  moisture_percent REAL,
  state TEXT NOT NULL CHECK (state IN ('in-stock', 'cut-up', 'written-off')),
  is_offcut INTEGER NOT NULL CHECK (is_offcut IN (0, 1)),
  looked_for TEXT NOT NULL,
  version INTEGER NOT NULL,
  body TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX board_live_tag ON board (tag_fold) WHERE state = 'in-stock';
CREATE INDEX board_tag ON board (tag_fold);
CREATE INDEX board_order ON board (state, tag_sort, id);
CREATE INDEX board_species ON board (state, species, tag_sort, id);

CREATE TABLE job (
  id TEXT PRIMARY KEY, made_seq INTEGER NOT NULL, state TEXT NOT NULL, version INTEGER NOT NULL, body TEXT NOT NULL
) STRICT;
CREATE INDEX job_order ON job (made_seq DESC);

CREATE TABLE part (
  id TEXT PRIMARY KEY, job_id TEXT NOT NULL, place INTEGER NOT NULL, version INTEGER NOT NULL, body TEXT NOT NULL
) STRICT;
CREATE INDEX part_of_job ON part (job_id, place);

CREATE TABLE plan (
  id TEXT PRIMARY KEY, made_seq INTEGER NOT NULL, job_id TEXT NOT NULL,
  state TEXT NOT NULL, job_revision INTEGER NOT NULL, made_at_ms INTEGER NOT NULL, version INTEGER NOT NULL
) STRICT;
CREATE INDEX plan_of_job ON plan (job_id, made_seq DESC);
CREATE TABLE plan_text (id TEXT NOT NULL, no INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (id, no)) STRICT, WITHOUT ROWID;

CREATE TABLE reservation (
  id TEXT PRIMARY KEY,
  job_id TEXT NOT NULL,
  board_id TEXT NOT NULL,
  from_nm INTEGER NOT NULL CHECK (from_nm >= 0),
  to_nm INTEGER NOT NULL,
  plan_id TEXT,
  made_at_ms INTEGER NOT NULL,
  version INTEGER NOT NULL,
  CHECK (from_nm < to_nm)
) STRICT;
CREATE INDEX reservation_on_board ON reservation (board_id, from_nm);
CREATE INDEX reservation_of_job ON reservation (job_id);
CREATE INDEX reservation_of_plan ON reservation (plan_id) WHERE plan_id IS NOT NULL;
CREATE TRIGGER reservation_overlap BEFORE INSERT ON reservation
WHEN EXISTS (SELECT 1 FROM reservation r
  WHERE r.board_id = NEW.board_id AND r.id <> NEW.id AND r.from_nm < NEW.to_nm AND r.to_nm > NEW.from_nm)
BEGIN SELECT RAISE(ABORT, 'two reservations overlap'); END;
CREATE TRIGGER reservation_overlap_moved BEFORE UPDATE ON reservation
WHEN EXISTS (SELECT 1 FROM reservation r
  WHERE r.board_id = NEW.board_id AND r.id <> NEW.id AND r.from_nm < NEW.to_nm AND r.to_nm > NEW.from_nm)
BEGIN SELECT RAISE(ABORT, 'two reservations overlap'); END;

CREATE TABLE session (
  id TEXT PRIMARY KEY, made_seq INTEGER NOT NULL, job_id TEXT NOT NULL, plan_id TEXT NOT NULL,
  state TEXT NOT NULL, version INTEGER NOT NULL, body TEXT NOT NULL
) STRICT;
CREATE INDEX session_order ON session (made_seq DESC);
CREATE INDEX session_of_plan ON session (plan_id);

CREATE TABLE journal (
  seq INTEGER PRIMARY KEY,
  at_ms INTEGER NOT NULL,
  by TEXT NOT NULL,
  kind TEXT NOT NULL,
  job_id TEXT,
  summary TEXT NOT NULL,
  balances TEXT NOT NULL,
  board_tags TEXT NOT NULL,
  undoes INTEGER
) STRICT;
CREATE INDEX journal_of_job ON journal (job_id, seq) WHERE job_id IS NOT NULL;
CREATE INDEX journal_undo ON journal (undoes) WHERE undoes IS NOT NULL;
CREATE TABLE journal_text (id INTEGER NOT NULL, no INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (id, no)) STRICT, WITHOUT ROWID;
CREATE TABLE journal_touch (
  entity TEXT NOT NULL, id TEXT NOT NULL, seq INTEGER NOT NULL, PRIMARY KEY (entity, id, seq)
) STRICT, WITHOUT ROWID;
CREATE TABLE journal_board (board_id TEXT NOT NULL, seq INTEGER NOT NULL, PRIMARY KEY (board_id, seq)) STRICT, WITHOUT ROWID;

CREATE TABLE api_key (
  key_id TEXT PRIMARY KEY, digest TEXT NOT NULL, label TEXT NOT NULL, scopes TEXT NOT NULL,
  made_at_ms INTEGER NOT NULL, revoked_at_ms INTEGER
) STRICT;

CREATE TABLE receipt (
  key_id TEXT NOT NULL, idempotency_key TEXT NOT NULL, fingerprint TEXT NOT NULL, at_ms INTEGER NOT NULL,
  PRIMARY KEY (key_id, idempotency_key)
) STRICT, WITHOUT ROWID;
CREATE INDEX receipt_age ON receipt (at_ms);
CREATE TABLE receipt_text (id TEXT NOT NULL, no INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (id, no)) STRICT, WITHOUT ROWID;
`;

const JOURNAL_TABLES = ['journal', 'journal_text', 'journal_touch', 'journal_board'] as const;

const inInk = (table: string, act: 'UPDATE' | 'DELETE') =>
  `CREATE TRIGGER ${table}_${act.toLowerCase()} BEFORE ${act} ON ${table}
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;`;

/** The database itself refuses to change what was written in the journal. */
const APPEND_ONLY = JOURNAL_TABLES.flatMap((table) => [inInk(table, 'UPDATE'), inInk(table, 'DELETE')]);

/** Takes everything out of a yard that is being restored: the one time that a journal goes. Within a transaction. */
export function emptyYard(sql: Sql): void {
  for (const table of JOURNAL_TABLES) {
    sql.run(`DROP TRIGGER ${table}_delete`);
    sql.run(`DELETE FROM ${table}`);
    sql.run(inInk(table, 'DELETE'));
  }
  const things = ['yard', 'board', 'job', 'part', 'plan', 'plan_text', 'reservation', 'session'];
  for (const table of things) sql.run(`DELETE FROM ${table}`);
}

/** The yard's own id, apart from its journal: a restored journal tells of the yard that it was written in. */
const IDENTITY = `
CREATE TABLE identity (yard_id TEXT NOT NULL) STRICT;
INSERT INTO identity (yard_id) SELECT json_extract(body, '$.yardId') FROM yard;
CREATE TABLE restoring (
  id INTEGER PRIMARY KEY CHECK (id = 1), header TEXT NOT NULL, crc INTEGER NOT NULL, done INTEGER NOT NULL CHECK (done IN (0, 1))
) STRICT;
`;

/** Keys that end, that say when they were last used, and feed links among them. */
const KEYS_THAT_END = `
ALTER TABLE api_key ADD COLUMN expires_at_ms INTEGER;
ALTER TABLE api_key ADD COLUMN last_used_at_ms INTEGER;
ALTER TABLE api_key ADD COLUMN feed TEXT;
`;

/** A short answer lies with its receipt; only a long one needs pieces elsewhere. */
const ANSWERS_BESIDE = 'ALTER TABLE receipt ADD COLUMN answer TEXT;';

/** Boards in stock are counted as they come and go: counting a hundred thousand takes as long as a hundred holds. */
const COUNTED = `
CREATE TABLE tally (in_stock INTEGER NOT NULL, offcuts INTEGER NOT NULL) STRICT;
INSERT INTO tally (in_stock, offcuts)
  SELECT count(*) FILTER (WHERE state = 'in-stock'), count(*) FILTER (WHERE state = 'in-stock' AND is_offcut = 1) FROM board;
CREATE TRIGGER board_came AFTER INSERT ON board WHEN NEW.state = 'in-stock'
BEGIN UPDATE tally SET in_stock = in_stock + 1, offcuts = offcuts + NEW.is_offcut; END;
CREATE TRIGGER board_went AFTER DELETE ON board WHEN OLD.state = 'in-stock'
BEGIN UPDATE tally SET in_stock = in_stock - 1, offcuts = offcuts - OLD.is_offcut; END;
CREATE TRIGGER board_turned AFTER UPDATE OF state, is_offcut ON board
WHEN OLD.state <> NEW.state OR OLD.is_offcut <> NEW.is_offcut
BEGIN UPDATE tally SET
  in_stock = in_stock + (NEW.state = 'in-stock') - (OLD.state = 'in-stock'),
  offcuts = offcuts + (NEW.state = 'in-stock') * NEW.is_offcut - (OLD.state = 'in-stock') * OLD.is_offcut; END;
CREATE INDEX job_state ON job (state);
`;

/** What a short movement changed lies with it; only a long one needs pieces elsewhere. */
const CHANGES_BESIDE = 'ALTER TABLE journal ADD COLUMN changes TEXT;';

/**
 * Holds of a board never overlap, so the last of those that begin before a run ends is the only one that can have some of
 * it: a new hold is compared with that one, however many the board bears. Each lies in the tree of its own id.
 */
const NEAREST_HOLD = `
CREATE TABLE held AS SELECT * FROM reservation;
DROP TABLE reservation;
CREATE TABLE reservation (
  id TEXT PRIMARY KEY,
  job_id TEXT NOT NULL,
  board_id TEXT NOT NULL,
  from_nm INTEGER NOT NULL CHECK (from_nm >= 0),
  to_nm INTEGER NOT NULL,
  plan_id TEXT,
  made_at_ms INTEGER NOT NULL,
  version INTEGER NOT NULL,
  CHECK (from_nm < to_nm)
) STRICT, WITHOUT ROWID;
INSERT INTO reservation (id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version)
  SELECT id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version FROM held;
DROP TABLE held;
CREATE INDEX reservation_on_board ON reservation (board_id, from_nm, to_nm);
CREATE INDEX reservation_of_job ON reservation (job_id);
CREATE INDEX reservation_of_plan ON reservation (plan_id) WHERE plan_id IS NOT NULL;
`;
const overlapGuard = (name: string, act: 'INSERT' | 'UPDATE') => `CREATE TRIGGER ${name} BEFORE ${act} ON reservation
WHEN (SELECT r.to_nm FROM reservation r WHERE r.board_id = NEW.board_id AND r.from_nm < NEW.to_nm AND r.id <> NEW.id
  ORDER BY r.from_nm DESC LIMIT 1) > NEW.from_nm
BEGIN SELECT RAISE(ABORT, 'two reservations overlap'); END;`;

const migrations: readonly (readonly string[])[] = [
  [FIRST, ...APPEND_ONLY],
  [IDENTITY],
  [KEYS_THAT_END],
  [ANSWERS_BESIDE],
  [COUNTED],
  [CHANGES_BESIDE],
  [NEAREST_HOLD, overlapGuard('reservation_overlap', 'INSERT'), overlapGuard('reservation_overlap_moved', 'UPDATE')],
];
export const SCHEMA_VERSION = migrations.length;

const HAS_SCHEMA = `SELECT 1 AS yes FROM sqlite_master WHERE type = 'table' AND name = 'schema_version'`;
const READ_VERSION = 'SELECT max(version) AS version FROM schema_version';
const WRITE_VERSION = 'INSERT INTO schema_version (version) VALUES (?)';

/** 0 where no yard was founded. Reads only, so that asking after an unknown yard leaves nothing behind. */
export function schemaVersion(sql: Sql): number {
  return sql.row(HAS_SCHEMA) ? soleRow<{ version: number }>(sql, READ_VERSION).version : 0;
}

/** Brings the tables up to this code's version, within the caller's transaction. */
export function raiseSchema(sql: Sql): void {
  const present = schemaVersion(sql);
  if (present === 0) sql.run('CREATE TABLE schema_version (version INTEGER PRIMARY KEY) STRICT');
  for (const [at, statements] of migrations.entries()) {
    if (at < present) continue;
    for (const statement of statements) sql.run(statement);
    sql.run(WRITE_VERSION, at + 1);
  }
}

/** As raiseSchema, all or nothing; throws when the tables are already beyond this code. */
export function migrate(sql: Sql): void {
  const present = schemaVersion(sql);
  if (present > SCHEMA_VERSION) {
    throw new Error(
      `this yard was written by a newer version (schema ${present}, this is ${SCHEMA_VERSION}): update first`,
    );
  }
  if (present === SCHEMA_VERSION) return;
  sql.once(() => {
    raiseSchema(sql);
    return null;
  });
}
