/** What `npm run deploy` would send, packed offline: it packs, it fits, it has its bindings, and no secret is in it. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ROOT } from '../../addon/bench/local-server.ts';
import { SITE } from '../../addon/build/build.ts';
import { rates } from '../../worker/api/limiter.ts';

/** The smaller of the two limits that the platform's documents name for a worker, gzipped. */
const WORKER_GZ_BYTES_MAX = 3_000_000;

let folder: string;
let said: string;
let status: number | null;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'heartside-deploy-'));
  const run = spawnSync(
    process.execPath,
    [join(ROOT, 'node_modules/wrangler/bin/wrangler.js'), 'deploy', '--dry-run', '--outdir', join(folder, 'out')],
    {
      cwd: ROOT,
      encoding: 'utf8',
      env: {
        ...process.env,
        CI: '1',
        NO_COLOR: '1',
        CLOUDFLARE_API_TOKEN: '',
        WRANGLER_SEND_METRICS: 'false',
        WRANGLER_LOG_PATH: join(folder, 'logs'),
        XDG_CONFIG_HOME: join(folder, 'config'),
      },
    },
  );
  said = run.stdout + run.stderr;
  status = run.status;
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('it packs without an account, with every binding', () => {
  expect(status, said).toBe(0);
  const names = ['YARD', 'ALLOWED_ORIGINS', ...Object.keys(rates).map((rate) => `RATE_${rate.toUpperCase()}`)];
  for (const name of names) expect(said).toContain(`env.${name}`);
  // Secrets are set apart; a value of theirs in the configuration would be listed here.
  expect(said).not.toMatch(/env\.(KEY_PEPPER|ADMIN_KEY)/);
});

test('the worker is small enough for the platform', () => {
  const worker = readFileSync(join(folder, 'out/index.js'));
  expect(gzipSync(worker).byteLength).toBeLessThan(WORKER_GZ_BYTES_MAX);
});

test('the pages that go along hold no key of the bench, and their headers are strict', () => {
  expect(existsSync(join(SITE, 'bench/connection.json'))).toBe(false);
  const files = readdirSync(SITE, { recursive: true })
    .map((name) => join(SITE, String(name)))
    .filter((path) => statSync(path).isFile() && /\.(js|css|html|json|svg)$|_headers$/.test(path));
  for (const path of files) {
    expect(readFileSync(path, 'utf8'), path).not.toMatch(/y[kf]_[0-9a-z]{20}_[0-9a-z]{8}_[0-9a-z]{32}/);
  }
  const headers = readFileSync(join(SITE, '_headers'), 'utf8');
  expect(headers).toContain("default-src 'none'; script-src 'self';");
  expect(headers).not.toMatch(/unsafe-eval|script-src[^;]*'unsafe-inline'/);
  expect(headers).toMatch(/\/bench\/connection\.json\n {2}! Cache-Control\n {2}Cache-Control: no-store/);
});
