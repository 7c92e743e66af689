/** The tests that `mutation.ts` runs over and over: one area's own, at Node speed. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: (process.env.MUTATION_TESTS ?? 'test/wood/**/*.test.ts').split(','),
    environment: 'node',
    testTimeout: 30_000,
  },
});
