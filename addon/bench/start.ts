/** `npm start`: builds the page, runs the service on this machine, opens the demo yard, and says where it is. */
import { join } from 'node:path';
import { buildSite, SITE } from '../build/build.ts';
import { openDemoYard, writeConnection } from './demo-yard.ts';
import { localSecrets, portIsFree, ROOT, startLocalServer } from './local-server.ts';

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
  const stateFolder = join(ROOT, '.heartside');
  const secrets = await localSecrets(stateFolder);
  await buildSite(() => {});
  const server = await startLocalServer({ port, stateFolder, siteFolder: SITE }, secrets);
  let stopping = false;
  const stop = async () => {
    if (stopping) return;
    stopping = true;
    await server.stop();
    process.exit(0);
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  process.on('SIGHUP', stop);
  try {
    await writeConnection(stateFolder, await openDemoYard(server.address, stateFolder, secrets));
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
