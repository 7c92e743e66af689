/** What wood costs the shop: by species and thickness, or by species in any thickness. */
import { useRef, useState } from 'preact/hooks';
import type { Settings } from '../../../worker/contract/settings.ts';
import { woodNameBook } from '../../../worker/wood/species-naming.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Fold } from '../parts/section.tsx';
import { SpeciesField, useSpeciesFault } from '../parts/species-field.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { callTyped } from '../words/typed.ts';
import { PricesFromSheet, priceName } from './shop-prices-sheet.tsx';

type Price = Settings['prices'][number];

export function Prices(props: { readonly settings: Settings }) {
  const { yard, shell } = usePanel();
  const measure = useMeasure();
  const speciesFault = useSpeciesFault();
  const { settings } = props;
  // Once the host's menu has asked for the list of the sheet, the fold stays open.
  const asked = useRef(false);
  if (shell.fromSheet.value === 'prices') asked.current = true;
  const [species, setSpecies] = useState('');
  const [thickness, setThickness] = useState('');
  const [amount, setAmount] = useState('');
  const [currency, setCurrency] = useState(settings.currency);
  const minorPerBoardFoot = measure.readMoney(amount);
  const wood = species.trim() === '' ? null : woodNameBook(settings.ownWoods).read(species);
  const call = thickness.trim() === '' ? null : callTyped(thickness, measure);
  const noThickness = thickness.trim() !== '' && call === null;
  const keep = (prices: readonly Price[]) => yard.change({ ...settings, prices: [...prices] });
  const isSame = (a: Price, b: Price) => a.species === b.species && a.thicknessCall === b.thicknessCall;
  const add = async () => {
    if (minorPerBoardFoot === null || speciesFault(species) !== null || noThickness) return;
    // A wood that no list knows, and that is near to none, is kept as it was typed.
    const price = {
      species: wood?.ok ? wood.species.key : species.trim(),
      thicknessCall: call,
      minorPerBoardFoot,
    };
    if (await keep([...settings.prices.filter((each) => !isSame(each, price)), price])) setAmount('');
  };
  return (
    <Fold title={`Prices a board foot (${settings.prices.length})`} open={asked.current}>
      <PricesFromSheet settings={settings} />
      {settings.prices.length === 0 ? (
        <p class="hint">
          No price yet. With prices, a takeoff says what is to buy costs. Type them here, or read them from a list in
          your sheet.
        </p>
      ) : (
        <ul class="plain-list">
          {settings.prices.map((price) => {
            const name = priceName(price);
            return (
              <li key={name} class="row">
                <span>
                  {name}: {measure.money(price.minorPerBoardFoot)}
                </span>
                <Button
                  kind="quiet"
                  name={`Remove the price of ${name}`}
                  task={yard.changing}
                  onPress={() => void keep(settings.prices.filter((each) => each !== price))}
                >
                  Remove
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      <SpeciesField
        value={species}
        onInput={setSpecies}
        placeholder="white oak"
        fault={wood === null || wood.ok || wood.several ? null : speciesFault(species)}
        hint={wood === null || wood.ok || wood.near.length > 0 ? undefined : `${wood.help}. Kept as typed.`}
      />
      <div class="pair">
        <TextField
          label="Thickness"
          value={thickness}
          onInput={setThickness}
          placeholder="8/4"
          hint="Empty: any thickness."
          fault={noThickness ? 'Quarters such as 8/4, or a size such as 52 mm.' : null}
        />
        <TextField
          label="Price a board foot"
          numeric
          value={amount}
          onInput={setAmount}
          fault={amount !== '' && minorPerBoardFoot === null ? `An amount such as ${measure.moneyTyped(1250)}.` : null}
          onEnter={() => void add()}
        />
      </div>
      <Button
        task={yard.changing}
        off={minorPerBoardFoot === null || speciesFault(species) !== null || noThickness}
        onPress={() => void add()}
      >
        Keep this price
      </Button>
      <TextField
        label="Currency"
        value={currency}
        onInput={(typed) => setCurrency(typed.toUpperCase())}
        hint="Its three letters, such as USD."
      />
      <Button
        task={yard.changing}
        off={!/^[A-Z]{3}$/.test(currency) || currency === settings.currency}
        onPress={() => void yard.change({ ...settings, currency })}
      >
        Keep this currency
      </Button>
      <TaskStatus task={yard.changing} />
    </Fold>
  );
}
