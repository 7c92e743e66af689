/** A solid panel, a floating panel or a drawer through the year: what it does, and the room that it needs. */
import { useState } from 'preact/hooks';
import type { Settings } from '../../../worker/contract/settings.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Drawing } from '../parts/drawing.tsx';
import { ChoiceField, SelectField, TextField } from '../parts/field.tsx';
import { type Fact, Facts } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useMeasure } from '../parts/use-measure.ts';
import type { Measure } from '../words/measure.ts';
import { grainWords } from '../words/trade.ts';
import { readNumber } from '../words/typed.ts';

const whats = {
  widthNm: 'top or panel',
  panelOpeningNm: 'panel in a frame',
  drawerOpeningNm: 'drawer',
} as const;
const sizeLabels = {
  widthNm: 'Width across the grain',
  panelOpeningNm: 'Opening between the stiles',
  drawerOpeningNm: 'Height of the opening',
} as const;
type What = keyof typeof whats;
type GrainWord = keyof typeof grainWords;

export function MovementForm() {
  const { yard } = usePanel();
  const measure = useMeasure();
  const movement = useAsked('woodMovement', 'Working the year out');
  const [what, setWhat] = useState<What>('widthNm');
  const [grain, setGrain] = useState<GrainWord>('flat');
  const target = yard.facts.value?.settings.targetMoisturePercent ?? 8;
  const [texts, setTexts] = useState({ species: '', size: '', made: String(target), low: '4', high: '13.5' });
  const field = (name: keyof typeof texts, label: string, hint?: string) => (
    <TextField
      label={label}
      hint={hint}
      numeric={name !== 'species' && name !== 'size'}
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
    />
  );
  const sizeNm = measure.read(texts.size);
  const [made, low, high] = [texts.made, texts.low, texts.high].map(readNumber);
  const ready =
    texts.species.trim() !== '' &&
    sizeNm !== null &&
    typeof made === 'number' &&
    typeof low === 'number' &&
    typeof high === 'number';
  const ask = () => {
    if (!ready) return;
    void movement.ask({
      body: { species: texts.species, grain, madePercent: made, lowPercent: low, highPercent: high, [what]: sizeNm },
    });
  };
  const answer = movement.answer.value;
  return (
    <div class="form">
      {field('species', 'Species')}
      <ChoiceField
        label="What"
        value={what}
        options={(Object.keys(whats) as What[]).map((value) => ({ value, label: whats[value] }))}
        onPick={setWhat}
      />
      <div class="pair">
        {field('size', sizeLabels[what])}
        <SelectField
          label="Sawn"
          value={grain}
          options={(Object.keys(grainWords) as GrainWord[]).map((value) => ({ value, label: grainWords[value] }))}
          onPick={setGrain}
        />
      </div>
      <div class="triple">
        {field('made', 'Made at, %')}
        {field('low', 'Driest, %')}
        {field('high', 'Dampest, %')}
      </div>
      <p class="hint">
        4 to 13.5 % is what US interiors go through (a study, second hand). Put in the range of the place it goes to.
      </p>
      <Button kind="primary" task={movement.task} off={!ready} onPress={ask}>
        Show the year
      </Button>
      <TaskStatus task={movement.task} />
      {answer === null ? null : (
        <>
          <Facts facts={factsOf(answer, measure, tapeStepNm(yard.facts.value?.settings))} />
          {answer.drawing === null ? null : <Drawing drawing={answer.drawing} twinTitle="The year in words" />}
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </div>
  );
}

/** The smallest step that the shop reads, so that a least depth is never shown smaller than it is. */
const tapeStepNm = (settings: Settings | undefined) =>
  settings?.shown === 'mm' ? 1_000_000 : 25_400_000 / (settings?.denominator ?? 16);

function factsOf({ width, panel, drawer }: Answer<'woodMovement'>, measure: Measure, stepNm: number): Fact[] {
  const facts: Fact[] = [];
  if (panel !== null) {
    facts.push(
      { name: 'Make the panel', value: measure.length(panel.panelNm) },
      { name: 'Groove at least', value: `${measure.length(Math.ceil(panel.grooveDepthNm / stepNm) * stepNm)} deep` },
      { name: 'Gap when made', value: `${measure.length(panel.gapWhenMadeNm)} to the groove’s bottom, each side` },
    );
  }
  if (drawer !== null) {
    facts.push(
      { name: 'Make it', value: `${measure.length(drawer.heightNm)} high` },
      { name: 'Gap when made', value: measure.length(drawer.gapWhenMadeNm) },
    );
  }
  const moves = width ?? panel?.moves ?? null;
  if (moves !== null) {
    facts.push(
      { name: 'Shrinks', value: `${measure.length(moves.shrinksNm)} to ${measure.length(moves.smallestNm)}` },
      { name: 'Grows', value: `${measure.length(moves.growsNm)} to ${measure.length(moves.largestNm)}` },
    );
  }
  return facts;
}
