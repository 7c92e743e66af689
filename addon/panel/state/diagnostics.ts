/**
 * What whoever helps needs to know of this sidebar, as one text: versions, host, capabilities, what failed lately. No key,
 * no link, no cell: an address is cut to its origin, and troubles are kept as names and numbers only.
 */
import { contractVersion } from '../../../worker/contract/routes.ts';
import type { Capabilities } from '../../host/host.ts';
import type { Panel } from '../panel.ts';
import { VERSION } from '../version.ts';
import { troublesSoFar } from './task.ts';

export async function diagnosticsOf(panel: Panel, browser: string): Promise<string> {
  const { host, shell, yard, outbox, reach, connections, connection, writeBack } = panel;
  const capabilities = await host.capabilities();
  const address = connections?.inFront.value?.address ?? connection?.address ?? null;
  const facts = yard.facts.value;
  const told = {
    at: new Date(shell.nowMs()).toISOString(),
    sidebar: { version: VERSION, contract: contractVersion },
    host: capabilities,
    browser,
    yard: {
      origin: address === null ? null : originOf(address),
      contract: facts?.contract ?? null,
      mayDo: facts?.you.scopes ?? null,
      boardsInStock: facts?.boards.inStock ?? null,
      reached: reach.unreached.value === null,
    },
    waitingToBeSent: outbox.waiting.value.map(({ route, atMs, refused }) => ({
      route,
      at: new Date(atMs).toISOString(),
      refused: refused?.status ?? null,
    })),
    file: { readOnly: writeBack.log.readOnly.value, writes: writeBack.log.entries.value.length },
    troubles: troublesSoFar().map(({ atMs, doing, what }) => ({ at: new Date(atMs).toISOString(), doing, what })),
  };
  return JSON.stringify(told, null, 2);
}

function originOf(address: string): string {
  try {
    return new URL(address).origin;
  } catch {
    return 'no address';
  }
}

/** One line: "Heartside 0.1.0 in Excel; tells what is selected; undoes by itself; writes notes". */
export function aboutLine(capabilities: Capabilities): string {
  const can = [
    capabilities.pushesSelection ? 'tells what is selected' : 'reads the selection when asked',
    capabilities.undoesNatively ? 'a write is one step of its own undo' : 'a write is undone from here',
    capabilities.notes ? 'notes on headings' : 'no notes on headings',
  ];
  return `Heartside ${VERSION} in ${hostNames[capabilities.host]}: ${can.join('; ')}.`;
}

export const hostNames: Readonly<Record<Capabilities['host'], string>> = {
  bench: 'the bench',
  google: 'Google Sheets',
  excel: 'Excel',
  file: 'a file',
};
