/** A species by its name; a word for several woods, or near to one, asks at once which is meant. */
import { woodNameBook } from '../../../worker/wood/species-naming.ts';
import { usePanel } from '../panel.ts';
import { speciesText } from '../words/measure.ts';
import { Button } from './button.tsx';
import { TextField, type TextFieldProps } from './field.tsx';

const nameOf = (wood: { readonly name: string }) => wood.name;

/** What is wrong with a species as it was typed, the shop's own woods among those known; null for one, or none that is near. */
export function useSpeciesFault(): (typed: string) => string | null {
  const choicesFor = useChoices();
  return (typed) => {
    if (typed.trim() === '') return 'Name the species.';
    const { choices, several } = choicesFor(typed);
    if (choices.length === 0) return null;
    return several ? 'Which of them?' : `Not a wood in the list; did you mean ${choices.map(nameOf).join(' or ')}?`;
  };
}

/** The woods that a typed word may mean: where it may mean several, and where it is a slip that is near to some. */
function useChoices() {
  const { yard } = usePanel();
  const book = woodNameBook(yard.facts.value?.settings.ownWoods ?? []);
  return (typed: string) => {
    const reading = typed.trim() === '' ? null : book.read(typed);
    return reading === null || reading.ok
      ? { choices: [], several: false }
      : { choices: reading.near, several: reading.several };
  };
}

export function SpeciesField(props: Omit<TextFieldProps, 'label'>) {
  const { choices, several } = useChoices()(props.value);
  const word = props.value.trim();
  return (
    <>
      <TextField label="Species" {...props} />
      {choices.length === 0 ? null : (
        <fieldset class="choice">
          <legend>
            {several ? `“${word}” can be several woods. Which?` : `“${word}” is not in the list. Did you mean:`}
          </legend>
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
