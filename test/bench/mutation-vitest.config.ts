/** The tests that `mutation.ts` runs over and over: one area's own, at Node speed. */
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Shortest first: the first failing test ends a mutant. */
class ShortestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).reverse();
  }
}

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: (process.env.MUTATION_TESTS ?? 'test/wood/**/*.test.ts').split(','),
    testNamePattern: new RegExp(`^(?!.*(${process.env.MUTATION_LEAVES_OUT ?? 'no such test'}))`),
    environment: 'node',
    testTimeout: 120_000,
    sequence: { sequencer: ShortestFirst },
    // Starting each file anew would take longer than its tests; none of them leaves anything behind in a module.
    isolate: false,
  },
});
