/** Writes in groups: the first at once, the others together when it is durable, each failing for itself alone. */
import { expect, test } from 'vitest';
import { WriteGroups } from '../../worker/yard/write-groups.ts';

/** A disk that is done when told so. */
function slowDisk() {
  const flushes: { done: () => void; fail: () => void }[] = [];
  const durable = () =>
    new Promise<void>((resolve, reject) => {
      flushes.push({ done: resolve, fail: () => reject(new Error('the disk is gone')) });
    });
  return { durable, flushes };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

test('a write alone goes through at once; those that come meanwhile go together, in their order', async () => {
  const { durable, flushes } = slowDisk();
  const groups = new WriteGroups(durable);
  const made: number[] = [];
  const all = [1, 2, 3, 4].map((no) =>
    groups.run(() => {
      made.push(no);
      return no;
    }),
  );
  expect(made).toEqual([1]);
  expect(await all[0]).toBe(1);
  await settle();
  expect(made).toEqual([1]);
  flushes[0]?.done();
  expect(await Promise.all(all)).toEqual([1, 2, 3, 4]);
  expect(made).toEqual([1, 2, 3, 4]);
  expect(flushes).toHaveLength(2);
});

test('one that throws fails alone, and the next groups go on', async () => {
  const { durable, flushes } = slowDisk();
  const groups = new WriteGroups(durable);
  const first = groups.run(() => 'first');
  const bad = groups.run(() => {
    throw new RangeError('not this one');
  });
  const good = groups.run(() => 'good');
  flushes[0]?.done();
  await expect(bad).rejects.toThrow('not this one');
  expect([await first, await good]).toEqual(['first', 'good']);
  flushes[1]?.fail();
  await settle();
  expect(await groups.run(() => 'after')).toBe('after');
});

test('a group has 64 writes at most, so that reads come in between', async () => {
  const { durable, flushes } = slowDisk();
  const groups = new WriteGroups(durable);
  let made = 0;
  const all = Array.from({ length: 200 }, () => groups.run(() => ++made));
  const seen = [made];
  for (let at = 0; at < 4; at++) {
    flushes[at]?.done();
    await settle();
    seen.push(made);
  }
  expect(seen).toEqual([1, 65, 129, 193, 200]);
  expect(await Promise.all(all)).toEqual(Array.from({ length: 200 }, (_, at) => at + 1));
});
