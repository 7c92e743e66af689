/** Cuts: plan the cutting of a job, hold the boards, go to the saw, write down what came out. */
import { useState } from 'preact/hooks';
import type { Alternative, Layout, Plan } from '../../../worker/contract/plan.ts';
import { boardFeetFromM3 } from '../../../worker/wood/volume.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { Empty, Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useReload } from '../parts/use-reload.ts';
import type { Effort } from '../state/cuts.ts';
import { woodCostText } from '../words/cost.ts';
import { boardFeetText, count, type Measure, m3Text, percentText } from '../words/measure.ts';
import { PlansBeside } from './beside.tsx';
import { JobPicker } from './job-picker.tsx';
import { doneBoards, PlanView } from './plan.tsx';
import { Reconcile } from './reconcile.tsx';
import { Reconciled } from './reconciled.tsx';
import { StillToCut, wantedLines } from './still-to-cut.tsx';

export function Cuts() {
  const { cuts, job } = usePanel();
  const [writingDown, setWritingDown] = useState(false);
  useReload(
    async () => {
      if (job.jobs.items.value === null) await job.load();
      const id = job.openId.value;
      // What is cut and what is wanted again stands with the job's pieces.
      if (id !== null) await Promise.all([cuts.load(id), job.open(id)]);
    },
    () => job.openId.value,
  );
  if (cuts.reconciled.value !== null) {
    return (
      <Reconciled
        answer={cuts.reconciled.value}
        onBack={() => {
          cuts.leaveReconciled();
          setWritingDown(false);
        }}
      />
    );
  }
  const session = cuts.session.value;
  if (writingDown && session !== null) return <Reconcile session={session} onBack={() => setWritingDown(false)} />;
  return (
    <>
      <h2>Cuts</h2>
      <JobPicker besides={cuts.reading} />
      <Body onWriteDown={() => setWritingDown(true)} />
    </>
  );
}

function Body(props: { readonly onWriteDown: () => void }) {
  const { cuts, job, shell } = usePanel();
  if (job.openId.value === null) {
    return job.jobs.items.value?.length === 0 ? (
      <Empty title="No job to cut for">
        <p>Open a job and read its cut list first, under Job.</p>
        <Button
          onPress={() => {
            shell.tab.value = 'Job';
          }}
        >
          To Job
        </Button>
      </Empty>
    ) : (
      <p class="hint">Choose a job; its plan shows here.</p>
    );
  }
  const plan = cuts.plan.value;
  if (plan === null || plan.state === 'done') {
    const now = job.job.value;
    return (
      <>
        {plan !== null && now !== null && now.id === plan.jobId ? <StillToCut job={now} /> : null}
        <MakePlan jobId={job.openId.value} done={plan !== null} />
        {plan === null ? null : (
          <Fold title={`The plan that is cut: ${count(plan.layouts.length, 'board')}`}>
            <PlanView plan={plan} />
          </Fold>
        )}
      </>
    );
  }
  const doneIds = doneBoards(plan, job.job.value);
  const wanted = job.job.value !== null && doneIds.size > 0 && wantedLines(job.job.value).length > 0;
  return (
    <>
      <NextStep plan={plan} onWriteDown={props.onWriteDown} />
      <PlansBeside />
      {wanted && job.job.value !== null ? <StillToCut job={job.job.value} /> : null}
      <PlanView plan={plan} doneIds={doneIds} />
      <ConfirmButton
        kind="quiet"
        ask="Drop this plan? Its boards are released and its pieces wanted again."
        yes="Drop the plan"
        task={cuts.writing}
        off={cuts.planning.busy.value}
        onPress={() => void cuts.drop()}
      >
        Drop the plan
      </ConfirmButton>
    </>
  );
}

function MakePlan(props: { readonly jobId: string; readonly done: boolean }) {
  const { cuts } = usePanel();
  const [effort, setEffort] = useState<Effort>('normal');
  return (
    <>
      <p>
        {props.done ? 'The last plan is cut; a new one plans the rest. ' : ''}A plan lays every wanted blank on free
        boards, the hardest to replace first, and says how far it is at most from the best possible. It holds nothing
        yet.
      </p>
      <ChoiceField
        label="How long to look"
        value={effort}
        options={[
          { value: 'quick', label: 'a glance' },
          { value: 'normal', label: 'well' },
          { value: 'long', label: 'long' },
        ]}
        onPick={setEffort}
      />
      <Button kind="primary" task={cuts.planning} onPress={() => void cuts.makePlan(props.jobId, effort)}>
        {props.done ? 'Plan the rest' : 'Plan the cuts'}
      </Button>
      <Button task={cuts.planning} onPress={() => void cuts.compare(props.jobId)}>
        Compare plans
      </Button>
      <TaskStatus task={cuts.planning} />
      <Nearing />
      <Alternatives jobId={props.jobId} inFront={null} />
    </>
  );
}

