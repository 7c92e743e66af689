/** A species by its name; a word for several woods asks at once which of them is meant. */
import { woodNameBook } from '../../../worker/wood/species-naming.ts';
import { usePanel } from '../panel.ts';
import { speciesText } from '../words/measure.ts';
import { Button } from './button.tsx';
import { TextField, type TextFieldProps } from './field.tsx';

/** What is wrong with a species as it was typed, the shop's own woods among those known; null for one, or none that is known. */
export function useSpeciesFault(): (typed: string) => string | null {
  const { yard } = usePanel();
  const book = woodNameBook(yard.facts.value?.settings.ownWoods ?? []);
  return (typed) => {
    if (typed.trim() === '') return 'Name the species.';
    const reading = book.read(typed);
    return !reading.ok && reading.several ? 'Which of them?' : null;
  };
}

export function SpeciesField(props: Omit<TextFieldProps, 'label'>) {
  const { yard } = usePanel();
  const reading =
    props.value.trim() === '' ? null : woodNameBook(yard.facts.value?.settings.ownWoods ?? []).read(props.value);
  const choices = reading !== null && !reading.ok && reading.several ? reading.near : [];
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
