/** Held: which boards are held for which job; hold the rows selected in the sheet; let go. */
import { useState } from 'preact/hooks';
import type { ReservationView } from '../../../worker/contract/session.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Length } from '../parts/measure.tsx';
import { Empty, Fold, MoreButton, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useReload } from '../parts/use-reload.ts';
import { count } from '../words/measure.ts';
import { JobField } from './job-picker.tsx';

export function Held() {
  const { held, job, boardRows } = usePanel();
  useReload(() => {
    void held.reservations.load();
    if (job.jobs.items.value === null) void job.load();
  });
  const items = held.reservations.items.value;
  return (
    <>
      <div class="screen-head">
        <h2>Held</h2>
        {items === null || items.length === 0 ? null : (
          <p class="sum">{count(new Set(items.map((item) => item.boardId)).size, 'board')}</p>
        )}
      </div>
      <Button onPress={() => void boardRows.writeStatus()}>Write who holds what beside the rows</Button>
      <Fold title="Hold boards for a job" open={items?.length === 0}>
        <HoldForm />
      </Fold>
      <TaskStatus task={held.reservations.task} />
      {items?.length === 0 ? (
        <Empty title="Nothing is held">
          <p>
            A cut plan holds its boards for you, under Cuts. Boards that you want to keep for a job can be held here.
          </p>
        </Empty>
      ) : null}
      {byJob(items ?? []).map((group) => (
        <JobHeld key={group.jobId} group={group} />
      ))}
      <MoreButton pages={held.reservations} />
    </>
  );
}

interface Group {
  readonly jobId: string;
  readonly jobName: string;
  readonly items: readonly ReservationView[];
}

function byJob(items: readonly ReservationView[]): Group[] {
  const groups = new Map<string, ReservationView[]>();
  for (const item of items) groups.set(item.jobId, [...(groups.get(item.jobId) ?? []), item]);
  return [...groups].map(([jobId, list]) => ({ jobId, jobName: list[0]?.jobName ?? '', items: list.toSorted(byTag) }));
}

const byTag = (a: ReservationView, b: ReservationView) =>
  a.tag.localeCompare(b.tag, undefined, { numeric: true }) || a.fromNm - b.fromNm;

function JobHeld(props: { readonly group: Group }) {
  const { held, stock, shell } = usePanel();
  const { group } = props;
  return (
    <Section title={group.jobName}>
      <ul class="plain-list">
        {group.items.map((item) => (
          <li key={item.id} class="row spread">
            <span>
              <button
                type="button"
                class="cell-link"
                onClick={() => {
                  shell.tab.value = 'Stock';
                  void stock.open(item.boardId);
                }}
              >
                {item.tag}
              </button>{' '}
              <span class="hint">
                {item.whole ? (
                  'whole'
                ) : (
                  <>
                    <Length nm={item.fromNm} /> to <Length nm={item.toNm} />
                  </>
                )}
                {item.planId === null ? '' : ', by the plan'}
              </span>
            </span>
            <ConfirmButton
              kind="quiet"
              ask={
                item.planId === null
                  ? `Release ${item.tag} from ${group.jobName}?`
                  : `Release ${item.tag} from ${group.jobName}? The plan that uses it must be dropped or made anew.`
              }
              yes="Release"
              name={`Release ${item.tag}`}
              task={held.writing}
              onPress={() => void held.release([item])}
            >
              Release
            </ConfirmButton>
          </li>
        ))}
      </ul>
      {group.items.length < 2 ? null : (
        <ConfirmButton
          kind="quiet"
          ask={`Release all ${group.items.length} from ${group.jobName}?`}
          yes="Release them all"
          task={held.writing}
          onPress={() => void held.release(group.items)}
        >
          Release all of this job
        </ConfirmButton>
      )}
    </Section>
  );
}

function HoldForm() {
  const { held, job, boardRows } = usePanel();
  const measure = useMeasure();
  // The job in front stays in front, whoever boards are held for.
  const [picked, setPicked] = useState<string | null>(null);
  const jobId = picked ?? job.openId.value;
  const [typed, setTyped] = useState('');
  const [run, setRun] = useState({ from: '', to: '' });
  const [told, setTold] = useState<string | null>(null);
  const tags = typed
    .split(/[\n,;]+/)
    .map((tag) => tag.trim())
    .filter((tag) => tag !== '');
  const fromNm = run.from.trim() === '' ? 0 : measure.readPlace(run.from);
  const toNm = measure.read(run.to);
  const withRun = run.from.trim() !== '' || run.to.trim() !== '';
  const runFault =
    withRun && (fromNm === null || toNm === null || toNm <= fromNm) ? 'A run ends after it begins: 0 to 62.' : null;
  const fromSheet = async () => {
    setTold(null);
    const found = await boardRows
      .selectedTags()
      .catch(() => ({ told: 'The sheet could not be read. Leave the cell you are editing, then try again.' }));
    if ('told' in found) setTold(found.told);
    else setTyped(found.join(', '));
  };
  const hold = async () => {
    if (jobId === null || tags.length === 0 || runFault !== null) return;
    const whole = !withRun || fromNm === null || toNm === null;
    const done = await held.hold(
      jobId,
      tags.map((tag) => ({ tag, run: whole ? null : { fromNm, toNm } })),
    );
    if (done) {
      setTyped('');
      setRun({ from: '', to: '' });
    }
  };
  return (
    <>
      <JobField label="Hold for" id={jobId} onPick={setPicked} />
      <TaskStatus task={job.jobs.task} />
      <Button onPress={() => void fromSheet()}>Take the tags of the selected rows</Button>
      {told === null ? null : (
        <p class="fault" role="alert">
          {told}
        </p>
      )}
      <TextField label="Tags" value={typed} onInput={setTyped} hint="Several with commas between." />
      {tags.length > 1 ? null : (
        <>
          <div class="pair">
            <TextField label="From, if only a run" value={run.from} onInput={(from) => setRun({ ...run, from })} />
            <TextField label="to" value={run.to} onInput={(to) => setRun({ ...run, to })} fault={runFault} />
          </div>
          <p class="hint">Measured from the tagged end. Empty holds the whole board.</p>
        </>
      )}
      <Button
        kind="primary"
        task={held.writing}
        off={tags.length === 0 || jobId === null || runFault !== null}
        onPress={() => void hold()}
      >
        Hold {tags.length > 1 ? `${tags.length} boards, all or none` : 'it'}
      </Button>
      <TaskStatus task={held.writing} />
    </>
  );
}
