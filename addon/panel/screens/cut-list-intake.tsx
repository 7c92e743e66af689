/** The cut list from the sheet: how it was read, how it compares with the job, then set or only taken off. */
import type { ComponentChildren } from 'preact';
import type { PartInput } from '../../sheet/read-parts.ts';
import type { RowsRead } from '../../sheet/read-rows.ts';
import type { RowMatches } from '../../sheet/row-keys.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { Remark, View } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useIntoSight } from '../parts/use-into-sight.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { useOnce } from '../parts/use-once.ts';
import { readDefaultsOf } from '../state/sheet-reading.ts';
import { count, namesText, speciesText } from '../words/measure.ts';
import { SheetRows } from './sheet-rows.tsx';
import { TakeoffView } from './takeoff.tsx';

export function CutListIntake(props: { readonly onBack: () => void }) {
  const { cutList, job, shell, yard } = usePanel();
  const { reading } = cutList;
  const measure = useMeasure();
  const [answer, bringAnswer] = useIntoSight<HTMLDivElement>();
  useOnce(() => {
    reading.setDefaults({ ...reading.defaults.value, ...readDefaultsOf(yard.facts.value) });
    void reading.read(shell.rowsFromSheet.value);
  });
  const now = job.job.value;
  const matches = cutList.matches.value;
  const takeoff = cutList.takeoffOfRows.value;
  const other = cutList.jobOfSheet.value;
  const lost = cutList.lost.value;
  const unread = cutList.unread.value;
  return (
    <View title="Cut list from the sheet" back={now?.name ?? 'Jobs'} onBack={props.onBack}>
      <SheetRows reading={reading} noun={['part', 'parts']} line={(draft) => <PartLine draft={draft} />}>
        {(rows) => (
          <div class="form">
            {matches === null ? null : (
              <Compared
                matches={matches}
                altered={cutList.altered.value}
                lost={lost.length}
                unread={unread.length}
                isOthers={other !== null}
              />
            )}
            {rows.faults.length === 0 ? null : (
              <ChoiceField
                label="Rows that cannot be read"
                value={cutList.allOrNothing.value ? 'all' : 'good'}
                options={[
                  { value: 'all', label: 'all or nothing' },
                  { value: 'good', label: 'leave out, set the good ones' },
                ]}
                onPick={(picked) => {
                  cutList.allOrNothing.value = picked === 'all';
                }}
              />
            )}
            {other === null ? null : <OtherJob other={other} />}
            {now === null ? (
              <p class="hint">Choose or open a job to set its cut list. The takeoff needs none.</p>
            ) : (
              <>
                <SetButton
                  isLikely={other === null}
                  ask={takenOffText(now.name, lost, unread)}
                  why={whyNotSet(rows, cutList.allOrNothing.value)}
                  onPress={async () => {
                    if (await cutList.set()) props.onBack();
                  }}
                >
                  Set {count(rows.rows.length, 'part')} for {now.name}
                </SetButton>
                <p class="hint">
                  Each row gets a short Yard ref in a column of its own, so that it can be sorted and edited freely.
                </p>
              </>
            )}
            <TaskStatus task={job.writing} />
            <Button
              task={job.takingOff}
              off={rows.rows.length === 0}
              onPress={async () => {
                if (await cutList.takeOffRows()) bringAnswer();
              }}
            >
              Take off only
            </Button>
            <TaskStatus task={job.takingOff} />
            {takeoff === null ? null : (
              <>
                <Button kind="quiet" onPress={() => void cutList.writeTakeoff((nm) => measure.length(nm))}>
                  Write the takeoff beside the rows
                </Button>
                <div class="answer" ref={answer}>
                  <TakeoffView takeoff={takeoff} />
                </div>
              </>
            )}
          </div>
        )}
      </SheetRows>
    </View>
  );
}

/** One press where no part is lost, else asks first. */
function SetButton(props: {
  /** These rows are not another job's by the name of their sheet. */
  readonly isLikely: boolean;
  readonly ask: string | null;
  /** Why it cannot be pressed; null when it can. */
  readonly why: string | null;
  readonly onPress: () => Promise<void>;
  readonly children: ComponentChildren;
}) {
  const { job } = usePanel();
  const { isLikely, ask, why, ...rest } = props;
  const button = { ...rest, kind: isLikely ? 'primary' : 'plain', task: job.writing, off: why !== null } as const;
  return (
    <>
      {ask === null ? (
        <Button {...button} />
      ) : (
        <ConfirmButton {...button} ask={ask} yes="Take them off and set the list" />
      )}
      {why === null ? null : <p class="hint">{why}</p>}
    </>
  );
}

