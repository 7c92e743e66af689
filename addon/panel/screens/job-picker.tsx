/** Which job is in front; the same one on every tab. */
import { usePanel } from '../panel.ts';
import { SelectField } from '../parts/field.tsx';
import { TaskStatus } from '../parts/task-status.tsx';

export function JobPicker() {
  const { job } = usePanel();
  const jobs = job.jobs.items.value;
  const pick = (id: string) => void job.open(id === '' ? null : id);
  return (
    <>
      {jobs === null || jobs.length === 0 ? null : (
        <SelectField
          label="Job"
          value={job.openId.value ?? ''}
          options={[
            ...(job.openId.value === null ? [{ value: '', label: 'choose a job' }] : []),
            ...jobs.map((one) => ({
              value: one.id,
              label: one.state === 'open' ? one.name : `${one.name} (${one.state})`,
            })),
          ]}
          onPick={pick}
        />
      )}
      <TaskStatus task={job.jobs.task} />
      <TaskStatus task={job.reading} />
    </>
  );
}
