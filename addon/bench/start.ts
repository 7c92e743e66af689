/** `npm start`: builds the page, runs the service on this machine, opens the demo yard, and says where it is. */
import { join } from 'node:path';
import { buildSite, SITE } from '../build/build.ts';
import { keptYard, openDemoYard, publishConnection, servedOf } from './demo-yard.ts';
import { type LocalServer, localSecrets, portIsFree, ROOT, startLocalServer } from './local-server.ts';
import { noteRunning, runningHere } from './running.ts';

const PORT_USUAL = 8787;

async function start(): Promise<void> {
  const port = Number(process.env.PORT ?? PORT_USUAL);
  if (!Number.isInteger(port) || port < 1 || port > 65_535) {
    return stopWith(`PORT is "${process.env.PORT}"; it must be a number from 1 to 65535.`);
  }
  if (!(await portIsFree(port))) {
    return stopWith(
      `Port ${port} is taken: perhaps Heartside runs already at http://127.0.0.1:${port}. ` +
        `Stop the other program, or choose another port: PORT=${port + 1} npm start`,
    );
  }
  // Another folder gives a second bench of its own, with its own yard.
  const stateFolder = process.env.HEARTSIDE_STATE ?? join(ROOT, '.heartside');
  const running = await runningHere(stateFolder);
  if (running) {
    return stopWith(
      `Heartside runs already from this folder, at ${running}. Use that one, or stop it first. ` +
        'A second one needs a folder of its own: HEARTSIDE_STATE=/some/folder npm start',
    );
  }
  let server: LocalServer | null = null;
  let stopping = false;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, async () => {
      if (stopping) return;
      stopping = true;
      await server?.stop();
      process.exit(0);
    });
  }
  const secrets = await localSecrets(stateFolder);
  await buildSite(() => {});
  const servedToo = servedOf(await keptYard(stateFolder));
  server = await startLocalServer({ port, stateFolder, siteFolder: SITE, servedToo }, secrets);
  await noteRunning(stateFolder, server.address);
  try {
    const yard = await openDemoYard(server.address, stateFolder, secrets);
    await publishConnection(server.address, stateFolder, yard);
  } catch (fault) {
    await server.stop();
    throw fault;
  }
  console.log(`Heartside is ready: ${server.address}`);
  await server.ended;
  if (!stopping) stopWith(`The local runtime ended.\n${server.lastWords()}`);
}

function stopWith(text: string): void {
  console.error(text);
  process.exit(1);
}

await start().catch((fault: unknown) => stopWith(fault instanceof Error ? fault.message : String(fault)));
