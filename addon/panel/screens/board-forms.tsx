/** The small forms of a board: defect, warp, reading, correction. Sizes are typed as on the tape. */
import { useState } from 'preact/hooks';
import type { BoardView, Defect, DefectKind, Grain } from '../../../worker/contract/board.ts';
import { type Axis, unusualText } from '../../sheet/unusual-size.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { CheckField, ChoiceField, SelectField, TextField } from '../parts/field.tsx';
import { SpeciesField, useSpeciesFault } from '../parts/species-field.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { type CorrectionTexts, correctionOf, mayBeOffcut, textsOf } from '../state/board-correction.ts';
import { capital } from '../words/measure.ts';
import { defectWords, grainWords } from '../words/trade.ts';

const defectKinds = Object.keys(defectWords) as DefectKind[];
const grains = Object.keys(grainWords) as Grain[];

export function DefectForm(props: {
  readonly boardLengthNm: number;
  readonly boardWidthNm: number;
  readonly onAdd: (defect: Defect) => Promise<boolean>;
}) {
  const { stock } = usePanel();
  const measure = useMeasure();
  const empty = { from: '', to: '', left: '', right: '' };
  const [kind, setKind] = useState<DefectKind>('knot-sound');
  const [face, setFace] = useState<Defect['face']>('through');
  const [places, setPlaces] = useState(empty);
  const [tried, setTried] = useState(false);
  const at = {
    fromNm: measure.readPlace(places.from),
    toNm: measure.readPlace(places.to),
    leftNm: measure.readPlace(places.left),
    rightNm: measure.readPlace(places.right),
  };
  const faults = {
    from: placeFault(places.from, at.fromNm, props.boardLengthNm, 'length'),
    to:
      placeFault(places.to, at.toNm, props.boardLengthNm, 'length') ??
      (at.fromNm !== null && at.toNm !== null && at.toNm <= at.fromNm ? 'It ends after it begins.' : null),
    left: placeFault(places.left, at.leftNm, props.boardWidthNm, 'width'),
    right:
      placeFault(places.right, at.rightNm, props.boardWidthNm, 'width') ??
      (at.leftNm !== null && at.rightNm !== null && at.rightNm <= at.leftNm ? 'It ends after it begins.' : null),
  };
  const field = (name: keyof typeof empty, label: string) => (
    <TextField
      label={label}
      value={places[name]}
      onInput={(value) => setPlaces({ ...places, [name]: value })}
      fault={tried ? faults[name] : null}
    />
  );
  const add = async () => {
    setTried(true);
    const { fromNm, toNm, leftNm, rightNm } = at;
    if (fromNm === null || toNm === null || leftNm === null || rightNm === null) return;
    if (Object.values(faults).some((fault) => fault !== null)) return;
    const done = await props.onAdd({ kind, face, fromNm, toNm, leftNm, rightNm });
    if (done === false) return;
    setPlaces(empty);
    setTried(false);
  };
  return (
    <>
      <SelectField
        label="Kind"
        value={kind}
        options={defectKinds.map((value) => ({ value, label: capital(defectWords[value]) }))}
        onPick={setKind}
      />
      <ChoiceField
        label="Face"
        value={face}
        options={[
          { value: 'a', label: 'A' },
          { value: 'b', label: 'B' },
          { value: 'through', label: 'through' },
        ]}
        onPick={setFace}
      />
      <p class="hint">Measured from the tagged end, and from the left edge seen on face A.</p>
      <div class="pair">
        {field('from', 'Along, from')}
        {field('to', 'to')}
      </div>
      <div class="pair">
        {field('left', 'Across, from')}
        {field('right', 'to')}
      </div>
      <Button task={stock.writing} onPress={() => void add()}>
        Note the defect
      </Button>
    </>
  );
}

function placeFault(typed: string, nm: number | null, withinNm: number, axis: string): string | null {
  if (typed.trim() === '') return 'Needed.';
  if (nm === null) return 'A place as on the tape: 0, 4 1/2, 600 mm.';
  return nm > withinNm ? `Past the board’s ${axis}.` : null;
}

export function WarpForm(props: { readonly board: BoardView }) {
  const { stock, shell } = usePanel();
  const measure = useMeasure();
  const { warp, measuredIn } = props.board;
  const shown = (nm: number | undefined) => (nm === undefined || nm === 0 ? '' : measure.length(nm, measuredIn));
  const [texts, setTexts] = useState({
    bow: shown(warp?.bowNm),
    crook: shown(warp?.crookNm),
    cup: shown(warp?.cupNm),
    twist: shown(warp?.twistNm),
  });
  const read = (text: string) => (text.trim() === '' ? 0 : measure.readPlace(text));
  const names = [
    ['bow', 'Bow'],
    ['crook', 'Crook'],
    ['cup', 'Cup'],
    ['twist', 'Twist'],
  ] as const;
  const save = () => {
    const [bowNm, crookNm, cupNm, twistNm] = [read(texts.bow), read(texts.crook), read(texts.cup), read(texts.twist)];
    if (bowNm === null || crookNm === null || cupNm === null || twistNm === null) return;
    void stock.setWarp({ bowNm, crookNm, cupNm, twistNm, on: shell.today() });
  };
  return (
    <>
      <p class="hint">How far it leaves the straight or the flat, measured over the whole board. Empty is none.</p>
      <div class="pair">
        {names.map(([name, label]) => (
          <TextField
            key={name}
            label={label}
            value={texts[name]}
            onInput={(value) => setTexts({ ...texts, [name]: value })}
            fault={read(texts[name]) === null ? 'As on the tape: 3/16 or 5 mm.' : null}
          />
        ))}
      </div>
      <Button task={stock.writing} onPress={save}>
        Note the warp
      </Button>
    </>
  );
}

