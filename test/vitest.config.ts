/**
 * Four projects. node: pure code and the yard's rules at Node speed. workerd: what only the real runtime shows.
 * browser: the bench in Chromium against a running server. slow: load, crash, and long random runs.
 */
import { cloudflareTest } from '@cloudflare/vitest-plugin';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    projects: [
      {
        test: {
          name: 'node',
          include: [
            'test/{wood,takeoff,planner,contract,yard,api,sheet,panel,host,files,formulas,host-google,host-excel}/**/*.test.ts',
            'test/*.test.ts',
          ],
          environment: 'node',
          // Both cores of the smallest machine; left alone, one would lie idle.
          maxWorkers: 2,
          testTimeout: 20_000,
        },
      },
      {
        plugins: [
          cloudflareTest({
            main: new URL('workerd/yard-worker.ts', import.meta.url).pathname,
            config: false,
            miniflare: {
              compatibilityDate: '2026-11-01',
              durableObjects: { YARD: { className: 'Yard', useSQLite: true } },
              ratelimits: { RATE_PLAN: { namespace_id: '1', simple: { limit: 3, period: 10 } } },
            },
          }),
        ],
        test: {
          name: 'workerd',
          include: ['test/workerd/**/*.test.ts'],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['test/e2e/**/*.test.ts'],
          environment: 'node',
          // Each file has a bench and a browser of its own; two at once fit the smallest machine.
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'slow',
          include: ['test/slow/**/*.test.ts'],
          environment: 'node',
          fileParallelism: false,
          testTimeout: 1_200_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
