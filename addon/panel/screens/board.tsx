/** One board: what is known of it, drawn; what was found on it since; who holds it. */

import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { Drawing } from '../parts/drawing.tsx';
import { TextField } from '../parts/field.tsx';
import { LaterScreen, later } from '../parts/later.tsx';
import { BoardSize, Length } from '../parts/measure.tsx';
import { type Fact, Facts, Fold, Section, View } from '../parts/section.tsx';
import { Table } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { lastReading } from '../state/drying.ts';
import { costWords } from '../words/cost.ts';
import { boardFeetOf, percentText, speciesText } from '../words/measure.ts';
import { defectWords, grainWords } from '../words/trade.ts';
import { CorrectForm, DefectForm, ReadingForm, WarpForm } from './board-forms.tsx';
import { JournalOfBoard } from './journal.tsx';

/** The arithmetic of one board, fetched when a board is opened. */
const boardWood = later(async () => (await import('./board-wood.tsx')).BoardWood);

export function Board(props: { readonly back: string; readonly onBack: () => void }) {
  const { stock } = usePanel();
  const board = stock.board.value;
  return (
    <View key={stock.openId.value} title={board?.tag ?? 'Board'} back={props.back} onBack={props.onBack}>
      <TaskStatus task={stock.reading} />
      {board === null ? null : <BoardBody board={board} />}
    </View>
  );
}

function BoardBody(props: { readonly board: BoardView }) {
  const { stock, shell, yard } = usePanel();
  const measure = useMeasure();
  const { board } = props;
  const cost = costWords(board, yard.facts.value?.settings.prices ?? [], measure);
  const today = shell.today();
  const inStock = board.state === 'in-stock';
  const drawing = stock.drawing.value;
  return (
    <>
      <Facts facts={factsOf(board, today, cost)} />
      <JournalOfBoard id={board.id} tag={board.tag} />
      {drawing === null ? null : (
        <Drawing drawing={drawing} twinTitle="Defects in words">
          <DefectTable board={board} />
        </Drawing>
      )}
      <HeldOn board={board} />
      {board.readings.length > 1 ? (
        <Fold title={`All ${board.readings.length} readings`}>
          <ul class="plain-list">
            {board.readings
              .toSorted((a, b) => (a.on < b.on ? 1 : -1))
              .map((reading) => (
                <li key={`${reading.on} ${reading.moisturePercent}`}>
                  {dayTextBeside(reading.on, today)}: {percentText(reading.moisturePercent)}
                </li>
              ))}
          </ul>
        </Fold>
      ) : null}
      <TaskStatus task={stock.writing} />
      {inStock ? (
        <Section title="Found since">
          <Fold title="Moisture reading">
            <ReadingForm boardId={board.id} />
          </Fold>
          <Fold title="Defect">
            <DefectForm boardLengthNm={board.lengthNm} boardWidthNm={board.widthNm} onAdd={(d) => stock.addDefect(d)} />
          </Fold>
          <Fold title="Warp">
            <WarpForm key={board.version} board={board} />
          </Fold>
          <Fold title="Correct what is written">
            <CorrectForm key={board.version} board={board} />
          </Fold>
          <LaterScreen of={boardWood} />
          <Fold title="Write off">
            <WriteOff tag={board.tag} />
          </Fold>
        </Section>
      ) : null}
    </>
  );
}

function factsOf(board: BoardView, today: string, cost: string | null): Fact[] {
  const last = lastReading(board);
  const facts: Fact[] = [
    { name: 'Size', value: <BoardSize size={board} system={board.measuredIn} /> },
    { name: 'Volume', value: boardFeetOf(board) },
    { name: 'Species', value: speciesText(board.species) },
  ];
  if (board.thicknessCall !== null) facts.push({ name: 'Sold as', value: board.thicknessCall });
  facts.push({
    name: 'Moisture',
    value:
      last === null ? 'no reading yet' : `${percentText(last.moisturePercent)} on ${dayTextBeside(last.on, today)}`,
  });
  if (board.grain !== 'unknown') facts.push({ name: 'Grain', value: grainWords[board.grain] });
  if (board.grade !== null) facts.push({ name: 'Grade', value: board.grade });
  if (board.warp !== null) facts.push({ name: 'Warp', value: <WarpText board={board} /> });
  if (board.place !== '') facts.push({ name: 'Place', value: board.place });
  if (board.delivery !== '') facts.push({ name: 'Delivery', value: board.delivery });
  if (cost !== null) facts.push({ name: 'Cost', value: cost });
  if (board.origin.kind !== 'received')
    facts.push({ name: 'Came from', value: board.origin.kind === 'offcut' ? 'an offcut' : 'a glue-up' });
  if (board.state !== 'in-stock')
    facts.push({ name: 'State', value: board.state === 'cut-up' ? 'cut up' : 'written off' });
  if (board.note !== '') facts.push({ name: 'Note', value: board.note });
  return facts;
}

function WarpText(props: { readonly board: BoardView }) {
  const measure = useMeasure();
  const { warp, measuredIn } = props.board;
  if (warp === null) return null;
  const parts = (
    [
      ['bow', warp.bowNm],
      ['crook', warp.crookNm],
      ['cup', warp.cupNm],
      ['twist', warp.twistNm],
    ] as const
  ).filter(([, nm]) => nm > 0);
  if (parts.length === 0) return <>flat and straight</>;
  return <>{parts.map(([name, nm]) => `${name} ${measure.length(nm, measuredIn)}`).join(', ')}</>;
}

function DefectTable(props: { readonly board: BoardView }) {
  const measure = useMeasure();
  const { defects, measuredIn } = props.board;
  if (defects.length === 0) return <p>No defects noted.</p>;
  const run = (from: number, to: number) => `${measure.length(from, measuredIn)} to ${measure.length(to, measuredIn)}`;
  return (
    <Table
      caption="Defects, from the tagged end and the left edge"
      heads={['Kind', 'Along', 'Across', 'Face']}
      rows={defects.map((defect, index) => ({
        key: String(index),
        cells: [
          defectWords[defect.kind],
          run(defect.fromNm, defect.toNm),
          run(defect.leftNm, defect.rightNm),
          defect.face === 'through' ? 'through' : defect.face.toUpperCase(),
        ],
      }))}
    />
  );
}

function HeldOn(props: { readonly board: BoardView }) {
  const { shell } = usePanel();
  const { held, measuredIn, lengthNm } = props.board;
  if (held.length === 0) return <p class="hint">Nobody holds it.</p>;
  return (
    <Section
      title="Held"
      beside={
        <Button
          kind="quiet"
          onPress={() => {
            shell.tab.value = 'Held';
          }}
        >
          All that is held
        </Button>
      }
    >
      <ul class="plain-list">
        {held.map((run) => (
          <li key={run.reservationId}>
            <strong>{run.jobName}</strong>{' '}
            {run.fromNm <= 0 && run.toNm >= lengthNm ? (
              'the whole board'
            ) : (
              <>
                <Length nm={run.fromNm} system={measuredIn} /> to <Length nm={run.toNm} system={measuredIn} />
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}

function WriteOff(props: { readonly tag: string }) {
  const { stock } = usePanel();
  const [why, setWhy] = useState('');
  return (
    <>
      <TextField label="Why" value={why} onInput={setWhy} placeholder="rot, checked through, given away" />
      <ConfirmButton
        ask={`Write ${props.tag} off? It leaves the stock. The journal can turn it round.`}
        yes="Write it off"
        off={why.trim() === ''}
        task={stock.writing}
        onPress={() => void stock.writeOff(why.trim())}
      >
        Write off
      </ConfirmButton>
    </>
  );
}
