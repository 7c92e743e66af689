/** Stock: the boards in the yard, found and filtered; the way in for new ones from the sheet. */
import { useRef, useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import { useCore } from '../panel.ts';
import { SelectField, TextField } from '../parts/field.tsx';
import { fetched, WhenFetched } from '../parts/later.tsx';
import { BoardSize } from '../parts/measure.tsx';
import { type Row, RowList } from '../parts/row-list.tsx';
import { Empty, MoreButton } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useReload } from '../parts/use-reload.ts';
import { lastReading } from '../state/drying.ts';
import type { StockFilter } from '../state/stock.ts';
import { boardFeetOf, count, percentText, speciesText } from '../words/measure.ts';
import { FromSheetButton } from './from-sheet-button.tsx';
import { WithWhole } from './with-whole.tsx';

const ASK_AFTER_TYPING_MS = 250;

/** The list is there at once; a board, and reading boards from the sheet, are fetched behind it. */
const boardScreen = fetched(() => import('./board.tsx'));
const intakeScreen = fetched(() => import('./board-intake.tsx'));

export function fetchStock(): void {
  boardScreen.fetch();
  intakeScreen.fetch();
}

export function Stock() {
  const { shell, stock } = useCore();
  const back = () => {
    shell.fromSheet.value = null;
  };
  if (shell.fromSheet.value === 'boards') {
    return (
      <WithWhole>
        <WhenFetched of={intakeScreen}>{({ BoardIntake }) => <BoardIntake onBack={back} />}</WhenFetched>
      </WithWhole>
    );
  }
  if (stock.openId.value !== null) {
    return (
      <WithWhole>
        <WhenFetched of={boardScreen}>
          {({ Board }) => <Board back="All boards" onBack={() => stock.close()} />}
        </WhenFetched>
      </WithWhole>
    );
  }
  return <BoardList />;
}

function BoardList() {
  const { stock, yard } = useCore();
  const filter = stock.filter.value;
  useReload(() => stock.boards.load());
  const boards = stock.boards.items.value;
  const unfiltered = filter.words === '' && filter.species === '' && filter.only === 'all';
  const counts = yard.facts.value?.boards;
  return (
    <>
      <div class="screen-head">
        <h2>Stock</h2>
        {counts === undefined ? null : (
          <p class="sum">
            {count(counts.inStock, 'board')}, {counts.held} held, {count(counts.offcuts, 'offcut')}
          </p>
        )}
      </div>
      <FromSheetButton what="boards" first={boards?.length === 0 && unfiltered}>
        Read boards from the sheet
      </FromSheetButton>
      {boards?.length === 0 && unfiltered ? null : <Filter />}
      <TaskStatus task={stock.boards.task} />
      {boards === null ? null : boards.length === 0 ? (
        unfiltered ? (
          <Empty title="No boards yet">
            <p>
              Write one board a row in your sheet: tag, species, length, width, thickness, and moisture if you have it.
              Any column order and any wording will do. Select one cell of it, then press the button above.
            </p>
          </Empty>
        ) : (
          <Empty title="No board fits this filter">
            <p>Take a word away, or look through all species.</p>
          </Empty>
        )
      ) : (
        <>
          <RowList label="Boards" rows={boards.map((board) => boardRow(board))} onOpen={(id) => void stock.open(id)} />
          <MoreButton pages={stock.boards} />
        </>
      )}
    </>
  );
}

export function boardRow(board: BoardView): Row {
  const last = lastReading(board);
  return {
    key: board.id,
    title: (
      <>
        <strong>{board.tag}</strong> {speciesText(board.species)}
        {board.thicknessCall === null ? null : <> {board.thicknessCall}</>}
      </>
    ),
    figure: boardFeetOf(board),
    under: (
      <>
        <BoardSize size={board} system={board.measuredIn} />
        {last === null ? null : <span> · {percentText(last.moisturePercent)} MC</span>}
        {board.held.length === 0 ? null : (
          <span class="held-by"> · held: {[...new Set(board.held.map((held) => held.jobName))].join(', ')}</span>
        )}
      </>
    ),
  };
}

function Filter() {
  const { stock } = useCore();
  const filter = stock.filter.value;
  const [words, setWords] = useState(filter.words);
  const ask = (next: Partial<StockFilter>) => {
    stock.filter.value = { ...stock.filter.value, ...next };
    void stock.boards.load();
  };
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const type = (typed: string) => {
    setWords(typed);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => ask({ words: typed }), ASK_AFTER_TYPING_MS);
  };
  return (
    <search class="filter">
      <TextField label="Tag, place or note" type="search" value={words} onInput={type} />
      <div class="pair">
        <SelectField
          label="Species"
          value={filter.species}
          options={[
            { value: '', label: 'all' },
            ...stock.speciesSeen.value.map((key) => ({ value: key, label: speciesText(key) })),
          ]}
          onPick={(species) => ask({ species })}
        />
        <SelectField
          label="Show"
          value={filter.only}
          options={[
            { value: 'all', label: 'all in stock' },
            { value: 'free', label: 'free only' },
            { value: 'offcuts', label: 'offcuts only' },
          ]}
          onPick={(only) => ask({ only })}
        />
      </div>
    </search>
  );
}
