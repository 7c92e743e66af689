/** A species by its name; a word for several woods asks at once which of them is meant. */
import { woodNameBook } from '../../../worker/wood/species-naming.ts';
import { usePanel } from '../panel.ts';
import { speciesText } from '../words/measure.ts';
import { Button } from './button.tsx';
import { TextField, type TextFieldProps } from './field.tsx';

/** What is wrong with a species as it was typed, the shop's own woods among those known; null for one, or none that is known. */
export function useSpeciesFault(): (typed: string) => string | null {
  const choicesFor = useChoices();
  return (typed) => {
    if (typed.trim() === '') return 'Name the species.';
    return choicesFor(typed).length > 0 ? 'Which of them?' : null;
  };
}

/** The woods that a typed word may mean, where it may mean several. */
function useChoices() {
  const { yard } = usePanel();
  const book = woodNameBook(yard.facts.value?.settings.ownWoods ?? []);
  return (typed: string) => {
    const reading = typed.trim() === '' ? null : book.read(typed);
    return reading !== null && !reading.ok && reading.several ? reading.near : [];
  };
}

export function SpeciesField(props: Omit<TextFieldProps, 'label'>) {
  const choices = useChoices()(props.value);
  const word = props.value.trim();
  return (
    <>
      <TextField label="Species" {...props} />
      {choices.length === 0 ? null : (
        <fieldset class="choice">
          <legend>“{word}” can be several woods. Which?</legend>
          <div class="row">
            {choices.map((wood) => (
              <Button key={wood.key} name={`The species is ${wood.name}`} onPress={() => props.onInput(wood.name)}>
                {speciesText(wood.name)}
              </Button>
            ))}
          </div>
        </fieldset>
      )}
    </>
  );
}
