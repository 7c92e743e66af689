/** What a task says while it runs, and its trouble in words: what happened, what it means for the boards, what to do. */
import type { Conflict, Fault, Problem } from '../../../worker/contract/problem.ts';
import { problemName, type Task, type Trouble } from '../state/task.ts';
import { VERSION } from '../version.ts';
import { capital } from '../words/measure.ts';
import { Button } from './button.tsx';
import { CopyButton } from './copy.tsx';

export function TaskStatus(props: { readonly task: Task }) {
  const saying = props.task.saying.value;
  const trouble = props.task.trouble.value;
  return (
    <div class="task" aria-busy={props.task.busy.value ? 'true' : undefined}>
      {saying === null ? null : (
        <p class="working" role="status">
          <span class="working-bar" aria-hidden="true" />
          {saying}…
        </p>
      )}
      {props.task.stoppable.value ? (
        <Button kind="quiet" onPress={() => props.task.stop()}>
          Stop waiting
        </Button>
      ) : null}
      {trouble === null ? null : <TroubleNote trouble={trouble} task={props.task} />}
    </div>
  );
}

function TroubleNote(props: { readonly trouble: Trouble; readonly task: Task }) {
  const { trouble, task } = props;
  if (trouble.kind === 'told') return <Note title={trouble.help} task={task} retry={false} />;
  if (trouble.kind === 'offline') {
    return (
      <Note
        title="The yard cannot be reached"
        help="Nothing more was sent. If a write was under way, trying again is safe: it will not be done twice."
        task={task}
        retry
      />
    );
  }
  if (trouble.kind === 'host') {
    const details = `${trouble.code}: ${trouble.help}\n${new Date().toISOString()}\nsidebar ${VERSION}`;
    return <Note title={trouble.help} task={task} retry={trouble.code !== 'unsupported'} details={details} />;
  }
  return <ProblemNote problem={trouble.problem} task={task} />;
}

function ProblemNote(props: { readonly problem: Problem; readonly task: Task }) {
  const { problem, task } = props;
  return (
    <Note
      title={titleOf(problem)}
      help={problem.detail}
      task={task}
      retry={problem.status >= 500 || problem.status === 429}
      details={`${problem.title} (${problem.status}, ${problemName(problem)})\nrequest ${problem.instance}\n${new Date().toISOString()}\nsidebar ${VERSION}`}
      quiet={problemName(problem) === 'board-held'}
    >
      {problem.conflicts && problem.conflicts.length > 0 ? <ConflictList conflicts={problem.conflicts} /> : null}
      {problem.faults && problem.faults.length > 0 ? <FaultList faults={problem.faults} /> : null}
      {problem.instance === '' ? null : <p class="hint">Request {problem.instance}</p>}
    </Note>
  );
}

function Note(props: {
  readonly title: string;
  readonly help?: string;
  readonly task: Task;
  readonly retry: boolean;
  readonly quiet?: boolean;
  /** What whoever helps needs to know; without keys and without what cells hold. */
  readonly details?: string;
  readonly children?: preact.ComponentChildren;
}) {
  return (
    <div class={`note${props.quiet === true ? '' : ' trouble'}`} role="alert">
      <p class="note-title">{props.title}</p>
      {props.help === undefined || props.help === props.title ? null : <p>{props.help}</p>}
      {props.children}
      <div class="row">
        {props.retry ? <Button onPress={() => void props.task.again()}>Try again</Button> : null}
        {props.details === undefined ? null : <CopyButton text={props.details}>Copy details</CopyButton>}
        <Button kind="quiet" onPress={() => props.task.clear()}>
          Close
        </Button>
      </div>
    </div>
  );
}

/** What an undo waits for is the news; that it is refused is seen. */
const titleOf = (problem: Problem) => (problemName(problem) === 'cannot-undo' ? problem.detail : problem.title);

/** Who stands in the way of whom, and the way out: a normal thing in a shop, not an error. */
export function ConflictList(props: { readonly conflicts: readonly Conflict[] }) {
  return (
    <ul class="plain-list conflicts">
      {props.conflicts.map((conflict) => (
        <li key={`${conflict.boardId} ${conflict.fromNm ?? ''}`}>
          <strong>{conflict.tag}</strong>
          {conflict.jobName === null ? null : <> · {conflict.jobName}</>}
          <br />
          {capital(conflict.wayOut)}
        </li>
      ))}
    </ul>
  );
}

/** A tag tells by itself which is meant, also where tags were typed and there are no rows. */
const named = (fault: Fault) => fault.field === 'tag' && fault.read !== undefined && fault.read !== '';

export function FaultList(props: { readonly faults: readonly Fault[] }) {
  return (
    <ul class="plain-list faults">
      {props.faults.map((fault) => (
        <li key={fault.pointer + fault.help}>
          {fault.row === undefined || named(fault) ? null : <strong>Row {fault.row + 1} · </strong>}
          {fault.field === undefined || named(fault) ? null : <>{fault.field}: </>}
          {fault.read === undefined ? null : <q>{fault.read}</q>}
          {named(fault) ? ': ' : ' '}
          {fault.help}
        </li>
      ))}
    </ul>
  );
}
