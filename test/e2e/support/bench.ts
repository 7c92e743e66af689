/** A bench of its own for a test file: the built page and the real service on a free port, with a fresh demo yard in a temporary folder. */
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openDemoYard, publishConnection } from '../../../addon/bench/demo-yard.ts';
import { localSecrets, startLocalServer } from '../../../addon/bench/local-server.ts';
import { SITE } from '../../../addon/build/build.ts';

export interface Bench {
  readonly address: string;
  /** Key of the demo yard, with every right. */
  readonly key: string;
  readonly adminKey: string;
  stop(): Promise<void>;
}

export async function startBench(options: { readonly port?: number } = {}): Promise<Bench> {
  if (!existsSync(join(SITE, 'index.html'))) throw new Error('The page is not built: run npm run build first.');
  const stateFolder = await mkdtemp(join(tmpdir(), 'heartside-bench-'));
  const secrets = await localSecrets(stateFolder);
  const port = options.port ?? (await freePort());
  const server = await startLocalServer({ port, stateFolder, siteFolder: SITE }, secrets);
  const stop = async () => {
    await server.stop();
    await rm(stateFolder, { recursive: true, force: true });
  };
  try {
    const yard = await openDemoYard(server.address, stateFolder, secrets);
    await publishConnection(server.address, stateFolder, yard);
    return { address: server.address, key: yard.key, adminKey: secrets.adminKey, stop };
  } catch (fault) {
    await stop();
    throw fault;
  }
}

export async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      probe.close(() => resolve(port));
    });
  });
}
