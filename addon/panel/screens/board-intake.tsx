/** Boards from the sheet: how they were read, what could not be, and then into the yard. */

import { columnFor } from '../../sheet/mapping.ts';
import type { BoardInput } from '../../sheet/read-boards.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField, TextField } from '../parts/field.tsx';
import { View } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useOnce } from '../parts/use-once.ts';
import { useReveal } from '../parts/use-reveal.ts';
import { readDefaultsOf } from '../state/sheet-reading.ts';
import { count, speciesText } from '../words/measure.ts';
import { BoardsCompared } from './board-compared.tsx';
import { SheetRows } from './sheet-rows.tsx';

export function BoardIntake(props: { readonly onBack: () => void }) {
  const { boardRows, shell, yard } = usePanel();
  const { reading } = boardRows;
  useOnce(() => {
    boardRows.startOver();
    reading.setDefaults({
      ...reading.defaults.value,
      ...readDefaultsOf(yard.facts.value),
      readOn: shell.today(),
    });
    void reading.read(shell.rowsFromSheet.value).then((read) => (read ? boardRows.compare() : false));
  });
  const mapping = reading.mapping.value;
  const result = boardRows.result.value;
  const fresh = boardRows.toTakeIn.value.length;
  return (
    <View key={result === null ? 'reading' : 'done'} title="Boards from the sheet" back="Stock" onBack={props.onBack}>
      {result === null ? (
        <SheetRows reading={reading} noun={['board', 'boards']} line={(draft) => <BoardLine draft={draft} />}>
          {(rows) => (
            <div class="form">
              <BoardsCompared />
              {mapping !== null && columnFor(mapping, 'moisture') !== null && columnFor(mapping, 'readOn') === null ? (
                <TextField
                  label="Moisture was read on"
                  type="date"
                  value={reading.defaults.value.readOn ?? ''}
                  onInput={(readOn) =>
                    reading.setDefaults({ ...reading.defaults.value, readOn: readOn === '' ? null : readOn })
                  }
                />
              ) : null}
              {rows.faults.length === 0 ? null : (
                <ChoiceField
                  label="Rows that cannot be read"
                  value={boardRows.allOrNothing.value ? 'all' : 'good'}
                  options={[
                    { value: 'good', label: 'leave out, take the good ones' },
                    { value: 'all', label: 'all or nothing' },
                  ]}
                  onPick={(picked) => {
                    boardRows.allOrNothing.value = picked === 'all';
                  }}
                />
              )}
              <OffcutsAmong />
              <Button kind="primary" task={boardRows.task} off={fresh === 0} onPress={() => void boardRows.takeIn()}>
                Take in {count(fresh, 'board')}
              </Button>
              <PartsIn />
              <TaskStatus task={boardRows.task} />
            </div>
          )}
        </SheetRows>
      ) : (
        <Result onBack={props.onBack} />
      )}
    </View>
  );
}

/** Wood from the offcut bin is used up first and loses nothing at its ends. */
function OffcutsAmong() {
  const { boardRows } = usePanel();
  if (boardRows.toTakeIn.value.length === 0) return null;
  const said = boardRows.sayOffcut.value;
  return (
    <ChoiceField
      label="Offcuts among them"
      value={said === 0 && boardRows.offcuts.value === 'said' ? 'none' : boardRows.offcuts.value}
      options={[
        { value: 'none', label: 'none' },
        ...(said === 0
          ? []
          : [{ value: 'said' as const, label: said === 1 ? 'the 1 that says so' : `the ${said} that say so` }]),
        { value: 'all', label: 'all of them' },
      ]}
      onPick={(picked) => {
        boardRows.offcuts.value = picked;
      }}
    />
  );
}

/** How much of a long list is in, also after it stopped on the way. */
function PartsIn() {
  const progress = usePanel().boardRows.progress.value;
  if (progress === null) return null;
  const { done, of } = progress;
  return (
    <p class="parts-in" role="status">
      <progress value={done} max={of} aria-label="Rows that are in" />
      {done.toLocaleString('en-US')} of {of.toLocaleString('en-US')} rows are in.
    </p>
  );
}

export function BoardLine(props: { readonly draft: BoardInput }) {
  const measure = useMeasure();
  const { draft } = props;
  const size = (value: number | string) =>
    typeof value === 'number' ? measure.length(value, draft.measuredIn ?? 'in') : value;
  const reading = draft.readings?.at(-1);
  return (
    <>
      <strong>{draft.tag}</strong> {speciesText(draft.species)} {draft.thicknessCall ?? ''}
      <br />
      <span class="hint">
        {size(draft.lengthNm)} × {size(draft.widthNm)} × {size(draft.thicknessNm)}
        {reading === undefined ? null : <> · {reading.moisturePercent}&nbsp;%</>}
      </span>
    </>
  );
}

function Result(props: { readonly onBack: () => void }) {
  const { boardRows } = usePanel();
  const reveal = useReveal();
  const result = boardRows.result.value;
  const block = boardRows.reading.block.value;
  if (result === null) return null;
  return (
    <>
      <p>
        <strong>{count(result.count, 'board')}</strong> taken in.
        {result.faults.length === 0 ? null : <> {count(result.faults.length, 'row')} left out by the yard:</>}
      </p>
      {result.faults.length === 0 ? null : (
        <ul class="plain-list faults">
          {result.faults.map((fault) => (
            <li key={`${fault.sheetRow ?? ''} ${fault.help}`}>
              {fault.sheetRow === null ? null : (
                <>
                  <button
                    type="button"
                    class="cell-link"
                    onClick={() => {
                      if (block === null || fault.sheetRow === null) return;
                      reveal({ ...block.area, row: fault.sheetRow, rowCount: 1 });
                    }}
                  >
                    Row {fault.sheetRow + 1}
                  </button>{' '}
                </>
              )}
              {fault.read === null ? null : <q>{fault.read}</q>} {fault.help}
            </li>
          ))}
        </ul>
      )}
      <div class="row">
        <Button onPress={() => void boardRows.writeStatus()}>Write the status beside the rows</Button>
        <Button kind="quiet" onPress={props.onBack}>
          See the stock
        </Button>
      </div>
    </>
  );
}
