/** Wood: the trade's arithmetic that needs no one board: movement, air, glue-up, a delivery, a load. */
import { useState } from 'preact/hooks';
import { SelectField } from '../parts/field.tsx';
import { AirForm } from './wood-air.tsx';
import { DeliveryForm } from './wood-delivery.tsx';
import { GlueUpForm } from './wood-glue-up.tsx';
import { LoadForm } from './wood-load.tsx';
import { MovementForm } from './wood-movement.tsx';

const forms = {
  movement: ['How a panel moves over the year', MovementForm],
  air: ['What the air brings wood to', AirForm],
  'glue-up': ['What a glue-up needs', GlueUpForm],
  delivery: ['Whether a delivery is what was billed', DeliveryForm],
  load: ['What a load weighs', LoadForm],
} as const;
type Form = keyof typeof forms;
const names = Object.keys(forms) as Form[];

export function Wood() {
  const [form, setForm] = useState<Form>('movement');
  const [, Body] = forms[form];
  return (
    <>
      <h2>Wood</h2>
      <SelectField
        label="Work out"
        value={form}
        options={names.map((value) => ({ value, label: forms[value][0] }))}
        onPick={setForm}
      />
      <Body key={form} />
      <p class="hint">What one board still gives, and its grade, stand with the board under Stock.</p>
    </>
  );
}
