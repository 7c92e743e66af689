/** What the glue-ups of the job in front need: glue, clamps, batches, what to see to first; and the sheet to print. */
import { useState } from 'preact/hooks';
import type { Answer, Body } from '../../../worker/contract/wire.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Drawing } from '../parts/drawing.tsx';
import { SelectField, TextField } from '../parts/field.tsx';
import { Empty, type Fact, Facts, Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { taken } from '../state/task.ts';
import { count, figure } from '../words/measure.ts';
import { readNumber } from '../words/typed.ts';

type Gluing = NonNullable<Body<'glueUpJob'>>;
type Part = Answer<'glueUpJob'>['parts'][number];

const glues = {
  pva: 'white or yellow glue',
  polyurethane: 'polyurethane',
  'urea-formaldehyde': 'plastic resin',
  epoxy: 'epoxy',
  resorcinol: 'resorcinol',
} as const;
type GlueName = keyof typeof glues;

const figures = {
  bottle: 'Bottle, mL',
  force: 'One clamp presses, lb',
  clamps: 'Clamps at hand',
  open: 'Open time, minutes',
  spread: 'Minutes to spread a joint',
  clampTime: 'Minutes to set the clamps',
} as const;
type FigureName = keyof typeof figures;
const none: Record<FigureName, string> = { bottle: '', force: '', clamps: '', open: '', spread: '', clampTime: '' };

/** What is wrong with a figure as typed; null where it can be, or is left out. */
export function figureFault(name: FigureName, typed: string): string | null {
  if (typed.trim() === '') return null;
  const value = readNumber(typed);
  if (name === 'clamps' && (value === null || value < 1 || !Number.isInteger(value))) return '1 or more.';
  if (name === 'force' && (value === null || value < 1)) return '1 or more.';
  return value === null || value <= 0 ? 'A number, more than zero.' : null;
}

export function GlueUpForm() {
  const { api, host, job, yard } = usePanel();
  const glueUp = useAsked('glueUpJob', 'Working the glue-up out');
  const [adhesive, setAdhesive] = useState<GlueName>('pva');
  const [texts, setTexts] = useState(none);
  const now = job.job.value;
  if (now === null) {
    return (
      <Empty title="No job is in front">
        <p>Pick one under Job. Parts with plies or staves are glued up.</p>
      </Empty>
    );
  }
  const inPounds = yard.facts.value?.settings.shown !== 'mm';
  const facts = factsOf(adhesive, texts, inPounds);
  const path = { id: now.id };
  const print = () =>
    void glueUp.task.run('Making the sheet', async (stop) =>
      taken(await api.call('glueUpSheet', { stop, path, body: facts }), (html) =>
        host.showPage(`Glue-up, ${now.name}`, html),
      ),
    );
  const field = (name: FigureName) => (
    <TextField
      label={name === 'force' && !inPounds ? 'One clamp presses, N' : figures[name]}
      numeric
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
      fault={figureFault(name, texts[name])}
    />
  );
  const isWrong = (Object.keys(none) as FigureName[]).some((name) => figureFault(name, texts[name]) !== null);
  const answer = glueUp.answer.value;
  return (
    <div class="form">
      <p class="hint">
        Parts of {now.name} made of plies (face to face) or staves (edge to edge) that are still to be glued up.
      </p>
      <SelectField
        label="Glue"
        value={adhesive}
        options={(Object.keys(glues) as GlueName[]).map((value) => ({ value, label: glues[value] }))}
        onPick={setAdhesive}
      />
      <div class="pair">
        {field('bottle')}
        {field('force')}
      </div>
      <div class="pair">
        {field('clamps')}
        {field('open')}
      </div>
      <div class="pair">
        {field('spread')}
        {field('clampTime')}
      </div>
      <div class="row">
        <Button kind="primary" task={glueUp.task} off={isWrong} onPress={() => void glueUp.ask({ path, body: facts })}>
          Work it out
        </Button>
        <Button task={glueUp.task} off={isWrong} onPress={print}>
          Print the sheet
        </Button>
      </div>
      <TaskStatus task={glueUp.task} />
      {answer === null ? null : answer.parts.length === 0 ? (
        <p class="hint">No part of this job is left to glue up.</p>
      ) : (
        <>
          {answer.parts.map((part) => (
            <GluePart key={part.partKey} part={part} />
          ))}
          <ul class="plain-list">
            {answer.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </div>
  );
}

function factsOf(adhesive: GlueName, texts: Record<FigureName, string>, inPounds: boolean): Gluing {
  const given = <K extends string>(name: FigureName, as: K) => {
    const value = readNumber(texts[name]);
    return value === null ? {} : ({ [as]: value } as { [Key in K]: number });
  };
  return {
    adhesive,
    ...given('bottle', 'bottleMl'),
    ...(inPounds ? given('force', 'clampForceLbf') : given('force', 'clampForceN')),
    ...given('clamps', 'clampsAtHand'),
    ...given('open', 'openMinutes'),
    ...given('spread', 'spreadMinutesPerJoint'),
    ...given('clampTime', 'clampMinutes'),
  };
}

function GluePart(props: { readonly part: Part }) {
  const { part } = props;
  const open = part.checklist.filter(({ met }) => met !== true);
  return (
    <Section title={part.label}>
      <Facts facts={partFacts(part)} />
      <Drawing drawing={part.drawing} twinTitle="The end in words" />
      <p class="hint">Ring orientation is a suggestion (common practice, no source).</p>
      <Fold title={`To see to first: ${open.length} of ${part.checklist.length}`}>
        <ol class="plain-list">
          {part.checklist.map((item) => (
            <li key={item.check}>
              {item.met === true ? '✓ ' : item.met === false ? 'Not met: ' : ''}
              {item.check}
              <br />
              <span class="hint">
                {item.detail} ({item.source})
              </span>
            </li>
          ))}
        </ol>
      </Fold>
    </Section>
  );
}

const span = ([least, most]: readonly [number, number], decimals: number) =>
  figure(least, decimals) === figure(most, decimals)
    ? figure(least, decimals)
    : `${figure(least, decimals)} to ${figure(most, decimals)}`;

function partFacts(part: Part): Fact[] {
  const { clamps, batches, moisture } = part;
  const facts: Fact[] = [
    { name: 'To glue', value: `${count(part.copies, 'piece')}, ${part.elements.length} ${part.kind} each` },
    {
      name: 'Glue',
      value: `${span(part.glueMl, 0)} mL${part.bottles === null ? '' : `, ${count(part.bottles, 'bottle')}`}`,
    },
  ];
  if (clamps !== null) {
    facts.push({ name: 'Clamps', value: `${span([clamps.least.count, clamps.most.count], 0)} a piece` });
  }
  facts.push({
    name: 'Batches',
    value: batches === null ? (part.batchesWhy ?? '–') : `${batches.count}`,
  });
  facts.push({ name: 'In clamps', value: `${span(part.clampHours, 0)} hours` });
  facts.push({
    name: 'Moisture',
    value: moisture === null ? 'no reading of its layers' : `${figure(moisture.apartPoints, 1)} points apart`,
  });
  return facts;
}
