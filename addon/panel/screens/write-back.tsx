/** Before a write into the sheet: what it is, what stands in the way, cell by cell; afterwards the way back. */
import { useEffect, useState } from 'preact/hooks';
import type { Clash, ClashWhy } from '../../host/host.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { CheckField } from '../parts/field.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useReveal } from '../parts/use-reveal.ts';
import type { Pending } from '../state/write-back.ts';
import { count } from '../words/measure.ts';

const why: Record<ClashWhy, string> = {
  formula: 'a formula',
  'not-empty': 'something of yours',
  changed: 'changed since it was read',
  protected: 'protected',
  merged: 'a merged cell',
  hidden: 'a hidden row',
};

export function WriteBackNote() {
  const { writeBack, shell } = usePanel();
  const reveal = useReveal();
  const pending = writeBack.pending.value;
  const [hidden, setHidden] = useState<unknown>(null);
  const tab = shell.tab.value;
  // Read by the next screen; Help and the program's own menu still take it back.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only the change of screen counts
  useEffect(() => setHidden(writeBack.last.peek()), [tab]);
  const last = writeBack.last.value === hidden ? null : writeBack.last.value;
  if (
    pending === null &&
    last === null &&
    writeBack.task.trouble.value === null &&
    writeBack.task.saying.value === null
  )
    return null;
  return (
    <aside class={`write-back${pending === null ? ' written' : ''}`} aria-label="Writing into the sheet">
      {pending !== null ? <Preview key={pending.what} pending={pending} /> : null}
      <TaskStatus task={writeBack.task} />
      {pending === null && last !== null ? (
        <div class="row spread">
          <span>Written: {last.what}.</span>
          <span class="row tight">
            {last.top === null ? null : (
              <Button kind="quiet" name="Show what was written" onPress={() => last.top && reveal(last.top)}>
                Show
              </Button>
            )}
            <Button kind="quiet" name="Undo last write" task={writeBack.task} onPress={() => void writeBack.undo()}>
              Undo
            </Button>
            <Button kind="quiet" name="Hide this note" onPress={() => setHidden(last)}>
              ×
            </Button>
          </span>
        </div>
      ) : null}
    </aside>
  );
}

function Preview(props: { readonly pending: Pending }) {
  const { writeBack } = usePanel();
  const reveal = useReveal();
  const { planned, clashes, what } = props.pending;
  const { plan } = planned;
  const [over, setOver] = useState<readonly string[]>([]);
  const free = plan.cells.length - clashes.length;
  const headings = planned.columns.map((column) => `“${column.heading}”`).join(', ');
  return (
    <div class="preview">
      <p class="note-title">{what}</p>
      <p>
        {count(free + over.length, 'cell')}
        {headings === '' ? '' : ` in ${headings}`} on “{plan.sheet}”
        {clashes.length === 0 ? '.' : `; ${count(clashes.length - over.length, 'cell')} stay as they are.`}
      </p>
      {clashes.length === 0 ? null : (
        <ul class="plain-list">
          {clashes.map((clash) => (
            <li key={clash.address}>
              <Clashing
                clash={clash}
                over={over.includes(clash.address)}
                onOver={(on) => setOver(on ? [...over, clash.address] : over.filter((a) => a !== clash.address))}
                onReveal={() =>
                  reveal({
                    sheet: plan.sheet,
                    row: clash.row,
                    column: clash.column,
                    rowCount: 1,
                    columnCount: 1,
                  })
                }
              />
            </li>
          ))}
        </ul>
      )}
      <div class="row">
        <Button
          kind="primary"
          task={writeBack.task}
          off={free + over.length === 0}
          onPress={() => void writeBack.write(over)}
        >
          Write
        </Button>
        <Button kind="quiet" onPress={() => writeBack.cancel()}>
          Leave the sheet alone
        </Button>
      </div>
    </div>
  );
}

function Clashing(props: {
  readonly clash: Clash;
  readonly over: boolean;
  readonly onOver: (on: boolean) => void;
  readonly onReveal: () => void;
}) {
  const { clash } = props;
  const can = clash.why === 'not-empty' || clash.why === 'changed' || clash.why === 'formula';
  return (
    <>
      <button type="button" class="cell-link" onClick={props.onReveal}>
        {clash.address}
      </button>{' '}
      {clash.why === 'protected' ? (
        <>
          is protected{clash.protectedBy === undefined ? '' : ` by ${clash.protectedBy}`}. It stays as it is; whoever
          protects it can let you edit it.
        </>
      ) : (
        <>
          holds {why[clash.why]}
          {clash.holds === '' ? null : <>: “{clash.holds}”</>}
        </>
      )}
      {can ? <CheckField label={`Write over ${clash.address}`} on={props.over} onChange={props.onOver} /> : null}
    </>
  );
}