export function ReadingForm(props: { readonly boardId: string; readonly onDone?: () => void }) {
  const { stock, shell } = usePanel();
  const [percent, setPercent] = useState('');
  const [on, setOn] = useState(shell.today());
  const [meter, setMeter] = useState<'pin' | 'pinless' | 'oven' | 'unknown'>('unknown');
  const [tried, setTried] = useState(false);
  const value = moistureOf(percent);
  const add = async () => {
    setTried(true);
    if (value === null || on === '') return;
    const done = await stock.addReading(props.boardId, { moisturePercent: value, on, meter });
    if (!done) return;
    setPercent('');
    setTried(false);
    props.onDone?.();
  };
  return (
    <>
      <div class="pair">
        <TextField
          label="Moisture, %"
          numeric
          value={percent}
          onInput={setPercent}
          onEnter={() => void add()}
          fault={tried && value === null ? 'A figure like 11.5.' : null}
        />
        <TextField label="Read on" type="date" value={on} onInput={setOn} />
      </div>
      <SelectField
        label="Meter"
        value={meter}
        options={[
          { value: 'unknown', label: 'not noted' },
          { value: 'pin', label: 'pins' },
          { value: 'pinless', label: 'pinless' },
          { value: 'oven', label: 'oven' },
        ]}
        onPick={setMeter}
      />
      <Button task={stock.writing} onPress={() => void add()}>
        Note the reading
      </Button>
    </>
  );
}

export function moistureOf(typed: string): number | null {
  const value = Number(typed.trim().replace('%', '').replace(',', '.'));
  return typed.trim() === '' || !Number.isFinite(value) || value < 0 || value > 250 ? null : value;
}

export function CorrectForm(props: { readonly board: BoardView }) {
  const { stock } = usePanel();
  const measure = useMeasure();
  const { board } = props;
  const first = textsOf(board, measure);
  const speciesFault = useSpeciesFault();
  const [texts, setTexts] = useState(first);
  const typed = (name: keyof CorrectionTexts) => texts[name] !== first[name];
  const fault = (name: 'length' | 'width' | 'thickness') => (typed(name) ? measure.readHelp(texts[name]) : null);
  const faults = {
    tag: texts.tag.trim() === '' ? 'A board needs a tag.' : null,
    species: typed('species') ? speciesFault(texts.species) : null,
    cost:
      texts.cost.trim() !== '' && measure.readMoney(texts.cost) === null
        ? `One amount, such as ${measure.moneyTyped(7850)}.`
        : null,
  };
  const save = () => {
    if (fault('length') ?? fault('width') ?? fault('thickness') ?? faults.tag ?? faults.species ?? faults.cost) return;
    void stock.correct(correctionOf(first, texts, measure), `${texts.tag.trim()} is corrected.`);
  };
  const field = (
    name: Exclude<keyof CorrectionTexts, 'grain' | 'offcut'>,
    label: string,
    faultText: string | null = null,
    hint?: string | null,
  ) => (
    <TextField
      label={label}
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
      fault={faultText}
      hint={hint ?? undefined}
    />
  );
  const sizeField = (name: Axis, label: string) => {
    const nm = typed(name) ? measure.read(texts[name]) : null;
    return field(name, label, fault(name), nm === null ? null : unusualText(name, nm, measure.system));
  };
  const changed = (Object.keys(first) as (keyof CorrectionTexts)[]).some(typed);
  return (
    <>
      {field('tag', 'Tag', faults.tag)}
      <SpeciesField
        value={texts.species}
        fault={faults.species}
        onInput={(species) => setTexts({ ...texts, species })}
      />
      <SelectField
        label="Grain"
        value={texts.grain}
        options={grains.map((value) => ({ value, label: capital(grainWords[value]) }))}
        onPick={(grain) => setTexts({ ...texts, grain })}
      />
      {sizeField('length', 'Length')}
      <div class="pair">
        {sizeField('width', 'Width')}
        {sizeField('thickness', 'Thickness')}
      </div>
      {field('cost', 'What the board cost, in all', faults.cost)}
      {field('place', 'Place')}
      {field('note', 'Note')}
      {mayBeOffcut(board) ? (
        <CheckField
          label="It is an offcut: its ends are sawn, and it is used up first"
          on={texts.offcut}
          onChange={(offcut) => setTexts({ ...texts, offcut })}
        />
      ) : null}
      <Button task={stock.writing} off={!changed} onPress={save}>
        Correct the board
      </Button>
    </>
  );
}
