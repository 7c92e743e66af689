/** What of the whole yard is ready to cut, or will be within the week, each by the air of its place. */
import { useState } from 'preact/hooks';
import type { Answer } from '../../../worker/contract/wire.ts';
import { dayAfter, dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { ChoiceField } from '../parts/field.tsx';
import { type Row, RowList } from '../parts/row-list.tsx';
import { Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Trust } from '../parts/trust.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useAsked } from '../parts/use-asked.ts';
import { useReload } from '../parts/use-reload.ts';
import { count, percentText, speciesText } from '../words/measure.ts';

type Ready = Answer<'dryingReady'>;
type Board = Ready['boards'][number];

/** For which parts a board is dry enough now. */
export const dryForText: Record<Board['dryFor'], string> = {
  critical: 'dry enough for anything',
  visible: 'dry enough for seen parts, not yet for long ones',
  hidden: 'dry enough for hidden parts',
  wet: 'still wet',
  unknown: 'no reading yet',
};

const WEEK_DAYS = 7;
/** A list for a look; the rest is in the list of boards below. */
const SHOWN_MAX = 40;
/** What is ready already is the longest list and says least. */
const ORDER: readonly Board['stands'][] = ['surely', 'likely', 'possibly', 'later', 'never', 'unknown', 'ready'];
type Show = 'soon' | 'never' | 'all';
const SOON: readonly Board['stands'][] = ['surely', 'likely', 'possibly'];

export function ReadySoon(props: { readonly onOpen: (id: string) => void }) {
  const { shell } = usePanel();
  const ready = useAsked('dryingReady', 'Looking what is dry');
  const [show, setShow] = useState<Show>('soon');
  const by = dayAfter(shell.today(), WEEK_DAYS);
  useReload(() => ready.ask({ body: { by } }));
  const answer = ready.answer.value;
  return (
    <Section title="Ready to cut this week">
      <TaskStatus task={ready.task} />
      {answer === null ? null : answer.boards.length === 0 ? (
        <p class="hint">No boards in stock.</p>
      ) : (
        <>
          <p>
            <Unbroken text={sumUp(answer, dayTextBeside(by, shell.today()))} />
          </p>
          <ChoiceField
            label="Show"
            value={show}
            options={[
              { value: 'soon', label: 'this week' },
              ...(answer.counts.never > 0 ? [{ value: 'never' as const, label: 'never where they stand' }] : []),
              { value: 'all', label: 'all, with the reason' },
            ]}
            onPick={setShow}
          />
          <Rows answer={answer} show={show} onOpen={props.onOpen} />
          <Trust sources={answer.sources} notes={answer.notes} />
        </>
      )}
    </Section>
  );
}

function sumUp({ boards, counts, targetPercent }: Ready, by: string): string {
  const countOf = (...stands: readonly Board['stands'][]) => boards.filter((one) => stands.includes(one.stands)).length;
  const parts = [
    `Ready is dry enough for seen parts, ${percentText(targetPercent)}: ${counts.ready} already`,
    `${countOf('surely', 'likely')} likely by ${by}`,
    ...(countOf('possibly') > 0 ? [`${countOf('possibly')} perhaps`] : []),
    `${counts.later} later`,
    ...(counts.never > 0 ? [`${counts.never} never where they stand`] : []),
    ...(counts.unknown > 0 ? [`${counts.unknown} not known`] : []),
  ];
  return `${parts.join(', ')}.`;
}

/** What is listed, soonest first; of this week's, what is dry already stands apart: it is the longest and says least. */
export function listedBoards(
  boards: readonly Board[],
  show: Show,
): { readonly listed: readonly Board[]; readonly ready: readonly Board[] } {
  const stands = { soon: SOON, never: ['never'], all: ORDER } satisfies Record<Show, readonly Board['stands'][]>;
  const among = (these: readonly Board['stands'][]) =>
    boards
      .filter((board) => these.includes(board.stands))
      .sort((a, b) => ORDER.indexOf(a.stands) - ORDER.indexOf(b.stands) || a.tag.localeCompare(b.tag));
  return { listed: among(stands[show]), ready: show === 'soon' ? among(['ready']) : [] };
}

function Rows(props: { readonly answer: Ready; readonly show: Show; readonly onOpen: (id: string) => void }) {
  const { listed, ready } = listedBoards(props.answer.boards, props.show);
  return (
    <>
      {listed.length === 0 ? (
        <p class="hint">None comes ready this week.</p>
      ) : (
        <List label="Boards by when they are ready" boards={listed} onOpen={props.onOpen} />
      )}
      {ready.length === 0 ? null : (
        <Fold title={`Ready already: ${count(ready.length, 'board')}`}>
          <List label="Boards that are ready already" boards={ready} onOpen={props.onOpen} />
        </Fold>
      )}
    </>
  );
}

function List(props: {
  readonly label: string;
  readonly boards: readonly Board[];
  readonly onOpen: (id: string) => void;
}) {
  const { shell } = usePanel();
  const today = shell.today();
  const more = props.boards.length - SHOWN_MAX;
  return (
    <>
      <RowList
        label={props.label}
        rows={props.boards.slice(0, SHOWN_MAX).map((board) => rowOf(board, today))}
        onOpen={props.onOpen}
      />
      {more > 0 ? <p class="hint">And {more} more.</p> : null}
    </>
  );
}

function rowOf(board: Board, today: string): Row {
  return {
    key: board.boardId,
    title: (
      <>
        <strong>{board.tag}</strong> {speciesText(board.species)}
      </>
    ),
    figure: board.lastPercent === null ? '–' : percentText(board.lastPercent),
    under: <Unbroken text={underOf(board, today)} />,
  };
}

function underOf(board: Board, today: string): string {
  const perhaps = board.stands === 'possibly' ? 'perhaps: ' : '';
  if (board.stands !== 'ready') {
    const now = board.dryFor === 'hidden' ? `${dryForText.hidden} now; ` : '';
    return now + perhaps + whenText(board, today);
  }
  return board.lastOn === null
    ? dryForText[board.dryFor]
    : `${dryForText[board.dryFor]}; read ${dayTextBeside(board.lastOn, today)}`;
}

/** "likely 3 Dec, from 29 Nov to 9 Dec"; a day that is past asks for the meter; where there is no day, why. */
export function whenText({ forecast, why }: Pick<Board, 'forecast' | 'why'>, today: string): string {
  if (forecast?.kind === 'ready') return `ready, read ${dayTextBeside(forecast.on, today)}`;
  if (forecast?.kind !== 'range') return why;
  const days = [forecast.likelyOn, forecast.earliestOn, forecast.latestOn].map((day) => dayTextBeside(day, today));
  const rough =
    forecast.basis === 'species-table' ? '; how fast it dries is not measured yet, a wide guess from memory' : '';
  if (forecast.likelyOn < today) return `should be there since about ${days[0]}: measure${rough}`;
  return `likely ${days[0]}, from ${days[1]} to ${days[2]}${rough}`;
}
