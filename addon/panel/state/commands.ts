/** What the items of the host's own menu do in the panel. */
import type { HostCommand } from '../../host/host.ts';
import { tableKind } from '../../sheet/table-kind.ts';
import type { Panel } from '../panel.ts';
import { troubleOf } from './task.ts';

export function carryOut(panel: Panel, command: HostCommand): void {
  const { host, shell, sheetStatus, writeBack } = panel;
  const started: Readonly<Record<HostCommand, () => Promise<unknown>>> = {
    'use-selection': async () => {
      const around = await host.readSelection({ expand: 'table', rowCountMax: ROWS_LOOKED_AT });
      shell.takeFromSheet(tableKind(around) ?? 'boards', 'table');
    },
    refresh: () => sheetStatus.refresh(),
    undo: async () => {
      await writeBack.log.load();
      await writeBack.undo();
    },
    help: async () => {
      shell.fromSheet.value = null;
      shell.tab.value = 'Help';
    },
  };
  started[command]().catch((thrown: unknown) => {
    const trouble = troubleOf(thrown);
    if (trouble.kind === 'host') shell.say(trouble.help);
  });
}

const ROWS_LOOKED_AT = 5_000;
