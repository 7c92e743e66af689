/** Job: its cut list from the sheet, its takeoff, and where every piece stands. */

import { useState } from 'preact/hooks';
import type { JobWithParts } from '../../../worker/contract/job.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { RowList } from '../parts/row-list.tsx';
import { Empty, Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useReload } from '../parts/use-reload.ts';
import { capital, count } from '../words/measure.ts';
import { notMadeText, standingText } from '../words/standing.ts';
import { layersWord, pieceOrder, pieceWords } from '../words/trade.ts';
import { CutListIntake } from './cut-list-intake.tsx';
import { FromSheetButton } from './from-sheet-button.tsx';
import { JobPicker } from './job-picker.tsx';
import { Part } from './part.tsx';
import { TakeoffSection } from './takeoff.tsx';
import { WorkSection } from './work.tsx';

type Inside = { readonly at: 'job' } | { readonly at: 'part'; readonly key: string };

export function Job() {
  const { job, shell } = usePanel();
  const [inside, setInside] = useState<Inside>({ at: 'job' });
  useReload(() => job.load());
  const back = () => setInside({ at: 'job' });
  const now = job.job.value;
  const leaveSheet = () => {
    shell.fromSheet.value = null;
  };
  if (shell.fromSheet.value === 'parts') return <CutListIntake onBack={leaveSheet} />;
  if (inside.at === 'part' && now !== null) return <Part job={now} partKey={inside.key} onBack={back} />;
  const jobs = job.jobs.items.value;
  return (
    <>
      <div class="screen-head">
        <h2>Job</h2>
        {now === null || now.dueOn === null ? null : <Due on={now.dueOn} />}
      </div>
      <JobPicker />
      {jobs?.length === 0 ? (
        <Empty title="No jobs yet">
          <p>A job is one commission: give it a name, then read its cut list from your sheet.</p>
        </Empty>
      ) : null}
      <Fold title="Open a new job" open={jobs?.length === 0}>
        <NewJob />
      </Fold>
      {now === null ? (
        <FromSheetButton what="parts" first={false}>
          Read a cut list from the sheet
        </FromSheetButton>
      ) : (
        <JobBody job={now} onPart={(key) => setInside({ at: 'part', key })} />
      )}
    </>
  );
}

function Due(props: { readonly on: string }) {
  const { shell } = usePanel();
  return <p class="sum">due {dayTextBeside(props.on, shell.today())}</p>;
}

function NewJob() {
  const { job } = usePanel();
  const [name, setName] = useState('');
  const [dueOn, setDueOn] = useState('');
  const start = async () => {
    if (name.trim() === '') return;
    if (await job.start({ name: name.trim(), dueOn: dueOn === '' ? null : dueOn })) {
      setName('');
      setDueOn('');
    }
  };
  return (
    <>
      <TextField label="Name" value={name} onInput={setName} placeholder="Hall table" onEnter={() => void start()} />
      <TextField label="Due, if there is a day" type="date" value={dueOn} onInput={setDueOn} />
      <Button task={job.writing} off={name.trim() === ''} onPress={() => void start()}>
        Open the job
      </Button>
      <TaskStatus task={job.writing} />
    </>
  );
}

function JobBody(props: { readonly job: JobWithParts; readonly onPart: (key: string) => void }) {
  const { cutList, job: state } = usePanel();
  const { job } = props;
  const listed = job.parts.length > 0;
  const notMade = notMadeText(job.standing.pieces);
  return (
    <>
      <FromSheetButton what="parts" first={!listed}>
        {listed ? 'Read the cut list again' : 'Read the cut list from the sheet'}
      </FromSheetButton>
      {listed ? (
        <>
          <Section
            title="Where it stands"
            beside={
              <Button kind="quiet" onPress={() => void cutList.writeStanding()}>
                Write the standing beside the rows
              </Button>
            }
          >
            <Standing job={job} />
          </Section>
          <WorkSection job={job} />
          <TakeoffSection />
          <Section title={capital(count(job.parts.length, 'part'))}>
            <RowList
              label="Parts"
              onOpen={props.onPart}
              rows={job.parts.map((part) => ({
                key: part.key,
                title: part.label,
                figure: part.quantity,
                under: standingText(part),
              }))}
            />
          </Section>
        </>
      ) : (
        <Empty title="No cut list yet">
          <p>
            Write one part a row: name, quantity, species, finished length, width and thickness. Posts or rails that are
            glued up may say their plies. Select one cell of the list, then press the button above.
          </p>
        </Empty>
      )}
      <Section title="Close the job">
        <div class="row">
          {job.state === 'open' ? (
            <>
              <ConfirmButton
                ask={`Mark the job as done? ${notMade === null ? '' : `${notMade}. `}What it still holds is released.`}
                yes="It is done"
                task={state.writing}
                onPress={() => void state.finish('done')}
              >
                Done
              </ConfirmButton>
              <ConfirmButton
                ask="Cancel the job? What it holds is released; the journal keeps it all."
                yes="Cancel the job"
                task={state.writing}
                onPress={() => void state.finish('cancelled')}
              >
                Cancel the job
              </ConfirmButton>
            </>
          ) : (
            <Button task={state.writing} onPress={() => void state.finish('open')}>
              Open it again
            </Button>
          )}
        </div>
        <TaskStatus task={state.writing} />
      </Section>
    </>
  );
}

function Standing(props: { readonly job: JobWithParts }) {
  const { pieces, layers } = props.job.standing;
  const states = pieceOrder.filter((state) => (pieces[state] ?? 0) > 0);
  const layerWords = pieceOrder
    .filter((state) => (layers[state] ?? 0) > 0)
    .map((state) => `${layers[state]} ${pieceWords[state]}`);
  return (
    <>
      <dl class="standing">
        {states.map((state) => (
          <div key={state}>
            <dt>{pieceWords[state]}</dt>
            <dd>{pieces[state]}</dd>
          </div>
        ))}
      </dl>
      {layerWords.length === 0 ? null : (
        <p class="hint">
          Each glue-up counts as one part above. Its {layersWord(props.job.parts)}: {layerWords.join(', ')}.
        </p>
      )}
    </>
  );
}
