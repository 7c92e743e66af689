/** The boards of the yard: the list with its filter, the board in front, and what is done to it by hand. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { BoardView, Defect, Reading, Warp } from '../../../worker/contract/board.ts';
import type { Drawing } from '../../../worker/contract/drawing.ts';
import type { Body, Query } from '../../../worker/contract/wire.ts';
import type { YardApi } from '../api.ts';
import { keptHere, type Outbox, takenOrKept } from './outbox.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export interface StockFilter {
  readonly words: string;
  readonly species: string;
  readonly only: 'all' | 'free' | 'offcuts';
}

export interface StockState {
  readonly filter: Signal<StockFilter>;
  readonly boards: Pages<BoardView>;
  /** Species met so far in the list, for the filter. */
  readonly speciesSeen: ReadonlySignal<readonly string[]>;
  /** The board in front; null shows the list. */
  readonly openId: ReadonlySignal<string | null>;
  readonly board: ReadonlySignal<BoardView | null>;
  readonly drawing: ReadonlySignal<Drawing | null>;
  /** Reading the board in front. */
  readonly reading: Task;
  /** Changing it. */
  readonly writing: Task;
  open(id: string): Promise<boolean>;
  close(): void;
  addDefect(defect: Defect): Promise<boolean>;
  setWarp(warp: Warp): Promise<boolean>;
  addReading(boardId: string, reading: Reading): Promise<boolean>;
  correct(patch: NonNullable<Body<'correctBoard'>>, said: string): Promise<boolean>;
  writeOff(why: string): Promise<boolean>;
}

export function makeStock(api: YardApi, shell: Shell, outbox: Outbox): StockState {
  const filter = signal<StockFilter>({ words: '', species: '', only: 'all' });
  const speciesSeen = signal<readonly string[]>([]);
  const openId = signal<string | null>(null);
  const board = signal<BoardView | null>(null);
  const drawing = signal<Drawing | null>(null);
  const reading = makeTask();
  const writing = makeTask();

  const boards = makePages<BoardView>('Reading the stock', async (after, take, stop) =>
    taken(await api.call('listBoards', { stop, query: queryOf(filter.value, after) }), (page) => {
      speciesSeen.value = [...new Set([...speciesSeen.value, ...page.items.map((item) => item.species)])].sort();
      take(page);
    }),
  );

  const readOpen = (id: string) =>
    reading.run('Reading the board', async (stop) => {
      const [one, drawn] = await Promise.all([
        api.call('readBoard', { stop, path: { id } }),
        api.call('drawBoard', { stop, path: { id } }),
      ]);
      if (openId.value !== id) return null;
      if (drawn.ok) drawing.value = drawn.answer;
      return taken(one, (answer) => {
        board.value = answer;
      });
    });

  async function change(patch: NonNullable<Body<'correctBoard'>>, said: string): Promise<boolean> {
    const now = board.value;
    if (now === null) return false;
    const done = await writing.run('Writing it down', async (stop) =>
      taken(
        await api.call('correctBoard', { stop, path: { id: now.id }, version: now.version, body: patch }),
        (answer) => {
          board.value = answer;
          shell.say(said);
        },
      ),
    );
    if (done) {
      shell.changed();
      await readOpen(now.id);
    }
    return done;
  }

  return {
    filter,
    boards,
    speciesSeen,
    openId,
    board,
    drawing,
    reading,
    writing,
    async open(id) {
      openId.value = id;
      board.value = boards.items.value?.find((item) => item.id === id) ?? null;
      drawing.value = null;
      writing.clear();
      return readOpen(id);
    },
    close() {
      openId.value = null;
    },
    addDefect: (defect) =>
      change(
        { defects: [...(board.value?.defects ?? []), defect] },
        `Defect noted on ${board.value?.tag ?? 'the board'}.`,
      ),
    setWarp: (warp) => change({ warp }, `Warp noted on ${board.value?.tag ?? 'the board'}.`),
    correct: change,
    async addReading(boardId, taking) {
      const tag = [board.value, ...(boards.items.value ?? [])].find((one) => one?.id === boardId)?.tag ?? 'a board';
      const done = await writing.run('Writing the reading down', async (stop) =>
        takenOrKept(
          await outbox.submit(
            {
              route: 'readMoisture',
              pathId: boardId,
              body: { readings: [taking] },
              what: `Reading of ${tag}: ${taking.moisturePercent} % on ${taking.on}`,
              about: [boardId],
            },
            stop,
          ),
          (answer) => {
            if (openId.value === boardId) board.value = answer;
            shell.say(`${answer.tag}: ${taking.moisturePercent} % on ${taking.on}.`);
          },
          () => shell.say(keptHere),
        ),
      );
      if (done) shell.changed();
      return done;
    },
    async writeOff(why) {
      const now = board.value;
      if (now === null) return false;
      const done = await writing.run('Writing it off', async (stop) =>
        takenOrKept(
          await outbox.submit(
            {
              route: 'writeOffBoard',
              pathId: now.id,
              body: { why },
              what: `${now.tag} written off: ${why}`,
              about: [now.id],
            },
            stop,
          ),
          (answer) => {
            board.value = answer;
            shell.say(`${answer.tag} is written off.`);
          },
          () => shell.say(keptHere),
        ),
      );
      if (done) shell.changed();
      return done;
    },
  };
}

function queryOf(filter: StockFilter, after: string | undefined): Query<'listBoards'> {
  return {
    state: 'in-stock',
    ...(filter.words.trim() === '' ? {} : { q: filter.words.trim() }),
    ...(filter.species === '' ? {} : { species: filter.species }),
    ...(filter.only === 'free' ? { free: 'true' as const } : {}),
    ...(filter.only === 'offcuts' ? { offcuts: 'true' as const } : {}),
    ...(after === undefined ? {} : { after }),
  };
}