/** Plans side by side; beside a draft the one that it is says so, and the draft stays until another is taken. */
function Alternatives(props: { readonly jobId: string; readonly inFront: Plan | null }) {
  const { cuts } = usePanel();
  const measure = useMeasure();
  const alternatives = cuts.alternatives.value;
  if (alternatives === null) return null;
  return (
    <Section title="Plans to choose from">
      {props.inFront === null || alternatives.some((one) => isPlanInFront(one, props.inFront)) ? null : (
        <p>The plan in front: {figuresText({ ...props.inFront, boardCount: props.inFront.layouts.length }, measure)}</p>
      )}
      {alternatives.map((one) => (
        <AlternativeCard
          key={one.aim}
          one={one}
          words={bestWords(
            one,
            alternatives.every(({ cost }) => cost.unpricedCount === 0),
          )}
          jobId={props.jobId}
          inFront={props.inFront}
        />
      ))}
      {props.inFront === null ? null : (
        <Button kind="quiet" onPress={() => cuts.leaveAlternatives()}>
          Keep the plan in front
        </Button>
      )}
    </Section>
  );
}

/** The same cuts on the same boards, as far as a summary tells. */
export function isPlanInFront(one: Alternative, plan: Plan | null): boolean {
  if (plan === null || one.placedCount !== plan.placedCount || one.cutCount !== plan.cutCount) return false;
  const tags = new Set(plan.layouts.map((layout) => layout.tag));
  return (
    one.settingCount === plan.settingCount && tags.size === one.tags.length && one.tags.every((tag) => tags.has(tag))
  );
}

type PlanFigures = Pick<
  Alternative,
  'placedCount' | 'wantedCount' | 'boardCount' | 'stockUsedM3' | 'yieldPercent' | 'cutCount' | 'settingCount'
> &
  Pick<Plan, 'cost'>;

/** What one plan is set against another by. */
function figuresText(plan: PlanFigures, measure: Measure): string {
  const volume = measure.system === 'in' ? boardFeetText(boardFeetFromM3(plan.stockUsedM3)) : m3Text(plan.stockUsedM3);
  const cost = plan.cost === null ? '' : woodCostText(plan.cost, plan.boardCount, measure);
  const from = `${plan.placedCount} of ${count(plan.wantedCount, 'blank')} from ${count(plan.boardCount, 'board')}`;
  const work = `${count(plan.cutCount, 'cut')}, ${count(plan.settingCount, 'setting')}`;
  return `${from}, ${volume} opened${cost}, yield ${percentText(plan.yieldPercent)}; ${work}.`;
}

const aimWords: Readonly<Record<Alternative['aim'], string>> = {
  'least-cost': 'Least cost of wood',
  'fewest-boards': 'Fewest boards',
  'fewest-cuts': 'Fewest cuts and settings together',
};

/** "Least cost of wood, fewest boards": whatever it was searched for. Where a board has no price it is wood that was set against wood. */
export function bestWords({ bestAt }: Pick<Alternative, 'bestAt'>, isPriced: boolean): string {
  const [first, ...others] = bestAt.map((aim) => (aim === 'least-cost' && !isPriced ? 'Least wood' : aimWords[aim]));
  return [first, ...others.map((words) => words.toLowerCase())].join(', ');
}

function AlternativeCard(props: {
  readonly one: Alternative;
  readonly words: string;
  readonly jobId: string;
  readonly inFront: Plan | null;
}) {
  const { cuts } = usePanel();
  const { one } = props;
  const measure = useMeasure();
  return (
    <div class="card">
      <h4>{props.words}</h4>
      <p>{figuresText(one, measure)}</p>
      <p class="hint">
        <Unbroken text={`${one.trades} ${one.tags.join(', ')}`} />
      </p>
      {isPlanInFront(one, props.inFront) ? (
        <p class="hint">This is the plan in front.</p>
      ) : (
        <Button
          task={cuts.planning}
          name={`Take this plan: ${props.words}`}
          onPress={() => void cuts.take(props.jobId, one)}
        >
          Take this plan
        </Button>
      )}
    </div>
  );
}

