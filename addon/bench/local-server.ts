/**
 * Runs the service on this machine only: wrangler's own local runtime on 127.0.0.1, files under one state folder, no
 * account and no calls outward. The site is served from a copy in the state folder, so that the yard's key, which the
 * page fetches, never lies in the folder that is deployed.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';

export const ROOT = new URL('../..', import.meta.url).pathname;
const HEALTHY_WITHIN_MS = 60_000;
const ASK_EVERY_MS = 100;

export interface LocalSecrets {
  readonly adminKey: string;
  readonly pepper: string;
}

export interface LocalServer {
  readonly address: string;
  /** Set when the runtime ends by itself. */
  readonly ended: Promise<number | null>;
  /** What the runtime last said, for when something is wrong. */
  lastWords(): string;
  stop(): Promise<void>;
}

export interface LocalServerOptions {
  readonly port: number;
  readonly stateFolder: string;
  readonly siteFolder: string;
  /** Files served beside the site from the first moment, by path: texts that only this machine may see. */
  readonly servedToo?: Readonly<Record<string, string>>;
}

/** Made once a checkout and kept: a new pepper would lock every key out. */
export async function localSecrets(stateFolder: string): Promise<LocalSecrets> {
  const file = join(stateFolder, 'secrets.json');
  if (existsSync(file)) return JSON.parse(await readFile(file, 'utf8'));
  const secrets: LocalSecrets = {
    adminKey: randomBytes(24).toString('base64url'),
    pepper: randomBytes(32).toString('base64url'),
  };
  await mkdir(stateFolder, { recursive: true });
  await writeFile(file, JSON.stringify(secrets), { mode: 0o600 });
  return secrets;
}

export function servedFolder(stateFolder: string): string {
  return join(stateFolder, 'site');
}

export async function portIsFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, '127.0.0.1', () => probe.close(() => resolve(true)));
  });
}

export async function startLocalServer(options: LocalServerOptions, secrets: LocalSecrets): Promise<LocalServer> {
  const { port, stateFolder } = options;
  await rm(servedFolder(stateFolder), { recursive: true, force: true });
  await cp(options.siteFolder, servedFolder(stateFolder), { recursive: true });
  for (const [path, text] of Object.entries(options.servedToo ?? {})) {
    await writeFile(join(servedFolder(stateFolder), path), text);
  }
  const envFile = join(stateFolder, 'local.env');
  await writeFile(envFile, `ADMIN_KEY=${secrets.adminKey}\nKEY_PEPPER=${secrets.pepper}\n`, { mode: 0o600 });

  const child = spawn(process.execPath, wranglerArguments(port, stateFolder, envFile), {
    cwd: ROOT,
    env: quietEnvironment(stateFolder),
    stdio: ['ignore', 'pipe', 'pipe'],
    // A group of its own, so that the runtime's children end with it.
    detached: true,
  });
  // However this process ends, the runtime does not stay behind.
  const endWithUs = () => signalGroup(child, 'SIGKILL');
  process.once('exit', endWithUs);
  let said = '';
  const listen = (chunk: Buffer) => {
    said = (said + chunk.toString()).slice(-8_000);
  };
  child.stdout?.on('data', listen);
  child.stderr?.on('data', listen);
  const ended = new Promise<number | null>((resolve) => {
    child.once('exit', (code) => resolve(code));
    child.once('error', () => resolve(null));
  });
  const server: LocalServer = {
    address: `http://127.0.0.1:${port}`,
    ended,
    lastWords: () => said,
    stop: async () => {
      await stopGroup(child, ended);
      process.off('exit', endWithUs);
    },
  };
  if (!(await healthy(server))) {
    await server.stop();
    throw new Error(`The local runtime did not come up.\n${said}`);
  }
  return server;
}

function wranglerArguments(port: number, stateFolder: string, envFile: string): string[] {
  return [
    join(ROOT, 'node_modules/wrangler/bin/wrangler.js'),
    'dev',
    '--config',
    join(ROOT, 'wrangler.toml'),
    '--local',
    '--ip',
    '127.0.0.1',
    '--port',
    String(port),
    '--inspector-port',
    '0',
    '--persist-to',
    join(stateFolder, 'yard'),
    '--assets',
    servedFolder(stateFolder),
    '--env-file',
    envFile,
    '--show-interactive-dev-session',
    'false',
    '--log-level',
    'warn',
  ];
}

function quietEnvironment(stateFolder: string): NodeJS.ProcessEnv {
  return {
    ...process.env,
    CI: '1',
    FORCE_COLOR: '0',
    WRANGLER_SEND_METRICS: 'false',
    WRANGLER_SEND_ERROR_REPORTS: 'false',
    WRANGLER_HIDE_BANNER: 'true',
    WRANGLER_LOG_PATH: join(stateFolder, 'logs'),
    WRANGLER_REGISTRY_PATH: join(stateFolder, 'registry'),
    CLOUDFLARE_CF_FETCH_ENABLED: 'false',
    XDG_CONFIG_HOME: join(stateFolder, 'config'),
  };
}

async function healthy(server: LocalServer): Promise<boolean> {
  const untilMs = Date.now() + HEALTHY_WITHIN_MS;
  let over = false;
  void server.ended.then(() => {
    over = true;
  });
  while (!over && Date.now() < untilMs) {
    const answer = await fetch(`${server.address}/v1/health`).catch(() => null);
    if (answer?.ok) return true;
    await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
  }
  return false;
}

async function stopGroup(child: ChildProcess, ended: Promise<number | null>): Promise<void> {
  signalGroup(child, 'SIGTERM');
  const late = new Promise<'late'>((resolve) => setTimeout(() => resolve('late'), 4_000).unref());
  if ((await Promise.race([ended, late])) === 'late') {
    signalGroup(child, 'SIGKILL');
    await ended;
  }
  // The runtime itself may outlive wrangler by a moment.
  signalGroup(child, 'SIGKILL');
}

function signalGroup(child: ChildProcess, signal: NodeJS.Signals): void {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, signal);
  } catch {
    // Already gone.
  }
}
