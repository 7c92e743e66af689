/** A piece of wood by its size, typed as on the tape. */
import { useState } from 'preact/hooks';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { SpeciesField, useSpeciesFault } from '../parts/species-field.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import type { Task } from '../state/task.ts';
import { speciesText } from '../words/measure.ts';
import { moistureOf } from './board-forms.tsx';

export interface PieceSize {
  readonly species: string;
  readonly lengthNm: number;
  readonly widthNm: number;
  readonly thicknessNm: number;
  readonly moisturePercent: number | null;
}

export function SizeForm(props: {
  readonly asksMoisture: boolean;
  readonly act: string;
  readonly task: Task;
  readonly onAsk: (size: PieceSize) => void;
}) {
  const { stock } = usePanel();
  const measure = useMeasure();
  const speciesFault = useSpeciesFault();
  const [texts, setTexts] = useState({ species: '', length: '', width: '', thickness: '', moisture: '' });
  const [tried, setTried] = useState(false);
  const put = (name: keyof typeof texts) => (value: string) => setTexts({ ...texts, [name]: value });
  const fault = (name: 'length' | 'width' | 'thickness') => (tried ? measure.readHelp(texts[name]) : null);
  const moisture = moistureOf(texts.moisture);
  const noMoisture = texts.moisture.trim() !== '' && moisture === null;
  const ask = () => {
    setTried(true);
    if (noMoisture) return;
    const [lengthNm, widthNm, thicknessNm] = [
      measure.read(texts.length),
      measure.read(texts.width),
      measure.read(texts.thickness),
    ];
    if (lengthNm === null || widthNm === null || thicknessNm === null || speciesFault(texts.species) !== null) return;
    props.onAsk({
      species: texts.species.trim(),
      lengthNm,
      widthNm,
      thicknessNm,
      moisturePercent: moisture,
    });
  };
  const known = stock.speciesSeen.value;
  return (
    <>
      <SpeciesField
        value={texts.species}
        onInput={put('species')}
        placeholder={known[0] === undefined ? 'white oak' : speciesText(known[0]).toLowerCase()}
        fault={tried ? speciesFault(texts.species) : null}
      />
      <TextField label="Length" value={texts.length} onInput={put('length')} fault={fault('length')} />
      <div class="pair">
        <TextField label="Width" value={texts.width} onInput={put('width')} fault={fault('width')} />
        <TextField label="Thickness" value={texts.thickness} onInput={put('thickness')} fault={fault('thickness')} />
      </div>
      {props.asksMoisture ? (
        <TextField
          label="Moisture, %, if known"
          numeric
          value={texts.moisture}
          onInput={put('moisture')}
          fault={tried && noMoisture ? 'From 0 to 250 %, such as 11.5; or leave it empty.' : null}
        />
      ) : null}
      <Button kind="primary" task={props.task} onPress={ask}>
        {props.act}
      </Button>
    </>
  );
}
