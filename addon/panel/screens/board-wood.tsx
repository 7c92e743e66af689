/** What a board's measured defects and warp mean: the grade that they make, drawn, and the size that it still gives. */
import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Drawing } from '../parts/drawing.tsx';
import { TextField } from '../parts/field.tsx';
import { Fold } from '../parts/section.tsx';
import { Table } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { count, figure } from '../words/measure.ts';

export function BoardWood() {
  const board = usePanel().stock.board.value;
  if (board === null) return null;
  return (
    <>
      <Fold title="Grade by its defects">
        <Grade key={`${board.id} ${board.version}`} board={board} />
      </Fold>
      <Fold title="What it still gives">
        <Gives key={`${board.id} ${board.version}`} board={board} />
      </Fold>
    </>
  );
}

function Grade(props: { readonly board: BoardView }) {
  const grade = useAsked('gradeBoard', 'Looking for clear cuttings');
  const answer = grade.answer.value;
  return (
    <>
      {answer === null ? (
        <Button task={grade.task} onPress={() => void grade.ask({ path: { id: props.board.id }, body: {} })}>
          Find its grade
        </Button>
      ) : null}
      <TaskStatus task={grade.task} />
      {answer === null ? null : (
        <>
          <p>
            <strong>{answer.grade}</strong>, surface measure {answer.surfaceMeasureFt2} ft².
            {answer.paid === null
              ? null
              : answer.paid.reached
                ? ` Paid for as ${answer.paid.grade}: it makes that.`
                : ` Paid for as ${answer.paid.grade}: it falls short.`}
          </p>
          <Face name="Better face" face={answer.better} />
          <Face name="Poorer face" face={answer.poorer} />
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </>
  );
}

function Face(props: { readonly name: string; readonly face: Answer<'gradeBoard'>['better'] }) {
  const measure = useMeasure();
  const { face } = props;
  return (
    <>
      <p>
        {props.name}, {face.face.toUpperCase()}: {face.grade ?? 'no grade'}
        {face.need === null
          ? null
          : `, ${figure(face.units, 1)} cutting units of ${figure(face.need.units, 1)} in ${count(face.cuttings.length, 'cutting')}`}
        .
      </p>
      <Drawing drawing={face.drawing} twinTitle="Its cuttings in words">
        <Table
          caption="Clear cuttings"
          heads={['Along', 'Across', 'Units']}
          figures={[2]}
          rows={face.cuttings.map((cutting) => ({
            key: `${cutting.fromNm} ${cutting.leftNm}`,
            cells: [
              `${measure.length(cutting.fromNm)} to ${measure.length(cutting.toNm)}`,
              `${measure.length(cutting.leftNm)} to ${measure.length(cutting.rightNm)}`,
              figure(cutting.units, 1),
            ],
          }))}
        />
      </Drawing>
    </>
  );
}

function Gives(props: { readonly board: BoardView }) {
  const { board } = props;
  const measure = useMeasure();
  const gives = useAsked('woodWarp', 'Working it out');
  const [texts, setTexts] = useState({ thickness: '', width: '', length: '' });
  const read = {
    thickness: measure.read(texts.thickness),
    width: measure.read(texts.width),
    length: measure.read(texts.length),
  };
  const bad = (name: keyof typeof texts) => texts[name].trim() !== '' && read[name] === null;
  const { lengthNm, widthNm, thicknessNm } = board;
  const ask = () => {
    const { on: _on, ...warp } = board.warp ?? {};
    const piece = { lengthNm: read.length ?? lengthNm, widthNm: Math.min(widthNm, (read.width ?? widthNm) + ROUGH_NM) };
    void gives.ask({
      body: {
        lengthNm,
        widthNm,
        thicknessNm,
        warp,
        pieces: read.length === null && read.width === null ? [] : [piece],
        ...(read.thickness === null
          ? {}
          : { need: { thicknessNm: read.thickness, ...(read.width === null ? {} : { widthNm: read.width }) } }),
      },
    });
  };
  const field = (name: keyof typeof texts, label: string) => (
    <TextField
      label={label}
      value={texts[name]}
      onInput={(value) => setTexts({ ...texts, [name]: value })}
      fault={bad(name) ? 'Cannot be read.' : null}
    />
  );
  const answer = gives.answer.value;
  return (
    <>
      {board.warp === null ? (
        <p class="hint">No warp is measured; without it only the clean-up of faces and edges is lost.</p>
      ) : null}
      {field('thickness', 'Finished thickness you need')}
      <div class="pair">
        {field('width', 'Finished width')}
        {field('length', 'Length of the piece')}
      </div>
      <Button task={gives.task} off={bad('thickness') || bad('width') || bad('length')} onPress={ask}>
        What does it give?
      </Button>
      <TaskStatus task={gives.task} />
      {answer === null ? null : <GivesAnswer answer={answer} />}
    </>
  );
}

/** A piece is ripped so much wider than it finishes: common practice, no source. */
const ROUGH_NM = 6_350_000;

function GivesAnswer(props: { readonly answer: Answer<'woodWarp'> }) {
  const measure = useMeasure();
  const { answer } = props;
  const [piece] = answer.pieces;
  const asks = answer.whole.enough !== null;
  const sizeOf = (one: typeof answer.whole) => `${measure.length(one.thicknessNm)} × ${measure.length(one.widthNm)}`;
  return (
    <>
      <p>
        Whole, it gives {sizeOf(answer.whole)} once flat and straight; flattening takes{' '}
        {measure.length(answer.whole.lostThicknessNm)} of thickness.
      </p>
      {piece === undefined ? null : (
        <p>
          Cut to that piece first: {sizeOf(piece)}; flattening takes {measure.length(piece.lostThicknessNm)}
          {piece.enough === null ? '' : piece.enough ? '. That is enough' : '. That is not enough'}.
        </p>
      )}
      {answer.longestNm === null || answer.longestNm === answer.whole.lengthNm ? null : (
        <p>
          <strong>Crosscut no longer than {measure.length(answer.longestNm)}</strong> to keep what you need.
        </p>
      )}
      <Table
        caption="What is left of equal lengths, full width"
        heads={['Pieces', 'Length', 'Thick', 'Wide', ...(asks ? ['Does'] : [])]}
        figures={[0]}
        rows={answer.crosscut.map((row) => ({
          key: String(row.count),
          cells: [
            row.count,
            measure.length(row.lengthNm),
            measure.length(row.thicknessNm),
            measure.length(row.widthNm),
            ...(asks ? [row.enough ? 'yes' : 'no'] : []),
          ],
        }))}
      />
      <Trust sources={answer.sources} notes={answer.notes.filter((note) => !note.startsWith('Crosscut no longer'))} />
    </>
  );
}
