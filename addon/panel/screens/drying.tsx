/** Drying: which boards are dry enough for what, by the shop's own figures; what rests and cures, and until when. */

import { useState } from 'preact/hooks';
import type { BoardView } from '../../../worker/contract/board.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import type { DryFor } from '../../../worker/wood/ready.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { type Row, RowList } from '../parts/row-list.tsx';
import { Empty, MoreButton, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useReload } from '../parts/use-reload.ts';
import { lastReading, readiness } from '../state/drying.ts';
import { percentText, speciesText } from '../words/measure.ts';
import { piecesText } from '../words/standing.ts';
import { BoardDrying } from './drying-board.tsx';
import { dryForText, ReadySoon } from './drying-ready.tsx';
import { StackAirs } from './stack-airs.tsx';
import { WaitLine } from './work.tsx';

/** An old reading says little of a board that still dries. Common practice, no source. */
const STALE_DAYS = 30;

export function Drying() {
  const { drying } = usePanel();
  const [show, setShow] = useState<'not-ready' | 'all'>('not-ready');
  const [readingOf, setReadingOf] = useState<string | null>(null);
  useReload(() => {
    void drying.boards.load();
    void drying.loadWaiting();
  });
  const boards = drying.boards.items.value;
  if (readingOf !== null) {
    return <BoardDrying key={readingOf} id={readingOf} all={boards ?? []} onBack={() => setReadingOf(null)} />;
  }
  return (
    <>
      <h2>Drying</h2>
      <ReadySoon onOpen={setReadingOf} />
      <Waits />
      <Boards boards={boards} show={show} onShow={setShow} onOpen={setReadingOf} />
      <StackAirs boards={boards ?? []} />
    </>
  );
}

function Waits() {
  const { drying, shell, job } = usePanel();
  const jobs = drying.waiting.value;
  const rested = (jobs ?? []).flatMap((one) =>
    one.work.now.filter((work) => work.step === 'judge').map((work) => ({ ...one, work })),
  );
  const waits = (jobs ?? []).flatMap((one) => one.work.waiting.map((wait) => ({ job: one.job, wait })));
  return (
    <Section title="Rests and cures">
      <TaskStatus task={drying.task} />
      {jobs === null ? null : rested.length + waits.length === 0 ? (
        <p class="hint">Nothing rests or cures just now.</p>
      ) : (
        <ul class="plain-list">
          {rested.map(({ job: of, work }) => (
            <li key={`${of.id} ${work.part.key}`} class="row spread">
              <span>
                {work.part.label}, {piecesText(work.pieces, work.part)}
                <br />
                <span class="hint">{of.name}: rested</span>
              </span>
              <Button
                kind="quiet"
                name={`Look at it: ${work.part.label}`}
                onPress={() => {
                  void job.open(of.id);
                  shell.tab.value = 'Job';
                }}
              >
                Look at it
              </Button>
            </li>
          ))}
          {waits.map(({ job: of, wait }) => (
            <li key={`${of.id} ${wait.part.key} ${wait.pieces[0]?.restingUntil} ${wait.pieces[0]?.curingUntilMs}`}>
              <WaitLine wait={wait} jobName={of.name} />
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}

function Boards(props: {
  readonly boards: readonly BoardView[] | null;
  readonly show: 'not-ready' | 'all';
  readonly onShow: (show: 'not-ready' | 'all') => void;
  readonly onOpen: (id: string) => void;
}) {
  const { drying, yard, shell } = usePanel();
  const limits = yard.facts.value?.settings.moistureMax;
  const listed = (props.boards ?? [])
    .map((board) => ({ board, is: limits === undefined ? ('unknown' as const) : readiness(board, limits) }))
    .filter((one) => props.show === 'all' || one.is !== 'critical')
    .sort((a, b) => (lastReading(b.board)?.moisturePercent ?? 999) - (lastReading(a.board)?.moisturePercent ?? 999));
  return (
    <Section title="Boards by their last reading">
      <ChoiceField
        label="Show"
        value={props.show}
        options={[
          { value: 'not-ready', label: 'not ready for everything' },
          { value: 'all', label: 'all' },
        ]}
        onPick={props.onShow}
      />
      {limits === undefined ? null : (
        <p class="hint">
          The shop cuts long seen parts up to {percentText(limits.critical)}, seen parts up to{' '}
          {percentText(limits.visible)}, hidden ones up to {percentText(limits.hidden)}.
        </p>
      )}
      <TaskStatus task={drying.boards.task} />
      {props.boards === null ? null : listed.length === 0 ? (
        <Empty title={props.boards.length === 0 ? 'No boards yet' : 'Every board is dry enough for anything'}>
          {null}
        </Empty>
      ) : (
        <RowList
          label="Boards by moisture"
          rows={listed.map((one) => dryingRow(one.board, one.is, shell.today()))}
          onOpen={props.onOpen}
        />
      )}
      <MoreButton pages={drying.boards} />
    </Section>
  );
}

function dryingRow(board: BoardView, is: DryFor, today: string): Row {
  const last = lastReading(board);
  const old = last !== null && daysBetween(last.on, today) > STALE_DAYS;
  return {
    key: board.id,
    title: (
      <>
        <strong>{board.tag}</strong> {speciesText(board.species)} {board.thicknessCall ?? ''}
      </>
    ),
    figure: last === null ? '–' : percentText(last.moisturePercent),
    under: (
      <>
        {dryForText[is]}
        {last === null ? null : <Unbroken text={`; read ${dayTextBeside(last.on, today)}`} />}
        {old ? ', long ago' : null}
      </>
    ),
  };
}

export function daysBetween(fromIso: string, toIso: string): number {
  return Math.round((Date.parse(toIso) - Date.parse(fromIso)) / 86_400_000);
}
