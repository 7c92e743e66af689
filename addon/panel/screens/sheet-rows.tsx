/** Rows from the sheet before anything is stored: where they stand, how the columns were read, what could not be read. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { cellAddress } from '../../sheet/address.ts';
import type { RowFault, RowsRead } from '../../sheet/read-rows.ts';
import { roleNames } from '../../sheet/role-names.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField, TextField } from '../parts/field.tsx';
import { Mapping } from '../parts/mapping.tsx';
import { Fold, Remark } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useReveal } from '../parts/use-reveal.ts';
import type { SheetReading } from '../state/sheet-reading.ts';
import { count } from '../words/measure.ts';

export function SheetRows<Draft>(props: {
  readonly reading: SheetReading<Draft>;
  readonly noun: readonly [one: string, many: string];
  /** A row as it was read, in a line. */
  readonly line: (draft: Draft) => ComponentChildren;
  /** What can be done with the rows. */
  readonly children: (rows: RowsRead<Draft>) => ComponentChildren;
}) {
  const { reading, noun } = props;
  const block = reading.block.value;
  const mapping = reading.mapping.value;
  const rows = reading.rows.value;
  const selected = reading.selected.value;
  return (
    <>
      <div class="row spread">
        <p class="hint">
          {block === null || mapping === null
            ? 'Select one cell of the table in your sheet.'
            : `“${block.area.sheet}”, ${cellAddress(block.area.row + mapping.headerRow, block.area.column)} to ${cellAddress(block.area.row + mapping.lastRow, block.area.column + block.area.columnCount - 1)}`}
        </p>
        <Button kind={mapping === null ? 'primary' : 'quiet'} task={reading.task} onPress={() => void reading.read()}>
          {mapping === null ? 'Read the table' : 'Read again'}
        </Button>
      </div>
      <TaskStatus task={reading.task} />
      {block === null || mapping === null ? null : (
        <>
          {selected !== null && selected.rowCount > 1 ? (
            <ChoiceField
              label="Rows"
              value={reading.only.value}
              options={[
                { value: 'table', label: 'whole table' },
                { value: 'selected', label: `selected, ${selected.rowCount}` },
              ]}
              onPick={(only) => {
                reading.only.value = only;
              }}
            />
          ) : null}
          <Fold title="How the columns were read" open={!reading.remembered.value || mapping.missing.length > 0}>
            <Mapping
              mapping={mapping}
              firstColumn={block.area.column}
              onChange={(next) => reading.remap(next)}
              asksForDates={rows?.faults.some((fault) => fault.proposes !== null) ?? false}
            />
          </Fold>
          {mapping.questions.map((question) => (
            <Remark key={question}>{question}</Remark>
          ))}
          {rows === null ? null : (
            <>
              <Sum rows={rows} noun={noun} />
              <Faults faults={rows.faults} sheet={block.area.sheet} />
              <Spellings reading={reading} faults={rows.faults} />
              {rows.rows.length === 0 ? null : (
                <Fold title={`The ${noun[1]} as they were read`}>
                  <ul class="plain-list">
                    {rows.rows.slice(0, LINES_SHOWN).map((row) => (
                      <li key={row.sheetRow}>{props.line(row.draft)}</li>
                    ))}
                  </ul>
                  {rows.rows.length > LINES_SHOWN ? (
                    <p class="hint">and {count(rows.rows.length - LINES_SHOWN, 'more', 'more')}</p>
                  ) : null}
                </Fold>
              )}
              {rows.doubts.map((doubt) => (
                <Remark strong key={doubt}>
                  <Unbroken text={doubt} />
                </Remark>
              ))}
              {rows.notes.length === 0 ? null : (
                <Fold title="What was assumed">
                  <ul class="plain-list">
                    {rows.notes.map((note) => (
                      <li key={note}>{note}</li>
                    ))}
                  </ul>
                </Fold>
              )}
              {props.children(rows)}
            </>
          )}
        </>
      )}
    </>
  );
}

const LINES_SHOWN = 60;
const FAULTS_SHOWN = 30;

function Sum<Draft>(props: { readonly rows: RowsRead<Draft>; readonly noun: readonly [string, string] }) {
  const { rows, noun } = props;
  const faulty = new Set(rows.faults.map((fault) => fault.sheetRow)).size;
  const skipped = new Map<string, number>();
  for (const one of rows.skipped) skipped.set(one.why, (skipped.get(one.why) ?? 0) + 1);
  const passed = [...skipped].filter(([why]) => why !== 'blank').map(([why, many]) => `${many} ${why}`);
  return (
    <p>
      <strong>{count(rows.rows.length, noun[0], noun[1])}</strong> can be read
      {faulty === 0 ? null : <>; {count(faulty, 'row')} cannot</>}.
      {passed.length === 0 ? null : <span class="hint"> Passed over: {passed.join(', ')}.</span>}
    </p>
  );
}

export function Faults(props: { readonly faults: readonly RowFault[]; readonly sheet: string }) {
  const reveal = useReveal();
  const [all, setAll] = useState(false);
  if (props.faults.length === 0) return null;
  const shown = all ? props.faults : props.faults.slice(0, FAULTS_SHOWN);
  return (
    <div>
      <ul class="plain-list faults" aria-label="Cells that could not be read">
        {shown.map((fault) => (
          <li key={`${fault.address} ${fault.help}`}>
            <button
              type="button"
              class="cell-link"
              aria-label={`Show cell ${fault.address}`}
              onClick={() =>
                reveal({
                  sheet: props.sheet,
                  row: fault.sheetRow,
                  column: fault.column,
                  rowCount: 1,
                  columnCount: 1,
                })
              }
            >
              {fault.address}
            </button>{' '}
            {roleNames[fault.field].toLowerCase()}:{' '}
            {fault.read === '' || fault.help.includes(fault.read) ? null : <q>{fault.read}</q>} {fault.help}
          </li>
        ))}
      </ul>
      {shown.length < props.faults.length ? (
        <Button kind="quiet" onPress={() => setAll(true)}>
          Show all {props.faults.length}
        </Button>
      ) : null}
    </div>
  );
}

/** The shop's own short forms of species, settled once a text. */
function Spellings<Draft>(props: { readonly reading: SheetReading<Draft>; readonly faults: readonly RowFault[] }) {
  const { reading } = props;
  const unknown = [...new Set(props.faults.filter((fault) => fault.field === 'species').map((fault) => fault.read))];
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  if (unknown.length === 0) return null;
  const settle = () => {
    const spellings = { ...reading.defaults.value.spellings };
    for (const text of unknown) {
      const meant = typed[text]?.trim();
      if (meant !== undefined && meant !== '') spellings[text.trim().toLowerCase()] = meant;
    }
    reading.setDefaults({ ...reading.defaults.value, spellings });
  };
  return (
    <Fold title="Say what these species are" open>
      {unknown.map((text) => (
        <TextField
          key={text}
          label={text === '' ? 'No species written' : `“${text}” is`}
          value={typed[text] ?? ''}
          placeholder="white oak"
          onInput={(value) => setTyped({ ...typed, [text]: value })}
          onEnter={settle}
        />
      ))}
      <Button onPress={settle}>Read them so</Button>
    </Fold>
  );
}
