/** One board that came out otherwise than planned: good and failed pieces, offcuts with their tags, defects found; the wood account beside it. */
import { useState } from 'preact/hooks';
import type { Layout } from '../../../worker/contract/plan.ts';
import { usePanel } from '../panel.ts';
import { Balance } from '../parts/balance.tsx';
import { Button } from '../parts/button.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { LayerWords } from '../parts/layer-words.tsx';
import { Fold } from '../parts/section.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import {
  accountOfForm,
  type BoardForm,
  countOf,
  type FormFault,
  type OffcutRow,
  offcutTag,
  type PartRow,
  typedSize,
} from '../state/reconcile-form.ts';
import { defectWords, layerWords } from '../words/trade.ts';
import { DefectForm } from './board-forms.tsx';

interface CutFormProps {
  readonly layout: Layout;
  readonly form: BoardForm;
  readonly faults: readonly FormFault[];
  readonly onChange: (form: BoardForm) => void;
}

export function CutForm(props: CutFormProps) {
  const { layout, form, onChange } = props;
  const measure = useMeasure();
  const account = accountOfForm(layout, form, measure.read);
  return (
    <div class="form">
      {form.parts.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: one part may stand in two rows; rows are only added at the end
        <PartFields key={`${row.partKey} ${row.element} ${index}`} {...props} row={row} index={index} />
      ))}
      <AnotherPart {...props} />
      {form.offcuts.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row has no name but its place until its tag is typed
        <OffcutFields key={index} {...props} row={row} index={index} />
      ))}
      <Button
        kind="quiet"
        onPress={() =>
          onChange({
            ...form,
            offcuts: [
              ...form.offcuts,
              {
                tag: offcutTag(layout.tag, form.offcuts.length),
                lengthEntry: typedSize(''),
                widthEntry: typedSize(''),
                place: '',
              },
            ],
          })
        }
      >
        Another offcut
      </Button>
      <Fold title={form.defects.length === 0 ? 'Defects found' : `Defects found: ${form.defects.length}`}>
        <ul class="plain-list">
          {form.defects.map((defect, index) => (
            <li key={`${defect.kind} ${defect.fromNm} ${defect.leftNm}`} class="row spread">
              <span>
                {defectWords[defect.kind]}, {measure.length(defect.fromNm)} to {measure.length(defect.toNm)}
              </span>
              <Button
                kind="quiet"
                onPress={() => onChange({ ...form, defects: form.defects.filter((_, at) => at !== index) })}
              >
                Take away
              </Button>
            </li>
          ))}
        </ul>
        <DefectForm
          boardLengthNm={layout.lengthNm}
          boardWidthNm={layout.widthNm}
          onAdd={async (defect) => {
            onChange({ ...form, defects: [...form.defects, defect] });
            return true;
          }}
        />
      </Fold>
      <TextField label="Note" value={form.note} onInput={(note) => onChange({ ...form, note })} />
      {account === null ? null : <Balance account={account} of={layout.tag} />}
    </div>
  );
}

type SizeEntries = Pick<PartRow, 'lengthEntry' | 'widthEntry'>;

/** Length and width as they came out, until then as planned. */
function SizeFields(props: {
  readonly row: SizeEntries;
  readonly onInput: (change: Partial<SizeEntries>) => void;
  readonly fault: (field: 'length' | 'width') => string | undefined;
}) {
  const { row, onInput, fault } = props;
  const [touched, setTouched] = useState({ length: false, width: false });
  // A new row starts empty; that is no fault yet.
  const faultOf = (field: 'length' | 'width') =>
    touched[field] || row[`${field}Entry`].text !== '' ? fault(field) : undefined;
  const type = (field: 'length' | 'width') => (text: string) => {
    setTouched({ ...touched, [field]: true });
    onInput({ [`${field}Entry`]: typedSize(text) });
  };
  return (
    <>
      <TextField label="Length" value={row.lengthEntry.text} onInput={type('length')} fault={faultOf('length')} />
      <TextField label="Width" value={row.widthEntry.text} onInput={type('width')} fault={faultOf('width')} />
    </>
  );
}