/** The best so far and what no plan can beat, nearing each other on one line; past the bound is what may still be saved. */
function Nearing() {
  const { cuts } = usePanel();
  const measure = useMeasure();
  const now = cuts.progress.value;
  if (now === null) return null;
  const least = now.stockUsedM3 === 0 ? 0 : now.stockBoundM3 / now.stockUsedM3;
  return (
    <div class="form">
      <p>
        {now.placedCount} of {count(now.wantedCount, 'blank')} from {count(now.boardCount, 'board')}.
      </p>
      <svg class="nearing" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        <rect class="used" width="100" height="6" />
        <rect class="least" width={100 * least} height="6" />
      </svg>
      <p class="hint">
        Opens {measure.volume(now.stockUsedM3)}; no plan for these blanks opens less than{' '}
        {measure.volume(now.stockBoundM3)}. {percentText(100 * now.share)} of the search is done.
      </p>
      <Button onPress={() => cuts.stop()}>Stop and take this</Button>
    </div>
  );
}

/** The one thing to do next with this plan. */
function NextStep(props: { readonly plan: Plan; readonly onWriteDown: () => void }) {
  const { cuts, job } = usePanel();
  const [how, setHow] = useState<'whole' | 'runs'>('whole');
  const { plan } = props;
  const session = cuts.session.value;
  const boards = plan.layouts.length === 1 ? 'the board' : `the ${plan.layouts.length} boards`;
  const stale = job.job.value !== null && job.job.value.revision !== plan.jobRevision;
  // What is looked for takes this plan's place: nothing is held or begun by one that is about to go.
  const searching = cuts.planning.busy.value;
  return (
    <div class="form">
      {stale ? (
        <p class="remark strong">
          The cut list was set anew since this plan was made. Plan again to cut what is wanted now.
        </p>
      ) : null}
      {plan.state === 'draft' ? (
        <>
          {session === null ? null : (
            <div class="card">
              <p>
                <strong>At the saw</strong>: {openTags(cuts.openLayouts(session))}.
              </p>
              <SessionSteps kind="plain" onWriteDown={props.onWriteDown} />
            </div>
          )}
          <ChoiceField
            label="Hold"
            value={how}
            options={[
              { value: 'whole', label: 'whole boards' },
              { value: 'runs', label: 'only the length that is cut' },
            ]}
            onPick={setHow}
          />
          <Button
            kind={stale ? 'plain' : 'primary'}
            task={cuts.writing}
            off={plan.layouts.length === 0 || searching}
            onPress={() => void cuts.reserve(how)}
          >
            Hold {boards}
          </Button>
          <Button
            task={cuts.planning}
            onPress={() => void cuts.makePlan(plan.jobId, plan.effort === 'quick' ? 'normal' : 'long')}
          >
            Plan again, looking longer
          </Button>
          {/* A draft that goes on from another plan is wanted as it is: with the least change. */}
          {plan.continues === null ? (
            <Button task={cuts.planning} onPress={() => void cuts.compare(plan.jobId)}>
              Compare plans
            </Button>
          ) : null}
        </>
      ) : session === null ? (
        <>
          <p class="hint">
            {plan.state === 'reserved'
              ? 'The boards are held. A session makes the cut cards and waits for what came out.'
              : 'Boards that were not cut are still held with their pieces planned; a new session takes them to the saw.'}
          </p>
          <Button kind="primary" task={cuts.writing} off={searching} onPress={() => void cuts.openSession()}>
            Open the cutting session
          </Button>
        </>
      ) : (
        <SessionSteps kind="primary" onWriteDown={props.onWriteDown} />
      )}
      {plan.state === 'draft' && !stale ? null : (
        <Button task={cuts.planning} onPress={() => void cuts.replan()}>
          Plan again, changing least
        </Button>
      )}
      <TaskStatus task={cuts.writing} />
      <TaskStatus task={cuts.planning} />
      <Nearing />
      {plan.state === 'draft' ? <Alternatives jobId={plan.jobId} inFront={plan} /> : null}
    </div>
  );
}

const openTags = (layouts: readonly Layout[]): string =>
  layouts.length === 0 ? 'all is written down' : layouts.map(({ tag }) => tag).join(', ');

/** What is done with boards at the saw, also while the next plan waits to be held. */
function SessionSteps(props: { readonly kind: 'primary' | 'plain'; readonly onWriteDown: () => void }) {
  const { cuts } = usePanel();
  return (
    <>
      <Button task={cuts.writing} onPress={() => void cuts.showCards()}>
        Print the cut cards
      </Button>
      <Button kind={props.kind} onPress={props.onWriteDown}>
        Write down what came out
      </Button>
      <p class="hint">At the saw: guards on, push sticks, ears and lungs covered; the saw maker’s rules come first.</p>
    </>
  );
}
