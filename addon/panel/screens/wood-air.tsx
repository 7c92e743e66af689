/** What the air brings wood to, or the humidity that a moisture content needs. */
import { useState } from 'preact/hooks';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField, TextField } from '../parts/field.tsx';
import { Facts } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { figure } from '../words/measure.ts';
import { readNumber } from '../words/typed.ts';

export function AirForm() {
  const inFahrenheit = usePanel().yard.facts.value?.settings.shown !== 'mm';
  const emc = useAsked('woodEmc', 'Working it out');
  const [from, setFrom] = useState<'humidity' | 'wood'>('humidity');
  const [temperature, setTemperature] = useState(inFahrenheit ? '70' : '20');
  const [percent, setPercent] = useState('');
  const [degrees, value] = [readNumber(temperature), readNumber(percent)];
  const ready = degrees !== null && value !== null;
  const ask = () => {
    if (!ready) return;
    const at = inFahrenheit ? { temperatureF: degrees } : { temperatureC: degrees };
    void emc.ask({
      body: { ...at, ...(from === 'humidity' ? { relativeHumidityPercent: value } : { emcPercent: value }) },
    });
  };
  const answer = emc.answer.value;
  return (
    <div class="form">
      <ChoiceField
        label="From"
        value={from}
        options={[
          { value: 'humidity', label: 'humidity' },
          { value: 'wood', label: 'moisture of wood' },
        ]}
        onPick={setFrom}
      />
      <div class="pair">
        <TextField label={inFahrenheit ? '°F' : '°C'} numeric value={temperature} onInput={setTemperature} />
        <TextField
          label={from === 'humidity' ? 'Humidity, %' : 'Wood at, %'}
          numeric
          value={percent}
          onInput={setPercent}
          onEnter={ask}
        />
      </div>
      <Button kind="primary" task={emc.task} off={!ready} onPress={ask}>
        Work it out
      </Button>
      <TaskStatus task={emc.task} />
      {answer === null ? null : (
        <>
          <Facts
            facts={[
              { name: 'Wood comes to', value: `${figure(answer.emcPercent, 1)} %` },
              { name: 'in air of', value: `${figure(answer.relativeHumidityPercent, 0)} % humidity` },
              ...answer.interiorTargets.map((target) => ({
                name: target.region,
                value: `interior wood near ${target.moisturePercent} %`,
              })),
            ]}
          />
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </div>
  );
}
