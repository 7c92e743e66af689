/** What really came out of the boards of a session: all as planned with one press, or board by board. */
import type { Layout } from '../../../worker/contract/plan.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { ChoiceField, TextField } from '../parts/field.tsx';
import { Section, View } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import type { SessionInFront } from '../state/cuts.ts';
import {
  type Became,
  type BoardForm,
  bodyOf,
  faultWords,
  formFaults,
  formOf,
  restAsPlanned,
} from '../state/reconcile-form.ts';
import { problemName } from '../state/task.ts';
import { count } from '../words/measure.ts';
import { CutForm } from './cut-form.tsx';
import { SessionSheet } from './session-sheet.tsx';

export function Reconcile(props: { readonly session: SessionInFront; readonly onBack: () => void }) {
  const { cuts } = usePanel();
  const measure = useMeasure();
  const { session } = props;
  const open = cuts.openLayouts(session);
  const forms = open.map(
    (layout) => cuts.forms.value.get(layout.boardId) ?? formOf(layout, (nm) => measure.length(nm)),
  );
  const told = forms.filter((form) => form.became !== 'later');
  const faulty = forms.flatMap((form, index) => {
    const [fault] = formFaults(form, measure.read);
    return fault === undefined ? [] : [`${open[index]?.tag ?? ''}: ${faultWords(form, fault)}`];
  });
  const later = forms.length - told.length;
  const trouble = cuts.writing.trouble.value;
  const tooMany = trouble?.kind === 'problem' && problemName(trouble.problem) === 'more-cut-than-wanted';
  const put = (form: BoardForm) => {
    cuts.forms.value = new Map(cuts.forms.value).set(form.boardId, form);
  };
  const send = (allowExtra: boolean) => void cuts.reconcile(bodyOf(told, measure.read, allowExtra));
  return (
    <View title="What came out" back="Cuts" onBack={props.onBack}>
      <p class="hint">
        {session.jobName}. {count(open.length, 'board')} still to write down.
      </p>
      <ConfirmButton
        kind={told.length === 0 ? 'primary' : 'plain'}
        ask={`Write down ${open.length === 1 ? 'the board' : `all ${open.length} boards`} as planned, every piece good? Offcuts get the board’s tag with a number.`}
        yes="All as planned"
        task={cuts.writing}
        onPress={() => void cuts.reconcile({ restAsPlanned: true, boards: [], allowExtra: false })}
      >
        All as planned
      </ConfirmButton>
      <SessionSheet
        session={session}
        boards={open.map((layout) => ({ tag: layout.tag, form: formOf(layout, (nm) => measure.length(nm)) }))}
      />
      <Section title="Or board by board">
        {open.map((layout, index) => {
          const form = forms[index];
          return form === undefined ? null : (
            <BoardOutcome key={layout.boardId} layout={layout} form={form} onChange={put} />
          );
        })}
      </Section>
      {told.length === 0 ? null : (
        <>
          {later === 0 ? null : (
            <Button
              onPress={() => {
                cuts.forms.value = new Map(restAsPlanned(forms).map((form) => [form.boardId, form]));
              }}
            >
              The rest as planned, {count(later, 'board')}
            </Button>
          )}
          <Button kind="primary" task={cuts.writing} off={faulty.length > 0} onPress={() => send(false)}>
            Write down {count(told.length, 'board')}
          </Button>
          {faulty.map((words) => (
            <p class="hint" key={words}>
              <Unbroken text={words} />
            </p>
          ))}
        </>
      )}
      <TaskStatus task={cuts.writing} />
      {tooMany ? (
        <Button task={cuts.writing} onPress={() => send(true)}>
          Keep the extra pieces as spares
        </Button>
      ) : null}
    </View>
  );
}

function BoardOutcome(props: {
  readonly layout: Layout;
  readonly form: BoardForm;
  readonly onChange: (form: BoardForm) => void;
}) {
  const { layout, form, onChange } = props;
  const measure = useMeasure();
  const faults = formFaults(form, measure.read);
  return (
    <div class="card">
      <h4>{layout.tag}</h4>
      <ChoiceField<Became>
        label={`What became of ${layout.tag}`}
        value={form.became}
        options={[
          { value: 'later', label: 'later' },
          { value: 'planned', label: 'as planned' },
          ...(layout.reserves.length > 0
            ? [{ value: 'reserve-kept' as const, label: 'as planned, reserve strips left whole' }]
            : []),
          { value: 'cut', label: 'otherwise' },
          { value: 'untouched', label: 'not touched' },
          { value: 'written-off', label: 'written off' },
        ]}
        onPick={(became) => onChange({ ...form, became })}
      />
      {form.became === 'planned' ? <PlannedOffcuts form={form} onChange={onChange} /> : null}
      {form.became === 'reserve-kept'
        ? layout.reserves.map(({ words }) => (
            <p class="hint" key={words}>
              {words} It gets a tag of its own and stays held for this job.
            </p>
          ))
        : null}
      {form.became === 'cut' ? <CutForm layout={layout} form={form} faults={faults} onChange={onChange} /> : null}
      {form.became === 'untouched' || form.became === 'written-off' ? (
        <TextField
          label={form.became === 'untouched' ? 'Why, if it matters' : 'Why'}
          value={form.why}
          onInput={(why) => onChange({ ...form, why })}
          fault={form.why === '' ? null : faults.find((fault) => fault.at === 'why')?.help}
        />
      ) : null}
    </div>
  );
}

function PlannedOffcuts(props: { readonly form: BoardForm; readonly onChange: (form: BoardForm) => void }) {
  const { form, onChange } = props;
  if (form.offcuts.length === 0) return <p class="hint">The plan keeps no offcut of it.</p>;
  return (
    <>
      {form.offcuts.map((row, index) => (
        <TextField
          // biome-ignore lint/suspicious/noArrayIndexKey: the planned offcuts neither move nor go
          key={index}
          label={`Tag of the offcut ${row.lengthEntry.text} × ${row.widthEntry.text}`}
          value={row.tag}
          onInput={(tag) =>
            onChange({ ...form, offcuts: form.offcuts.map((one, at) => (at === index ? { ...one, tag } : one)) })
          }
        />
      ))}
    </>
  );
}
