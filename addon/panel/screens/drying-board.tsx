/** One board as it dries: its readings and forecast drawn, alone or with the stack it stands in; and a new reading. */

import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { Drawing } from '../parts/drawing.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { Section, View } from '../parts/section.tsx';
import { Table } from '../parts/table.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useReload } from '../parts/use-reload.ts';
import { boardFeetOf, capital, count, figure, percentText, speciesText } from '../words/measure.ts';
import { temperatureText } from '../words/typed.ts';
import { ReadingForm } from './board-forms.tsx';
import { whenText } from './drying-ready.tsx';

export function BoardDrying(props: {
  readonly id: string;
  readonly all: readonly BoardView[];
  readonly onBack: () => void;
}) {
  const fresh = useAsked('readBoard', 'Reading the board');
  useReload(() => fresh.ask({ path: { id: props.id } }));
  const board = fresh.answer.value ?? props.all.find(({ id }) => id === props.id) ?? null;
  return (
    <View title={board?.tag ?? 'Board'} back="Drying" onBack={props.onBack}>
      <TaskStatus task={fresh.task} />
      {board === null ? null : <Body board={board} all={props.all} />}
    </View>
  );
}

function Body(props: { readonly board: BoardView; readonly all: readonly BoardView[] }) {
  const { stock } = usePanel();
  const { board } = props;
  return (
    <>
      <p class="hint">
        {speciesText(board.species)}, {boardFeetOf(board)}
        {board.place === '' ? '' : `, ${board.place}`}
      </p>
      <Forecast board={board} all={props.all} />
      <Section title="New reading">
        <div class="form">
          <ReadingForm boardId={board.id} />
          <TaskStatus task={stock.writing} />
        </div>
      </Section>
    </>
  );
}

/** Boards that stand and dry with this one: same place, wood and thickness. */
const stackOf = (board: BoardView, all: readonly BoardView[]) =>
  all.filter(
    (one) =>
      one.place === board.place &&
      one.species === board.species &&
      (one.thicknessCall ?? one.thicknessNm) === (board.thicknessCall ?? board.thicknessNm),
  );

function Forecast(props: { readonly board: BoardView; readonly all: readonly BoardView[] }) {
  const { shell, yard } = usePanel();
  const { board } = props;
  const stack = stackOf(board, props.all);
  const [of, setOf] = useState<'board' | 'stack'>('board');
  const drying = useAsked('boardsDrying', 'Working the forecast out');
  const ask = (which: 'board' | 'stack') => {
    setOf(which);
    void drying.ask({ body: { boardIds: which === 'board' ? [board.id] : stack.map(({ id }) => id).slice(0, 200) } });
  };
  useReload(() => ask(of));
  const answer = drying.answer.value;
  const reached = answer?.forecast?.kind === 'range' ? answer.forecast : answer?.ready.forecast;
  const sentence = (forecast: Answer<'boardsDrying'>['forecast'], why: string) =>
    `${whenText({ forecast, why }, shell.today()).replace(/\.$/, '')}.`;
  const inFahrenheit = yard.facts.value?.settings.shown !== 'mm';
  return (
    <>
      {stack.length > 1 ? (
        <ChoiceField
          label="Forecast of"
          value={of}
          options={[
            { value: 'board', label: 'this board' },
            { value: 'stack', label: `its stack, ${count(stack.length, 'board')}` },
          ]}
          onPick={ask}
        />
      ) : null}
      <TaskStatus task={drying.task} />
      {answer === null ? null : (
        <>
          <p>
            For seen parts, {percentText(answer.ready.percent)}:{' '}
            <Unbroken text={sentence(answer.ready.forecast, answer.ready.words)} />
          </p>
          <p>
            For the furniture’s own {percentText(answer.targetPercent)}:{' '}
            <Unbroken text={sentence(answer.forecast, answer.words)} />
          </p>
          {reached?.kind === 'range' ? <p class="hint">{capital(reached.note)}.</p> : null}
          {answer.air === null ? null : (
            <p class="hint">
              {answer.air.place === '' ? 'The air' : `The air of “${answer.air.place}”`},{' '}
              {temperatureText(answer.air.temperatureC, inFahrenheit)} and{' '}
              {percentText(Math.round(answer.air.relativeHumidityPercent))} humidity, brings wood to{' '}
              {answer.emcPercent === null ? '?' : `${figure(answer.emcPercent, 1)} %`}.
            </p>
          )}
          {answer.drawing === null ? null : (
            <Drawing drawing={answer.drawing} twinTitle="Readings and forecast in words">
              <p>
                <Unbroken text={answer.drawing.description} />
              </p>
              <Table
                caption="Readings"
                heads={['Day', 'Moisture', ...(of === 'stack' ? ['Boards'] : [])]}
                figures={[1, 2]}
                rows={answer.readings.map((reading) => ({
                  key: reading.on,
                  cells: [
                    dayTextBeside(reading.on, shell.today()),
                    percentText(reading.moisturePercent),
                    ...(of === 'stack' ? [reading.boards] : []),
                  ],
                }))}
              />
            </Drawing>
          )}
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </>
  );
}
