/** Founds the demo yard over the API, as any shop's would be, and fills it with what the invented shop holds already. */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import { demoYard } from '../../data-demo/yard.ts';
import { type Route, type RouteName, routes } from '../../worker/contract/routes.ts';
import type { Answer, Body } from '../../worker/contract/wire.ts';
import { type LocalSecrets, servedFolder } from './local-server.ts';

/** The server looks at its files from time to time, not at every request. */
const SERVED_WITHIN_MS = 15_000;

const YARD_FILE = 'yard.json';

/** The page fetches its key from here; only the local server ever serves this file. */
const CONNECTION_PATH = 'bench/connection.json';
const connectionText = (yard: Yard) => JSON.stringify({ key: yard.key });

export interface Yard {
  readonly yardId: string;
  readonly key: string;
}

/** The yard that was opened here last time, if any. */
export async function keptYard(stateFolder: string): Promise<Yard | null> {
  const file = join(stateFolder, YARD_FILE);
  return existsSync(file) ? JSON.parse(await readFile(file, 'utf8')) : null;
}

/** The yard of this state folder: the one from last time, or a new one. */
export async function openDemoYard(address: string, stateFolder: string, secrets: LocalSecrets): Promise<Yard> {
  const kept = await keptYard(stateFolder);
  if (kept && (await answers(address, kept))) return kept;
  const yard = await found(address, secrets.adminKey);
  await fill(address, yard);
  // Written last: a yard that was only half filled is founded anew next time.
  await writeFile(join(stateFolder, YARD_FILE), JSON.stringify(yard), { mode: 0o600 });
  return yard;
}

/** What to serve of a kept yard from the first moment; of one that is only being filled, that a page is to wait for it. */
export function servedOf(yard: Yard | null): Record<string, string> {
  return { [CONNECTION_PATH]: yard ? connectionText(yard) : JSON.stringify({ key: null }) };
}

/** Done when the page can read how to reach the yard. */
export async function publishConnection(address: string, stateFolder: string, yard: Yard): Promise<void> {
  const file = join(servedFolder(stateFolder), CONNECTION_PATH);
  const text = connectionText(yard);
  if (!existsSync(file) || (await readFile(file, 'utf8')) !== text) await writeFile(file, text);
  const untilMs = Date.now() + SERVED_WITHIN_MS;
  while (Date.now() < untilMs) {
    const answer = await fetch(`${address}/${CONNECTION_PATH}`).catch(() => null);
    if ((await answer?.text().catch(() => '')) === text) return;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error('The page cannot read its connection. Stop Heartside and start it again.');
}

async function answers(address: string, yard: Yard): Promise<boolean> {
  const answer = await fetch(`${address}/v1/yard`, { headers: { authorization: `Bearer ${yard.key}` } });
  await answer.body?.cancel();
  return answer.ok;
}

async function found(address: string, adminKey: string): Promise<Yard> {
  const answer = await fetch(`${address}/v1/yards`, {
    method: 'POST',
    headers: { authorization: `Bearer ${adminKey}`, 'content-type': 'application/json' },
    body: JSON.stringify({ name: demoYard.name }),
  });
  if (answer.status !== 201) throw new Error(`The demo yard could not be founded: ${await answer.text()}`);
  return answer.json() as Promise<Yard>;
}

async function fill(address: string, yard: Yard): Promise<void> {
  const send = sender(address, yard.key);
  await send('changeSettings', {}, demoYard.settings);
  const today = new Date().toISOString().slice(0, 10);
  for (const takeIn of demoYard.takeIns)
    await send('takeInBoards', {}, { ...takeIn, boards: takeIn.boards.map((board) => asOn(today, board)) });
  for (const demoJob of demoYard.jobs) {
    const opened = await send('openJob', {}, demoJob.draft);
    await send('setCutList', { id: opened.id }, demoJob.cutList);
    if (demoJob.holds.length > 0) await send('reserve', {}, { jobId: opened.id, boards: demoJob.holds });
  }
}

const dated = z.looseObject({ readings: z.array(z.looseObject({ on: z.string() })) });

/** The yard refuses readings of days to come: on a machine whose clock is behind the demo's, those are left out. */
function asOn(today: string, board: unknown): unknown {
  const read = dated.safeParse(board);
  return read.success ? { ...read.data, readings: read.data.readings.filter(({ on }) => on <= today) } : board;
}

function sender(address: string, key: string) {
  return async function send<N extends RouteName>(
    name: N,
    path: Readonly<Record<string, string>>,
    body: Body<N>,
  ): Promise<Answer<N>> {
    const route: Route = routes[name];
    const filled = route.path.replace(/\{(\w+)\}/g, (_, part: string) => path[part] ?? '');
    const answer = await fetch(address + filled, {
      method: route.method,
      headers: {
        authorization: `Bearer ${key}`,
        'content-type': 'application/json',
        'idempotency-key': randomUUID(),
      },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`The demo yard did not take ${name}: ${await answer.text()}`);
    return answer.json() as Promise<Answer<N>>;
  };
}