function PartFields(props: CutFormProps & { readonly row: PartRow; readonly index: number }) {
  const { form, row, index, onChange } = props;
  const put = (change: Partial<PartRow>) =>
    onChange({ ...form, parts: form.parts.map((one, at) => (at === index ? { ...one, ...change } : one)) });
  const fault = (field: string) => props.faults.find((one) => one.at === `parts.${index}.${field}`)?.help;
  const failed = (countOf(row.failed) ?? 0) > 0;
  return (
    <fieldset class="lines">
      <legend>
        {row.label}
        <LayerWords of={row} />{' '}
        <span class="hint">{row.planned > 0 ? `planned ${row.planned}` : 'not planned here'}</span>
      </legend>
      <div class="pair">
        <TextField label="Good" numeric value={row.good} onInput={(good) => put({ good })} fault={fault('good')} />
        <TextField
          label="Failed"
          numeric
          value={row.failed}
          onInput={(failedText) => put({ failed: failedText })}
          fault={fault('failed')}
        />
        <SizeFields row={row} onInput={put} fault={fault} />
      </div>
      {failed ? (
        <TextField
          label="Why they failed"
          value={row.why}
          onInput={(why) => put({ why })}
          fault={fault('why')}
          placeholder="warped, split, miscut"
        />
      ) : null}
    </fieldset>
  );
}

function OffcutFields(props: CutFormProps & { readonly row: OffcutRow; readonly index: number }) {
  const { form, row, index, onChange } = props;
  const put = (change: Partial<OffcutRow>) =>
    onChange({ ...form, offcuts: form.offcuts.map((one, at) => (at === index ? { ...one, ...change } : one)) });
  const fault = (field: string) => props.faults.find((one) => one.at === `offcuts.${index}.${field}`)?.help;
  return (
    <fieldset class="lines">
      <legend>Offcut</legend>
      <TextField label="Tag" value={row.tag} onInput={(tag) => put({ tag })} fault={fault('tag')} />
      <div class="pair">
        <SizeFields row={row} onInput={put} fault={fault} />
      </div>
      <TextField label="Place" value={row.place} onInput={(place) => put({ place })} />
      <Button kind="quiet" onPress={() => onChange({ ...form, offcuts: form.offcuts.filter((_, at) => at !== index) })}>
        No such offcut
      </Button>
    </fieldset>
  );
}

/** A part that came out of this board though it was planned for another. */
function AnotherPart(props: CutFormProps) {
  const { job } = usePanel();
  const { form, onChange } = props;
  const [picked, setPicked] = useState('');
  const choices = (job.job.value?.parts ?? []).flatMap((part) => {
    const { lamination } = part;
    const layers = lamination === null ? 0 : lamination.kind === 'plies' ? lamination.plies.length : lamination.count;
    const elements = layers === 0 ? [null] : Array.from({ length: layers }, (_, element) => element);
    return elements.map((element) => ({ key: `${part.key} ${element ?? ''}`, part, element }));
  });
  if (choices.length === 0) return null;
  return (
    <SelectField
      label="Another part came out"
      value={picked}
      options={[
        { value: '', label: 'choose a part' },
        ...choices.map(({ key, part, element }) => ({ value: key, label: part.label + layerWords(element, part) })),
      ]}
      onPick={(key) => {
        setPicked('');
        const choice = choices.find((one) => one.key === key);
        if (choice === undefined) return;
        const { part, element } = choice;
        onChange({
          ...form,
          parts: [
            ...form.parts,
            {
              partKey: part.key,
              element,
              label: part.label,
              planned: 0,
              good: '1',
              failed: '0',
              why: '',
              lengthEntry: typedSize(''),
              widthEntry: typedSize(''),
            },
          ],
        });
      }}
    />
  );
}
