/** Routes of the stock: taking in, listing, correcting, drawing. */
import type { BoardView } from '../../contract/board.ts';
import { limits } from '../../contract/limits.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { drawBoard } from '../../planner/drawing.ts';
import { latestMoisturePercent } from '../../takeoff/dry-enough.ts';
import type { Species } from '../../wood/species.ts';
import { callWritten, readBoardRows } from '../rows.ts';
import { type Asking, good, type Handler, type Outcome, refuse } from '../serve.ts';
import { shopBook } from './wood-call.ts';
import { readyStatus } from './wood-drying.ts';

const noBoard = refuse('not-found', 'There is no such board in this yard.');

/** A page as asked for, with the house's default. */
export const pageAsk = (query: { readonly after?: string | undefined; readonly limit?: number | undefined }) => ({
  after: query.after ?? null,
  limit: query.limit ?? limits.pageDefault,
});

async function boardOf(call: Asking, boardId: string): Promise<Outcome<BoardView>> {
  const found = await call.ask('board', { boardId });
  if (!found.ok) return found;
  return found.value ? good(found.value) : noBoard;
}

/** The key of the wood that a text names; null where none is given. */
async function speciesKey(
  call: Asking,
  written: string | undefined,
  pointer: string,
): Promise<Outcome<Species['key'] | null>> {
  if (written === undefined) return good(null);
  const book = await shopBook(call);
  if (!book.ok) return book;
  const reading = book.value.readName(written);
  return reading.ok
    ? good(reading.species.key)
    : refuse('invalid-input', reading.help, [{ pointer, field: 'species', help: reading.help }]);
}

const takeInBoards: Handler<'takeInBoards'> = async (call) => {
  const book = await shopBook(call);
  if (!book.ok) return book;
  const read = readBoardRows(call.body.boards, book.value);
  const told = await call.tell({
    do: 'take-in-boards',
    rows: read.rows,
    allOrNothing: call.body.allOrNothing,
    faults: read.faults,
  });
  if (!told.ok) return told;
  return good({ taken: [...(told.value.taken ?? [])], faults: [...(told.value.faults ?? [])], seq: told.value.seq });
};

const listBoards: Handler<'listBoards'> = async (call) => {
  const { after, limit, species, ...filter } = call.query;
  const wood = await speciesKey(call, species, 'species');
  if (!wood.ok) return wood;
  const page = await call.ask('boards', {
    filter: { ...filter, ...(wood.value ? { species: wood.value } : {}) },
    page: pageAsk({ after, limit }),
  });
  if (!page.ok) return page;
  return good({ items: [...(page.value?.items ?? [])], next: page.value?.next ?? null });
};

const readBoard: Handler<'readBoard'> = (call) => boardOf(call, call.path.id ?? '');

const drawOne: Handler<'drawBoard'> = async (call) => {
  const board = await boardOf(call, call.path.id ?? '');
  if (!board.ok) return board;
  const facts = await call.ask('yard-facts', {});
  if (!facts.ok) return facts;
  if (!facts.value) return noBoard;
  return good(drawBoard(board.value, board.value.held, facts.value.settings));
};

const correctBoard: Handler<'correctBoard'> = async (call) => {
  const boardId = call.path.id ?? '';
  const wood = await speciesKey(call, call.body.species, '/species');
  if (!wood.ok) return wood;
  const thicknessCall = call.body.thicknessCall === undefined ? callWritten(call.written()) : null;
  const patch = {
    ...call.body,
    ...(wood.value ? { species: wood.value } : {}),
    ...(thicknessCall === null ? {} : { thicknessCall }),
  };
  const told = await call.tell({ do: 'correct-board', boardId, ifVersion: call.version, patch });
  return told.ok ? boardOf(call, boardId) : told;
};

const readMoisture: Handler<'readMoisture'> = async (call) => {
  const boardId = call.path.id ?? '';
  const told = await call.tell({ do: 'read-moisture', boardId, readings: call.body.readings });
  return told.ok ? boardOf(call, boardId) : told;
};

const writeOffBoard: Handler<'writeOffBoard'> = async (call) => {
  const boardId = call.path.id ?? '';
  const told = await call.tell({ do: 'write-off-board', boardId, why: call.body.why });
  return told.ok ? boardOf(call, boardId) : told;
};

type TagStatus = Answer<'boardStatus'>['rows'][number];

/** A board's state in the words of a cell. */
export function statusWords(board: BoardView): string {
  if (board.state === 'cut-up') return 'cut';
  if (board.state === 'written-off') return 'written off';
  if (board.held.length === 0) return 'free';
  const jobs = [...new Set(board.held.map((held) => held.jobName))].join(', ');
  const heldNm = board.held.reduce((sum, held) => sum + held.toNm - held.fromNm, 0);
  return heldNm >= board.lengthNm ? `held: ${jobs}` : `part held: ${jobs}`;
}

function tagStatus(tag: string, board: BoardView | null, settings: Settings | null): TagStatus {
  if (!board)
    return {
      tag,
      found: false,
      state: null,
      boardId: null,
      words: 'unknown tag',
      heldBy: [],
      moisturePercent: null,
      ready: null,
      readyOn: null,
      dryFor: null,
      facts: null,
    };
  return {
    tag,
    found: true,
    state: board.state,
    boardId: board.id,
    words: statusWords(board),
    heldBy: [...new Set(board.held.map((held) => held.jobName))],
    moisturePercent: latestMoisturePercent(board.readings),
    ...(settings && board.state === 'in-stock'
      ? readyStatus(board, settings)
      : { ready: null, readyOn: null, dryFor: null }),
    facts: {
      species: board.species,
      lengthNm: board.lengthNm,
      widthNm: board.widthNm,
      thicknessNm: board.thicknessNm,
      version: board.version,
    },
  };
}

const boardStatus: Handler<'boardStatus'> = async (call) => {
  const [status, facts] = await Promise.all([
    call.ask('tag-status', { tags: call.body.tags }),
    call.ask('yard-facts', {}),
  ]);
  if (!status.ok) return status;
  if (!facts.ok) return facts;
  const settings = facts.value?.settings ?? null;
  const boards = status.value?.boards ?? [];
  return good({
    rows: call.body.tags.map((tag, index) => tagStatus(tag, boards[index] ?? null, settings)),
    seq: status.value?.seq ?? 0,
  });
};

export const boardHandlers = {
  takeInBoards,
  listBoards,
  readBoard,
  drawBoard: drawOne,
  correctBoard,
  readMoisture,
  writeOffBoard,
  boardStatus,
};
