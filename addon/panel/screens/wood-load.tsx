/** What a load weighs: boards by tag, or the finished parts of the job in front; and how many trips it takes. */
import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import type { JobWithParts } from '../../../worker/contract/job.ts';
import type { Answer, Body } from '../../../worker/contract/wire.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField, TextField } from '../parts/field.tsx';
import { Facts } from '../parts/section.tsx';
import { Table } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { useReload } from '../parts/use-reload.ts';
import { lastReading } from '../state/drying.ts';
import { weightText } from '../words/measure.ts';
import { readNumber } from '../words/typed.ts';

type Piece = NonNullable<Body<'woodWeight'>>['pieces'][number];

/** Air-dried to kiln-dried, where nobody has measured. Common practice, no source. */
const UNREAD_PERCENT = 12;
const KG_PER_POUND = 0.45359237;

const boardPiece = (board: BoardView): Piece => ({
  label: board.tag,
  species: board.species,
  moisturePercent: lastReading(board)?.moisturePercent ?? UNREAD_PERCENT,
  lengthNm: board.lengthNm,
  widthNm: board.widthNm,
  thicknessNm: board.thicknessNm,
});

const partPieces = (job: JobWithParts, moisturePercent: number): Piece[] =>
  job.parts.map(({ label, species, quantity, lengthNm, widthNm, thicknessNm }) => ({
    label,
    species,
    moisturePercent,
    count: quantity,
    lengthNm,
    widthNm,
    thicknessNm,
  }));

export function LoadForm() {
  const { drying, job, yard } = usePanel();
  const measure = useMeasure();
  const weight = useAsked('woodWeight', 'Weighing');
  useReload(() => drying.boards.load());
  const [of, setOf] = useState<'boards' | 'job'>('boards');
  const [tags, setTags] = useState('');
  const [payload, setPayload] = useState('');
  const boards = drying.boards.items.value ?? [];
  const wanted = tags
    .toLowerCase()
    .split(/[\s,;]+/)
    .filter((tag) => tag !== '');
  const named = boards.filter(({ tag }) => wanted.includes(tag.toLowerCase()));
  const missing = wanted.filter((tag) => !named.some((board) => board.tag.toLowerCase() === tag));
  const target = yard.facts.value?.settings.targetMoisturePercent ?? 8;
  const now = job.job.value;
  const pieces = of === 'boards' ? named.map(boardPiece) : now === null ? [] : partPieces(now, target);
  const inPounds = measure.system === 'in';
  const typed = readNumber(payload);
  const payloadKg = typed === null ? null : inPounds ? typed * KG_PER_POUND : typed;
  const ask = () => void weight.ask({ body: { pieces, ...(payloadKg === null ? {} : { payloadKg }) } });
  const answer = weight.answer.value;
  return (
    <div class="form">
      <ChoiceField
        label="Load"
        value={of}
        options={[
          { value: 'boards', label: 'boards' },
          { value: 'job', label: 'finished parts of the job' },
        ]}
        onPick={setOf}
      />
      {of === 'boards' ? (
        <TextField
          label="Tags"
          hint="With spaces or commas between."
          value={tags}
          onInput={setTags}
          fault={missing.length > 0 && wanted.length > 0 ? `Not in stock: ${missing.join(', ')}.` : null}
        />
      ) : (
        <p class="hint">
          {now === null ? 'No job is in front; pick one under Job.' : `${now.name}, at ${target} % as finished.`}
        </p>
      )}
      <TextField label={`The van carries, ${inPounds ? 'lb' : 'kg'}`} numeric value={payload} onInput={setPayload} />
      <Button kind="primary" task={weight.task} off={pieces.length === 0} onPress={ask}>
        Weigh it
      </Button>
      <TaskStatus task={weight.task} />
      {answer === null ? null : <Weighed answer={answer} />}
    </div>
  );
}

function Weighed(props: { readonly answer: Answer<'woodWeight'> }) {
  const measure = useMeasure();
  const { answer } = props;
  const text = (kg: number) => weightText(kg, measure.system);
  return (
    <>
      <Facts
        facts={[
          { name: 'In all', value: text(answer.totalKg) },
          ...(answer.loads === null ? [] : [{ name: 'Loads', value: `${answer.loads} at least` }]),
        ]}
      />
      <Table
        caption="Pieces"
        heads={['', 'Each', 'All', 'Lift']}
        figures={[1, 2]}
        rows={answer.pieces.map((piece, at) => ({
          key: `${at} ${piece.label}`,
          cells: [piece.label, text(piece.pieceKg), text(piece.totalKg), piece.liftAlone ? 'alone' : 'two people'],
        }))}
      />
      <Trust sources={answer.sources} notes={answer.notes} />
    </>
  );
}
