/** The figures that a shop is most likely to change: units, kerf, rests, moisture at the saw, the smallest offcut. */
import { useState } from 'preact/hooks';
import type { Settings } from '../../../worker/contract/settings.ts';
import { allowances } from '../../../worker/wood/rough.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { Fold } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';

/** The common-practice figures that a yard begins with. */
const usual = [
  allowances.squareToLength,
  allowances.finalRip,
  allowances.planeTwoFaces,
  allowances.planeTwoFacesThick,
  allowances.glueJoint,
  allowances.endTrim,
];

const denominators = ['8', '16', '32', '64'] as const;

export function Figures(props: { readonly settings: Settings; readonly mayChange: boolean }) {
  const { yard } = usePanel();
  const measure = useMeasure();
  const { settings } = props;
  const first = {
    ripKerf: measure.length(settings.kerf.ripNm),
    crosscutKerf: measure.length(settings.kerf.crosscutNm),
    offcutLength: measure.length(settings.offcutMin.lengthNm),
    offcutWidth: measure.length(settings.offcutMin.widthNm),
    allowLength: measure.length(settings.allowances.lengthNm),
    allowWidth: measure.length(settings.allowances.widthNm),
    endTrim: measure.length(settings.allowances.endTrimNm),
    planed: measure.length(settings.allowances.thicknessNm),
    planedThick: measure.length(settings.allowances.thicknessThickNm),
    glueJoint: measure.length(settings.allowances.glueJointWidthNm),
    target: String(settings.targetMoisturePercent),
    wetCritical: String(settings.moistureMax.critical),
    wetVisible: String(settings.moistureMax.visible),
    wetHidden: String(settings.moistureMax.hidden),
    restCritical: String(settings.restDays.critical),
    restVisible: String(settings.restDays.visible),
    restHidden: String(settings.restDays.hidden),
    cure: String(settings.cureHours),
    waste: String(settings.wasteFactor),
  };
  type Name = keyof typeof first;
  const [texts, setTexts] = useState(first);
  const [shown, setShown] = useState(settings.shown);
  const [denominator, setDenominator] = useState(settings.denominator);
  if (!props.mayChange) return <p class="hint">Only the owner’s key can change them.</p>;
  const size = (name: Name, now: number) => (texts[name] === first[name] ? now : measure.readPlace(texts[name]));
  const number = (name: Name) => {
    const value = Number(texts[name].replace(',', '.'));
    return texts[name].trim() === '' || !Number.isFinite(value) || value < 0 ? null : value;
  };
  const sizes = {
    rip: size('ripKerf', settings.kerf.ripNm),
    crosscut: size('crosscutKerf', settings.kerf.crosscutNm),
    offcutLength: size('offcutLength', settings.offcutMin.lengthNm),
    offcutWidth: size('offcutWidth', settings.offcutMin.widthNm),
    length: size('allowLength', settings.allowances.lengthNm),
    width: size('allowWidth', settings.allowances.widthNm),
    endTrim: size('endTrim', settings.allowances.endTrimNm),
    planed: size('planed', settings.allowances.thicknessNm),
    planedThick: size('planedThick', settings.allowances.thicknessThickNm),
    glueJoint: size('glueJoint', settings.allowances.glueJointWidthNm),
  };
  const numbers = {
    target: number('target'),
    critical: number('wetCritical'),
    visible: number('wetVisible'),
    hidden: number('wetHidden'),
    restCritical: number('restCritical'),
    restVisible: number('restVisible'),
    restHidden: number('restHidden'),
    cure: number('cure'),
    waste: number('waste'),
  };
  const readable = [...Object.values(sizes), ...Object.values(numbers)].every((value) => value !== null);
  const save = () => {
    const keep = (value: number | null, now: number) => value ?? now;
    void yard.change({
      ...settings,
      shown,
      denominator,
      kerf: { ripNm: keep(sizes.rip, 0), crosscutNm: keep(sizes.crosscut, 0) },
      offcutMin: { lengthNm: keep(sizes.offcutLength, 0), widthNm: keep(sizes.offcutWidth, 0) },
      allowances: {
        ...settings.allowances,
        lengthNm: keep(sizes.length, 0),
        widthNm: keep(sizes.width, 0),
        endTrimNm: keep(sizes.endTrim, 0),
        thicknessNm: keep(sizes.planed, 0),
        thicknessThickNm: keep(sizes.planedThick, 0),
        glueJointWidthNm: keep(sizes.glueJoint, 0),
      },
      targetMoisturePercent: keep(numbers.target, 8),
      moistureMax: {
        ...settings.moistureMax,
        critical: keep(numbers.critical, 0),
        visible: keep(numbers.visible, 0),
        hidden: keep(numbers.hidden, 0),
      },
      restDays: {
        critical: keep(numbers.restCritical, 0),
        visible: keep(numbers.restVisible, 0),
        hidden: keep(numbers.restHidden, 0),
      },
      cureHours: keep(numbers.cure, 0),
      wasteFactor: keep(numbers.waste, 1),
    });
  };
  const field = (name: Name, label: string, fault: boolean) => (
    <TextField
      label={label}
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
      fault={fault ? 'Cannot be read.' : null}
    />
  );
  return (
    <Fold title="Change them">
      <div class="pair">
        <SelectField
          label="Sizes in"
          value={shown}
          options={[
            { value: 'in', label: 'inches' },
            { value: 'mm', label: 'millimetres' },
          ]}
          onPick={setShown}
        />
        <SelectField
          label="Tape reads to"
          value={String(denominator) as (typeof denominators)[number]}
          options={denominators.map((value) => ({ value, label: `1/${value}"` }))}
          onPick={(value) => setDenominator(Number(value) as Settings['denominator'])}
        />
      </div>
      <div class="pair">
        {field('ripKerf', 'Rip kerf', sizes.rip === null)}
        {field('crosscutKerf', 'Crosscut kerf', sizes.crosscut === null)}
      </div>
      <p class="hint">Rough allowances, more than finished, by operation:</p>
      <div class="pair">
        {field('allowLength', 'square to length', sizes.length === null)}
        {field('allowWidth', 'joint and rip', sizes.width === null)}
      </div>
      <div class="pair">
        {field('planed', 'plane, up to 6/4', sizes.planed === null)}
        {field('planedThick', 'plane, 8/4 and up', sizes.planedThick === null)}
      </div>
      <div class="pair">
        {field('glueJoint', 'joint for glue', sizes.glueJoint === null)}
        {field('endTrim', 'trim a board’s end', sizes.endTrim === null)}
      </div>
      <p class="hint">
        Usual: {usual.map(({ operation, addNm }) => `${operation} ${measure.length(addNm)}`).join('; ')} (planing from
        two copies of the grading table, the rest common practice without a source).
      </p>
      <p class="hint">Smallest offcut worth a tag:</p>
      <div class="pair">
        {field('offcutLength', 'Length', sizes.offcutLength === null)}
        {field('offcutWidth', 'Width', sizes.offcutWidth === null)}
      </div>
      <p class="hint">Highest moisture at the saw, %, for parts that are</p>
      <div class="triple">
        {field('wetCritical', 'long, seen', numbers.critical === null)}
        {field('wetVisible', 'seen', numbers.visible === null)}
        {field('wetHidden', 'hidden', numbers.hidden === null)}
      </div>
      <p class="hint">Days of rest after roughing, for parts that are</p>
      <div class="triple">
        {field('restCritical', 'long, seen', numbers.restCritical === null)}
        {field('restVisible', 'seen', numbers.restVisible === null)}
        {field('restHidden', 'hidden', numbers.restHidden === null)}
      </div>
      <div class="pair">
        {field('target', 'Furniture settles at, %', numbers.target === null)}
        {field('cure', 'Glue cures, hours', numbers.cure === null)}
      </div>
      {field('waste', 'Gross wood for each rough board foot', numbers.waste === null)}
      <Button kind="primary" task={yard.changing} off={!readable} onPress={save}>
        Keep these figures
      </Button>
      <TaskStatus task={yard.changing} />
    </Fold>
  );
}
