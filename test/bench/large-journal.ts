/**
 * Writes the life of a large yard straight into its file: deliveries of a thousand boards, then corrections of single
 * boards, each as the yard itself writes it, so that the doctor finds it sound. For measurements only: through the yard's
 * own door a million movements take an hour.
 */
import { DatabaseSync } from 'node:sqlite';
import { type Board, boardDraft } from '../../worker/contract/board.ts';
import { textPieces } from '../../worker/yard/long-text.ts';
import { tagFold, tagSort } from '../../worker/yard/tag.ts';
import { randomFrom } from '../yard/random-history.ts';

const INCH = 25_400_000;
const DELIVERY = 1_000;
const FROM_MS = Date.parse('2026-01-02T08:00:00Z');

export interface LargeYard {
  readonly boards: number;
  readonly movements: number;
}

function boardAt(no: number, seq: number, random: () => number): Board {
  const upTo = (most: number) => Math.floor(random() * most);
  const draft = boardDraft.parse({
    tag: `Q-${no}`,
    species: ['white-oak', 'walnut', 'cherry', 'hard-maple'][upTo(4)],
    lengthNm: (48 + upTo(100)) * INCH,
    widthNm: (4 + upTo(8)) * INCH,
    thicknessNm: (1 + upTo(3)) * INCH,
    place: 'rack 0',
    note: upTo(50) === 0 ? 'curly figure at one end' : '',
    readings: [{ moisturePercent: 6 + upTo(20), on: '2026-02-01', meter: 'pin' }],
    defects: [{ kind: 'knot-sound', face: 'a', fromNm: INCH, toNm: 3 * INCH, leftNm: 0, rightNm: INCH }],
  });
  const id = `bd_${no.toString(36).padStart(12, '0')}`;
  return { ...draft, id, state: 'in-stock', origin: { kind: 'received' }, version: seq };
}

/** The yard in this file was founded and has no other movement. */
export function writeLargeYard(file: string, { boards, movements }: LargeYard): void {
  const database = new DatabaseSync(file);
  database.exec('PRAGMA cache_size = -500000; PRAGMA synchronous = OFF');
  const prepare = (statement: string) => database.prepare(statement);
  const journal =
    prepare(`INSERT INTO journal (seq, at_ms, by, kind, job_id, summary, balances, board_tags, undoes, changes)
    VALUES (?, ?, 'first key', ?, NULL, ?, '[]', ?, NULL, ?)`);
  const text = prepare('INSERT INTO journal_text (id, no, text) VALUES (?, ?, ?)');
  const touch = prepare("INSERT INTO journal_touch (entity, id, seq) VALUES ('board', ?, ?)");
  const speaksOf = prepare('INSERT INTO journal_board (board_id, seq) VALUES (?, ?)');
  const put =
    prepare(`INSERT INTO board (id, tag_fold, tag_sort, species, length_nm, thickness_nm, moisture_percent, state,
    is_offcut, looked_for, version, body) VALUES (?, ?, ?, ?, ?, ?, ?, 'in-stock', 0, ?, ?, ?)`);
  const random = randomFrom(boards);
  const all: Board[] = [];
  const lives = new Map<string, number[]>();
  let seq = 1;

  function write(kind: string, summary: string, of: readonly Board[], changes: readonly unknown[]): void {
    const tags = [
      ...of.slice(0, 40).map((board) => board.tag),
      ...(of.length > 40 ? [`and ${of.length - 40} more`] : []),
    ];
    const told = JSON.stringify(changes);
    const isShort = told.length <= 100_000;
    journal.run(seq, FROM_MS + seq * 60_000, kind, summary, JSON.stringify(tags), isShort ? told : null);
    if (!isShort) for (const [no, piece] of textPieces(told, 300_000).entries()) text.run(seq, no, piece);
    for (const board of of) {
      const life = lives.get(board.id);
      if (life) life.push(seq);
      else lives.set(board.id, [seq]);
    }
  }

  database.exec('BEGIN');
  while (all.length < boards) {
    seq += 1;
    const count = Math.min(DELIVERY, boards - all.length);
    const delivery = Array.from({ length: count }, (_, at) => boardAt(all.length + at, seq, random));
    const changes = delivery.map(({ version: _, ...now }) => ({ entity: 'board', id: now.id, was: null, now }));
    write('boards-received', `Took in ${count} boards`, delivery, changes);
    all.push(...delivery);
  }
  while (seq < movements) {
    seq += 1;
    const at = Math.floor(random() * boards);
    const board = all[at];
    if (!board) throw new Error('no board to correct');
    const place = `rack ${seq}`;
    write(
      'board-corrected',
      `Corrected ${board.tag}: place`,
      [board],
      [{ entity: 'board', id: board.id, was: { place: board.place }, now: { place } }],
    );
    all[at] = { ...board, place, version: seq };
  }
  // Thing by thing, as the index lies, so that its pages are written once.
  for (const [id, life] of lives) {
    for (const at of life) {
      touch.run(id, at);
      speaksOf.run(id, at);
    }
  }
  for (const board of all) {
    const looked = `${tagFold(board.tag)}\n${board.place.toLowerCase()}\n${board.note.toLowerCase()}`;
    const moisture = board.readings[0]?.moisturePercent ?? null;
    const body = JSON.stringify(board);
    const { id, tag, species, lengthNm, thicknessNm, version } = board;
    put.run(id, tagFold(tag), tagSort(tag), species, lengthNm, thicknessNm, moisture, looked, version, body);
  }
  database.exec('COMMIT');
  database.close();
}
