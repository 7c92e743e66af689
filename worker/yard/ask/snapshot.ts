/**
 * Boards, settings and demand at one seq. The platform carries 32 MB between the yard and the service, and the service has
 * 128 MB to work in: so the yard sends the boards that the question can use and no others. Boards of another wood never
 * count; boards that are too thin or too short are told of where there is room.
 */
import type { Board, BoardView } from '../../contract/board.ts';
import type { Job, JobWithParts } from '../../contract/job.ts';
import { limits } from '../../contract/limits.ts';
import { bookWith } from '../../wood/own-wood.ts';
import type { SpeciesBook } from '../../wood/species.ts';
import type { BoardsWanted, Questions, Snapshot, WoodAsked } from '../command.ts';
import type { Sql, SqlValue } from '../sql.ts';
import { SqlState } from '../sql-state.ts';
import { jobWithPartsOf } from '../standing.ts';
import { yardSettings } from '../state.ts';
import { withHeld } from './boards.ts';

type BodyRow = { body: string };

const IN_STOCK = `SELECT body FROM board WHERE state = 'in-stock'`;
const IN_ORDER = 'ORDER BY tag_sort, id';
const OF_WOODS = 'species IN (SELECT value FROM json_each(?)) AND thickness_nm >= ? AND length_nm >= ?';
const OF_IDS = 'id IN (SELECT value FROM json_each(?))';
const SPECIES = `SELECT DISTINCT species FROM board WHERE state = 'in-stock'`;
const OPEN_JOBS = `SELECT body FROM job WHERE state = 'open' ORDER BY made_seq`;
const JOBS_BY_ID = 'SELECT body FROM job WHERE id IN (SELECT value FROM json_each(?)) ORDER BY made_seq';

/** More than one answer can carry; a refusal to whoever asked. */
export class TooMuch extends Error {}

/** A board may be that much thinner than asked and still be planed to it; takeoff gives 1/32 in. */
const PLANED_LESS_NM = 1_600_000;

/** Finished, of the thinnest piece that the row is made of. */
function thinnestOf({ thicknessNm, lamination }: WoodAsked): number {
  return lamination?.kind === 'plies' ? Math.min(...lamination.plies.map((ply) => ply.thicknessNm)) : thicknessNm;
}

/** One key for every way to write a wood; a name that the book does not know stands for itself. */
function woodKey(book: SpeciesBook, written: string): string {
  const known = book.byKey(written);
  if (known) return known.key;
  const read = book.readName(written);
  return read.ok ? read.species.key : written.trim().toLowerCase();
}

/** The woods as the boards in stock have them written. */
function writtenOf(sql: Sql, book: SpeciesBook, rows: readonly WoodAsked[]): readonly string[] {
  const keys = new Set(rows.map(({ species }) => woodKey(book, species)));
  const written = sql.rows<{ species: string }>(SPECIES).map((row) => row.species);
  return written.filter((species) => keys.has(woodKey(book, species)));
}

/** Null when they are more than one answer can carry. */
function readBoards(sql: Sql, clause: string | null, ...values: readonly SqlValue[]): readonly Board[] | null {
  const statement = `${IN_STOCK} ${clause === null ? '' : `AND (${clause})`} ${IN_ORDER}`;
  const boards: Board[] = [];
  let chars = 0;
  for (const row of sql.each<BodyRow>(statement, ...values)) {
    chars += row.body.length;
    if (chars > limits.snapshotChars) return null;
    boards.push(JSON.parse(row.body) as Board);
  }
  return boards;
}

function boardsWanted(
  sql: Sql,
  wanted: BoardsWanted,
  jobs: readonly JobWithParts[],
  book: SpeciesBook,
): readonly Board[] | null {
  if (wanted.which === 'all') return readBoards(sql, null);
  if (wanted.which === 'named') return readBoards(sql, OF_IDS, JSON.stringify(wanted.ids));
  const ofJobs = wanted.which === 'of-jobs';
  const rows = ofJobs ? jobs.flatMap((job) => job.parts) : wanted.parts;
  const species = JSON.stringify(writtenOf(sql, book, rows));
  const clause = `${OF_WOODS} OR ${OF_IDS}`;
  const ids = JSON.stringify(ofJobs ? wanted.alsoIds : []);
  const all = readBoards(sql, clause, species, 0, 0, ids);
  if (all !== null || rows.length === 0) return all;
  const thinnestNm = Math.min(...rows.map(thinnestOf)) - PLANED_LESS_NM;
  const shortestNm = Math.min(...rows.map(({ lengthNm }) => lengthNm));
  return readBoards(sql, clause, species, thinnestNm, shortestNm, ids);
}

export function askSnapshot(sql: Sql, { jobIds, boards: wanted }: Questions['snapshot']['ask']): Snapshot {
  const state = new SqlState(sql);
  const settings = yardSettings(state);
  const jobRows =
    jobIds === null ? sql.rows<BodyRow>(OPEN_JOBS) : sql.rows<BodyRow>(JOBS_BY_ID, JSON.stringify(jobIds));
  const jobs = jobRows.map((row) => {
    const job = JSON.parse(row.body) as Job;
    return jobWithPartsOf(job, state.partsOfJob(job.id), state.reservationsOfJob(job.id));
  });
  const found = boardsWanted(sql, wanted, jobs, bookWith(settings.ownWoods));
  if (found === null) throw new TooMuch();
  const boards: readonly BoardView[] = withHeld(sql, found);
  return { seq: state.seq(), settings, boards, jobs };
}
