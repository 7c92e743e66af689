/** The shop's own woods: names and figures that stand beside the table, or in place of a wood of it. */
import { useState } from 'preact/hooks';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { readNumber } from '../words/typed.ts';

export function OwnWoods() {
  const { yard } = usePanel();
  const facts = yard.facts.value;
  if (facts === null) return null;
  const { ownWoods } = facts.settings;
  const mayChange = facts.you.scopes.includes('admin');
  return (
    <Section title="Own woods">
      {ownWoods.length === 0 ? (
        <p class="hint">
          None yet: the woods of the table serve. Add one that is missing there, or has other figures with you.
        </p>
      ) : (
        <ul class="plain-list">
          {ownWoods.map((wood) => (
            <li key={wood.name} class="row spread">
              <span>
                {wood.name}
                {wood.alsoCalled.length === 0 ? null : `, ${wood.alsoCalled.join(', ')}`}
                <br />
                <span class="hint">
                  shrinks {wood.shrinkRadialPercent} and {wood.shrinkTangentialPercent} %, gravity{' '}
                  {wood.specificGravityGreen}; your own figures
                </span>
              </span>
              {mayChange ? (
                <Button
                  kind="quiet"
                  name={`Forget ${wood.name}`}
                  task={yard.changing}
                  onPress={() => {
                    const left = ownWoods.filter((one) => one !== wood);
                    void yard.change({ ...facts.settings, ownWoods: left });
                  }}
                >
                  Forget
                </Button>
              ) : null}
            </li>
          ))}
        </ul>
      )}
      {mayChange ? (
        <Fold title="Add a wood">
          <WoodForm />
        </Fold>
      ) : null}
    </Section>
  );
}

const empty = { name: '', also: '', botanical: '', radial: '', tangential: '', gravity: '' };

function WoodForm() {
  const { yard } = usePanel();
  const [texts, setTexts] = useState(empty);
  const facts = yard.facts.value;
  if (facts === null) return null;
  const field = (name: keyof typeof texts, label: string, hint?: string) => (
    <TextField
      label={label}
      hint={hint}
      numeric={name === 'radial' || name === 'tangential' || name === 'gravity'}
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
    />
  );
  const [radial, tangential, gravity] = [texts.radial, texts.tangential, texts.gravity].map(readNumber);
  const ready =
    texts.name.trim() !== '' &&
    typeof radial === 'number' &&
    typeof tangential === 'number' &&
    typeof gravity === 'number';
  const add = async () => {
    if (!ready) return;
    const wood = {
      name: texts.name.trim(),
      botanical: texts.botanical.trim(),
      alsoCalled: texts.also
        .split(',')
        .map((name) => name.trim())
        .filter((name) => name !== ''),
      shrinkRadialPercent: radial,
      shrinkTangentialPercent: tangential,
      specificGravityGreen: gravity,
    };
    if (await yard.change({ ...facts.settings, ownWoods: [...facts.settings.ownWoods, wood] })) setTexts(empty);
  };
  return (
    <>
      {field('name', 'Name')}
      {field('also', 'Also called', 'With commas between.')}
      {field('botanical', 'Botanical name')}
      <div class="pair">
        {field('radial', 'Shrinks radially, %')}
        {field('tangential', 'tangentially, %')}
      </div>
      {field('gravity', 'Specific gravity', 'Oven-dry weight by green volume. Shrinkage is from green to oven-dry.')}
      <Button task={yard.changing} off={!ready} onPress={() => void add()}>
        Add the wood
      </Button>
      <TaskStatus task={yard.changing} />
    </>
  );
}
