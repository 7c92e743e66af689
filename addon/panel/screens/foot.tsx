/** Below every screen: the sheet's status when it is behind the yard, and what is written into the sheet. */
import { useEffect } from 'preact/hooks';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useOnce } from '../parts/use-once.ts';
import { carryOut } from '../state/commands.ts';
import { count } from '../words/measure.ts';
import { WriteBackNote } from './write-back.tsx';

export function Foot() {
  const panel = usePanel();
  useOnce(() => void panel.sheetStatus.look());
  useEffect(() => panel.selectedRows.follow(), [panel]);
  useEffect(() => panel.host.onCommand((command) => carryOut(panel, command)), [panel]);
  return (
    <>
      <StaleNote />
      <WriteBackNote />
    </>
  );
}

/** The sheet in front shows an older state than the yard has. */
function StaleNote() {
  const { sheetStatus } = usePanel();
  const stale = sheetStatus.stale.value;
  if (stale === null) return null;
  return (
    <aside class="write-back" aria-label="Status in the sheet">
      <div class="row spread">
        <span>
          {count(stale.cells, 'cell')} on “{stale.sheet}” {stale.cells === 1 ? 'is' : 'are'} behind the yard.
        </span>
        <Button kind="quiet" task={sheetStatus.task} onPress={() => void sheetStatus.refresh()}>
          Show and refresh
        </Button>
      </div>
      <TaskStatus task={sheetStatus.task} />
    </aside>
  );
}
