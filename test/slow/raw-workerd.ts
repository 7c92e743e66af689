/**
 * The runtime itself, without any tool around it, on files of its own: a bundle, a configuration of twenty lines, a free
 * port on this machine. kill is SIGKILL: the process gets no chance to tidy up.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { build } from 'esbuild';

/** The package's main file gives the path of the program; it comes without types. */
const workerd: { readonly default: string } = createRequire(import.meta.url)('workerd');

export const ADMIN_KEY = 'admin-key-of-a-test';
export const KEY_PEPPER = 'the pepper of a test';

function configText(port: number, files: string, objects: readonly string[]): string {
  const key = (name: string) => `heartside-${name.toLowerCase()}`;
  return `using Workerd = import "/workerd/workerd.capnp";
const config :Workerd.Config = (
  services = [
    (name = "main", worker = .main),
    (name = "files", disk = (path = "${files}", writable = true)),
  ],
  sockets = [(name = "http", address = "127.0.0.1:${port}", http = (), service = "main")],
);
const main :Workerd.Worker = (
  modules = [(name = "worker.js", esModule = embed "worker.js")],
  compatibilityDate = "2026-11-01",
  durableObjectNamespaces = [${objects
    .map((name) => `(className = "${name}", uniqueKey = "${key(name)}", enableSql = true)`)
    .join(', ')}],
  durableObjectStorage = (localDisk = "files"),
  bindings = [
    ${objects.map((name) => `(name = "${name.toUpperCase()}", durableObjectNamespace = "${name}"),`).join('\n    ')}
    (name = "ADMIN_KEY", text = "${ADMIN_KEY}"),
    (name = "KEY_PEPPER", text = "${KEY_PEPPER}"),
  ],
);
`;
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}

async function isListening(port: number): Promise<boolean> {
  return fetch(`http://127.0.0.1:${port}/v1/health`).then(
    () => true,
    () => false,
  );
}

export class RawWorkerd {
  readonly #folder: string;
  readonly #port: number;
  #process: ChildProcess | null = null;

  private constructor(folder: string, port: number) {
    this.#folder = folder;
    this.#port = port;
  }

  /** objects: the classes of the entry that are Durable Objects, each bound under its name in capitals. */
  static async with(entry: URL, objects: readonly string[] = ['Yard']): Promise<RawWorkerd> {
    const folder = await mkdtemp(join(tmpdir(), 'heartside-yard-'));
    await mkdir(join(folder, 'files'));
    const port = await freePort();
    await build({
      entryPoints: [entry.pathname],
      outfile: join(folder, 'worker.js'),
      bundle: true,
      format: 'esm',
      target: 'es2023',
      external: ['cloudflare:*'],
      logLevel: 'error',
    });
    await writeFile(join(folder, 'config.capnp'), configText(port, join(folder, 'files'), objects));
    const runtime = new RawWorkerd(folder, port);
    await runtime.start();
    return runtime;
  }

  /** Where the objects' files lie, to be read or written while nothing runs. */
  get files(): string {
    return join(this.#folder, 'files');
  }

  /** Memory of the process now, megabytes; null where the system does not tell. */
  residentMb(): number | null {
    try {
      const status = readFileSync(`/proc/${this.#process?.pid}/status`, 'utf8');
      return Math.round(Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024);
    } catch {
      return null;
    }
  }

  /** Work of the process so far, milliseconds on all cores; null where the system does not tell. */
  workMs(): number | null {
    try {
      const [, after = ''] = readFileSync(`/proc/${this.#process?.pid}/stat`, 'utf8').split(') ');
      const fields = after.split(' ');
      // Fields 14 and 15 of proc(5), in ticks of 10 ms.
      return (Number(fields[11]) + Number(fields[12])) * 10;
    } catch {
      return null;
    }
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  /** Resolves when it answers. Gives how long that took, milliseconds. */
  async start(): Promise<number> {
    const fromMs = performance.now();
    const runtime = spawn(workerd.default, ['serve', join(this.#folder, 'config.capnp')], { stdio: 'ignore' });
    this.#process = runtime;
    while (!(await isListening(this.#port))) {
      if (runtime.exitCode !== null) throw new Error(`workerd ended with ${runtime.exitCode}`);
      await pause(5);
    }
    return performance.now() - fromMs;
  }

  async kill(): Promise<void> {
    const runtime = this.#process;
    if (!runtime || runtime.exitCode !== null) return;
    const ended = new Promise((resolve) => runtime.once('exit', resolve));
    runtime.kill('SIGKILL');
    await ended;
  }

  async end(): Promise<void> {
    await this.kill();
    await rm(this.#folder, { recursive: true, force: true });
  }
}
