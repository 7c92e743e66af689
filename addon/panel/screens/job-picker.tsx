/** Which job is in front; the same one on every tab. */
import { usePanel } from '../panel.ts';
import { SelectField } from '../parts/field.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import type { Task } from '../state/task.ts';

/** besides: what else is read for this screen. That something is read again is told over the picker, so that no button moves away under a finger. */
export function JobPicker(props: { readonly besides?: Task }) {
  const { job } = usePanel();
  const stands = (job.jobs.items.value ?? []).length > 0;
  return (
    <div class={stands ? 'reads over' : 'reads'}>
      <JobField label="Job" id={job.openId.value} onPick={(id) => void job.open(id)} />
      <TaskStatus task={job.jobs.task} />
      <TaskStatus task={job.reading} />
      {props.besides === undefined ? null : <TaskStatus task={props.besides} />}
    </div>
  );
}

/** A choice among the jobs; nothing where there are none. */
export function JobField(props: {
  readonly label: string;
  readonly id: string | null;
  readonly onPick: (id: string | null) => void;
}) {
  const { job } = usePanel();
  const jobs = job.jobs.items.value;
  if (jobs === null || jobs.length === 0) return null;
  return (
    <SelectField
      label={props.label}
      value={props.id ?? ''}
      options={[
        ...(props.id === null ? [{ value: '', label: 'choose a job' }] : []),
        ...jobs.map((one) => ({
          value: one.id,
          label: one.state === 'open' ? one.name : `${one.name} (${one.state})`,
        })),
      ]}
      onPick={(id) => props.onPick(id === '' ? null : id)}
    />
  );
}
