/** The air that stacks and racks stand in, by place: what every forecast of drying rests on. */
import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import type { StackAir } from '../../../worker/contract/stack-air.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { celsiusOf, readNumber, temperatureText } from '../words/typed.ts';

export function StackAirs(props: { readonly boards: readonly BoardView[] }) {
  const { yard } = usePanel();
  const facts = yard.facts.value;
  if (facts === null) return null;
  const { stackAirs, shown } = facts.settings;
  const isBare = (place: string) => !stackAirs.some((air) => place.toLowerCase().startsWith(air.place.toLowerCase()));
  const bare = [...new Set(props.boards.map(({ place }) => place))].filter(isBare);
  const mayChange = facts.you.scopes.includes('admin');
  return (
    <Section title="Air of the stacks">
      {stackAirs.length === 0 ? (
        <p class="hint">
          None is written down yet. Hang a thermometer with a hygrometer by each stack and write down a week’s middle.
        </p>
      ) : (
        <ul class="plain-list">
          {stackAirs.map((air) => (
            <li key={air.place} class="row spread">
              <span>
                {air.place === '' ? 'everywhere else' : air.place}
                <br />
                <span class="hint">
                  {temperatureText(air.temperatureC, shown === 'in')}, {air.relativeHumidityPercent} % humidity
                </span>
              </span>
              {mayChange ? (
                <Button
                  kind="quiet"
                  name={`Forget the air of ${air.place === '' ? 'everywhere else' : air.place}`}
                  task={yard.changing}
                  onPress={() => {
                    const left = stackAirs.filter((one) => one !== air);
                    void yard.change({ ...facts.settings, stackAirs: left });
                  }}
                >
                  Forget
                </Button>
              ) : null}
            </li>
          ))}
        </ul>
      )}
      {bare.length > 0 && stackAirs.length > 0 ? (
        <p class="hint">
          No air yet for {bare.map((place) => (place === '' ? 'boards without a place' : place)).join(', ')}.
        </p>
      ) : null}
      {mayChange ? <AirForm airs={stackAirs} /> : <p class="hint">Only the owner’s key can change it.</p>}
    </Section>
  );
}

function AirForm(props: { readonly airs: readonly StackAir[] }) {
  const { yard, shell } = usePanel();
  const [place, setPlace] = useState('');
  const [temperature, setTemperature] = useState('');
  const [humidity, setHumidity] = useState('');
  const facts = yard.facts.value;
  if (facts === null) return null;
  const inFahrenheit = facts.settings.shown === 'in';
  const [degrees, percent] = [readNumber(temperature), readNumber(humidity)];
  const ready = degrees !== null && percent !== null;
  const keep = async () => {
    if (!ready) return;
    const fold = place.trim().toLowerCase();
    const air: StackAir = {
      place: place.trim(),
      relativeHumidityPercent: percent,
      temperatureC: celsiusOf(degrees, inFahrenheit),
      on: shell.today(),
    };
    const others = props.airs.filter((one) => one.place.toLowerCase() !== fold);
    if (await yard.change({ ...facts.settings, stackAirs: [...others, air] })) {
      setPlace('');
      setTemperature('');
      setHumidity('');
    }
  };
  return (
    <div class="form">
      <TextField
        label="Place"
        hint="As the places of its boards begin; empty for everywhere else."
        value={place}
        onInput={setPlace}
      />
      <div class="pair">
        <TextField label={inFahrenheit ? '°F' : '°C'} numeric value={temperature} onInput={setTemperature} />
        <TextField label="Humidity, %" numeric value={humidity} onInput={setHumidity} />
      </div>
      <Button task={yard.changing} off={!ready} onPress={() => void keep()}>
        Write the air down
      </Button>
      <TaskStatus task={yard.changing} />
    </div>
  );
}
