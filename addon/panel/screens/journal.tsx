/** Journal: every movement, newest first, and the way to turn one round. */
import type { MovementView } from '../../../worker/contract/movement.ts';
import { usePanel } from '../panel.ts';
import { Balance } from '../parts/balance.tsx';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { SelectField } from '../parts/field.tsx';
import { Empty, Fold, MoreButton } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useReload } from '../parts/use-reload.ts';
import type { JournalOf } from '../state/journal.ts';
import { accountOf } from '../state/wood-account.ts';
import { momentText } from '../words/measure.ts';
import { movementWords } from '../words/trade.ts';

const TAGS_SHOWN = 4;

export function Journal() {
  const { journal } = usePanel();
  useReload(
    () => journal.movements.load(),
    () => journal.of.value,
  );
  const items = journal.movements.items.value;
  return (
    <>
      <h2>Journal</h2>
      <p class="hint">
        Each entry is one movement: what changed in the yard, when, and by whom. Nothing is ever rubbed out.
      </p>
      <Filter />
      <TaskStatus task={journal.movements.task} />
      {items?.length === 0 ? (
        <Empty title="Nothing has moved yet">
          <p>Whatever changes in the yard is written here and stays: boards in, holds, cuts, offcuts, write-offs.</p>
        </Empty>
      ) : null}
      <ol class="plain-list">
        {(items ?? []).map((movement) => (
          <li key={movement.seq}>
            <Entry movement={movement} />
          </li>
        ))}
      </ol>
      <MoreButton pages={journal.movements} />
    </>
  );
}

function Filter() {
  const { journal, job, stock } = usePanel();
  const now = journal.of.value;
  const jobs = job.jobs.items.value ?? [];
  const board = stock.board.value;
  const choices: { readonly value: string; readonly label: string; readonly of: JournalOf }[] = [
    { value: 'yard', label: 'everything', of: { kind: 'yard' } },
    ...jobs.map((one) => ({
      value: `job ${one.id}`,
      label: one.name,
      of: { kind: 'job' as const, id: one.id, name: one.name },
    })),
  ];
  const boards = [
    ...(now.kind === 'board' ? [{ id: now.id, tag: now.tag }] : []),
    ...(board !== null && !(now.kind === 'board' && now.id === board.id) ? [{ id: board.id, tag: board.tag }] : []),
  ];
  for (const one of boards) {
    choices.push({ value: `board ${one.id}`, label: `board ${one.tag}`, of: { kind: 'board', ...one } });
  }
  return (
    <SelectField
      label="Movements of"
      value={now.kind === 'yard' ? 'yard' : `${now.kind} ${now.id}`}
      options={choices}
      onPick={(value) => {
        const choice = choices.find((one) => one.value === value);
        if (choice !== undefined) journal.of.value = choice.of;
      }}
    />
  );
}

function Entry(props: { readonly movement: MovementView }) {
  const { journal, shell } = usePanel();
  const { movement } = props;
  const undone = movement.undoneBy !== null;
  // The summary mostly names its boards already.
  const tags = movement.boardTags.filter((tag) => !movement.summary.includes(tag));
  const told = tags.length < movement.boardTags.length ? [] : tags;
  const shown = told.slice(0, TAGS_SHOWN).join(', ');
  const more = told.length - TAGS_SHOWN;
  return (
    <div class={`entry${undone ? ' undone' : ''}`}>
      <div class="card-head">
        <strong>{movementWords[movement.kind]}</strong>
        <span class="hint">{momentText(movement.atMs, shell.today())}</span>
      </div>
      <p>
        <Unbroken text={movement.summary} />
      </p>
      <p class="hint">
        No. {movement.seq}, by {movement.by}
        {shown === '' ? '' : `; ${shown}`}
        {more > 0 ? ` and ${more} more` : ''}
        {undone ? `; turned round by no. ${movement.undoneBy}` : ''}
        {movement.undoes === null ? '' : `; turns no. ${movement.undoes} round`}
      </p>
      {movement.balances.length === 0 ? null : (
        <Fold title="Where the wood went">
          {movement.balances.map((balance) => (
            <Balance key={balance.boardId} account={accountOf(balance)} of={balance.tag} />
          ))}
        </Fold>
      )}
      {undone || movement.kind === 'yard-founded' ? null : (
        <ConfirmButton
          kind="quiet"
          ask={`Turn no. ${movement.seq} round? It stays in the journal, and a new entry beside it takes it back.`}
          yes="Turn it round"
          name={`Undo no. ${movement.seq}`}
          task={journal.undoing}
          onPress={() => void journal.undo(movement.seq)}
        >
          Undo
        </ConfirmButton>
      )}
      {journal.asked.value === movement.seq ? <TaskStatus task={journal.undoing} /> : null}
    </div>
  );
}

/** Opens the journal of one board. */
export function JournalOfBoard(props: { readonly id: string; readonly tag: string }) {
  const { journal, shell } = usePanel();
  return (
    <Button
      kind="quiet"
      onPress={() => {
        journal.of.value = { kind: 'board', id: props.id, tag: props.tag };
        shell.tab.value = 'Journal';
      }}
    >
      Its journal
    </Button>
  );
}
