/** Writing a session down in the sheet instead of here: out onto a sheet of its own, and back into the form. */
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Fold } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import type { SessionInFront } from '../state/cuts.ts';
import type { TaggedForm } from '../state/reconcile-sheet.ts';
import { putOnSheet, readFromSheet } from '../state/session-sheet.ts';
import { count } from '../words/measure.ts';

export function SessionSheet(props: { readonly session: SessionInFront; readonly boards: readonly TaggedForm[] }) {
  const { cuts, host, shell } = usePanel();
  const { session, boards } = props;
  const put = () =>
    void cuts.sheeting.run('Making the sheet', async () => {
      const name = await putOnSheet(host, session, boards);
      shell.say(`It is on the sheet “${name}”.`);
      return null;
    });
  const read = () =>
    void cuts.sheeting.run('Reading the sheet', async () => {
      const found = await readFromSheet(host, session, boards);
      if (!found.ok) return { kind: 'told', help: found.help };
      const forms = new Map(cuts.forms.value);
      for (const form of found.forms) forms.set(form.boardId, form);
      cuts.forms.value = forms;
      shell.say(`${count(found.forms.length, 'board')} read from the sheet. Look them over, then write them down.`);
      return null;
    });
  return (
    <Fold title="Or in the sheet">
      <p class="hint">
        Puts every part and offcut on a sheet of its own. Fill in Good and Failed there, take away rows of offcuts that
        did not come, then read it back.
      </p>
      <div class="row">
        <Button task={cuts.sheeting} onPress={put}>
          Put it on a sheet
        </Button>
        <Button task={cuts.sheeting} onPress={read}>
          Read it back
        </Button>
      </div>
      <TaskStatus task={cuts.sheeting} />
    </Fold>
  );
}
