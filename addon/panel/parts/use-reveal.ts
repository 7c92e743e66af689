/** Shows a cell in the sheet; a host that cannot says why in the panel's own line. */
import type { Area } from '../../host/host.ts';
import { useCore } from '../panel.ts';
import { troubleOf } from '../state/task.ts';

export function useReveal(): (area: Area) => void {
  const { host, shell } = useCore();
  return (area) => {
    host.reveal(area).catch((thrown: unknown) => {
      const trouble = troubleOf(thrown);
      if (trouble.kind === 'host') shell.say(trouble.help);
    });
  };
}
