import fc from 'fast-check';
import { expect, test } from 'vitest';
import { TallyShape } from '../../worker/planner/tally.ts';

/** Limits of each blank, and two sets within them. */
const twoSets = fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 40 }).chain((limits) =>
  fc.record({
    limits: fc.constant(limits),
    one: fc.tuple(...limits.map((most) => fc.integer({ min: 0, max: most }))),
    other: fc.tuple(...limits.map((most) => fc.integer({ min: 0, max: most }))),
  }),
);

function packed(shape: TallyShape, copies: readonly number[]): Int32Array {
  const tally = new Int32Array(shape.words);
  const one = new Int32Array(shape.words);
  copies.forEach((count, blank) => {
    shape.setOne(one, 0, blank);
    for (let w = 0; w < shape.words; w++) tally[w]! += count * one[w]!;
  });
  return tally;
}

test('two sets of copies are within the limits packed just when they are counted one by one', () => {
  fc.assert(
    fc.property(twoSets, ({ limits, one, other }) => {
      const shape = new TallyShape(Int32Array.from(limits));
      const bias = shape.biasOf(Int32Array.from(limits));
      const own = packed(shape, one).map((word, w) => word + bias[w]!);
      const fits = limits.every((most, blank) => one[blank]! + other[blank]! <= most);
      expect(shape.isWithin(packed(shape, other), 0, own)).toBe(fits);
      expect([...shape.copies(packed(shape, one), 0)]).toEqual(one);
    }),
  );
});

test('one set is held against fewer copies than it was made for', () => {
  fc.assert(
    fc.property(twoSets, ({ limits, one, other }) => {
      const shape = new TallyShape(Int32Array.from(limits));
      const bias = shape.biasOf(Int32Array.from(other));
      expect(shape.isWithin(packed(shape, one), 0, bias)).toBe(one.every((copies, blank) => copies <= other[blank]!));
    }),
  );
});

test('the guard bits that a sum carries into name the blanks that are over, and by how many copies', () => {
  fc.assert(
    fc.property(twoSets, ({ limits, one, other }) => {
      const shape = new TallyShape(Int32Array.from(limits));
      const bias = shape.biasOf(Int32Array.from(limits));
      const [a, b] = [packed(shape, one), packed(shape, other)];
      const over = new Int32Array(limits.length);
      a.forEach((word, w) => {
        const sum = word + b[w]!;
        for (let bit = 0; bit < 31; bit++) {
          if ((((sum + bias[w]!) & shape.guard[w]!) >>> bit) % 2 === 0) continue;
          const blank = shape.blankAt[(w << 5) + bit]!;
          over[blank] = shape.copiesIn(sum, blank) - limits[blank]!;
        }
      });
      expect([...over]).toEqual(limits.map((most, blank) => Math.max(0, one[blank]! + other[blank]! - most)));
    }),
  );
});