/** What setting these rows takes off the job's list, to be asked first; null for nothing. */
export function takenOffText(
  jobName: string,
  lost: readonly { readonly label: string }[],
  unread: readonly { readonly label: string }[],
): string | null {
  const named = (parts: readonly { readonly label: string }[], are: string) =>
    parts.length === 0
      ? []
      : `${count(parts.length, 'part')} of ${jobName} ${are}: ${namesText(parts.map(({ label }) => label))}.`;
  const lines = [
    named(unread, 'would be taken off its list, because the row in the sheet could not be read'),
    named(lost, `${lost.length === 1 ? 'is' : 'are'} not in these rows and would be taken off its list`),
  ].flat();
  return lines.length === 0 ? null : lines.join(' ');
}

function whyNotSet(rows: RowsRead<PartInput>, allOrNothing: boolean): string | null {
  if (rows.rows.length === 0) return 'No row can be set yet.';
  if (!allOrNothing || rows.faults.length === 0) return null;
  return `${count(rows.unread.length, 'row')} cannot be read: put ${rows.unread.length === 1 ? 'it' : 'them'} right in the sheet and read again, or choose above to leave out what cannot be read.`;
}

/** The rows may be another job's: the one that is called as their sheet is offered, or to open it. */
function OtherJob(props: { readonly other: { readonly id: string | null; readonly name: string } }) {
  const { job } = usePanel();
  const { id, name } = props.other;
  return id === null ? (
    <Button kind="primary" task={job.writing} onPress={() => void job.start({ name, dueOn: null })}>
      Open a new job “{name}”
    </Button>
  ) : (
    <>
      <Remark strong>The sheet is named like the job “{name}”; another is in front.</Remark>
      <Button kind="primary" task={job.reading} onPress={() => void job.open(id)}>
        Take the job “{name}” instead
      </Button>
    </>
  );
}

function Compared(props: {
  readonly matches: RowMatches;
  /** Rows that are the same parts and ask for something else of the wood. */
  readonly altered: number;
  readonly lost: number;
  readonly unread: number;
  /** The rows may be another job's. */
  readonly isOthers: boolean;
}) {
  const { lost, unread, isOthers } = props;
  const { rows, keysTornOff } = props.matches;
  const many = (how: RowMatches['rows'][number]['how']) => rows.filter((row) => row.how === how).length;
  const changed = many('changed') + props.altered;
  if (keysTornOff) {
    return (
      <Remark strong>
        The Yard refs stand beside other rows than before, as if only some columns had been sorted. Undo the sort in the
        sheet and read again before setting this list.
      </Remark>
    );
  }
  if (lost + unread === 0 && rows.every((row) => row.how === 'new')) return null;
  const lines = [
    changed > 0 ? `${count(changed, 'part')} changed since the list was set` : '',
    many('new') > 0 ? `${many('new')} new` : '',
    many('found') > 0 ? `${many('found')} known again without a Yard ref` : '',
    many('copied') > 0 ? `${many('copied')} copied, which get a ref of their own` : '',
    lost > 0 ? `${lost} no longer in the sheet; pieces already cut are kept` : '',
  ].filter((line) => line !== '');
  return (
    <>
      {unread === 0 ? null : (
        <Remark strong>
          {count(unread, 'row')} of the job {unread === 1 ? 'stands' : 'stand'} in the sheet but could not be read.
        </Remark>
      )}
      {lines.length === 0 ? null : <Remark strong={isOthers && lost > 0}>{lines.join('; ')}.</Remark>}
    </>
  );
}

export function PartLine(props: { readonly draft: PartInput }) {
  const measure = useMeasure();
  const { draft } = props;
  const size = (value: number | string) =>
    typeof value === 'number' ? measure.length(value, draft.measuredIn ?? 'in') : value;
  const plies = draft.lamination?.kind === 'plies' ? draft.lamination.plies.length : null;
  const staves = draft.lamination?.kind === 'staves' ? draft.lamination.count : null;
  return (
    <>
      <strong>{draft.quantity}</strong> {draft.label}, {speciesText(draft.species)}
      <br />
      <span class="hint">
        <Unbroken text={`${size(draft.lengthNm)} × ${size(draft.widthNm)} × ${size(draft.thicknessNm)}`} />
        {plies === null ? null : `, ${plies} plies`}
        {staves === null ? null : `, ${staves} staves`}
      </span>
    </>
  );
}
