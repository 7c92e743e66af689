/**
 * Layouts made by the tests: a board is sawn at random, edge to edge, and whatever comes off is called a piece or a
 * rest. Whatever the search does, a plan that it makes must be of this kind.
 */
import * as fc from 'fast-check';
import type { BoardLayout, PlacedBlank, Problem, Rect, SawCut } from '../../worker/planner/problem.ts';

export interface SawnBoard {
  readonly problem: Problem;
  readonly layout: BoardLayout;
}

/** One number a step: what the saw does next. */
const choices = fc.array(fc.nat({ max: 0xffff_ffff }), { minLength: 4, maxLength: 60 });

/** A board sawn at random. Every piece is a blank of its own, except that equal sizes share one. */
export const sawnBoard: fc.Arbitrary<SawnBoard> = fc
  .record({
    length: fc.integer({ min: 40, max: 3000 }),
    width: fc.integer({ min: 10, max: 300 }),
    rip: fc.integer({ min: 0, max: 4 }),
    crosscut: fc.integer({ min: 0, max: 4 }),
    steps: choices,
  })
  .map(({ length, width, rip, crosscut, steps }) => sawAtRandom({ length, width, kerf: { rip, crosscut }, steps }));

function sawAtRandom(setup: {
  readonly length: number;
  readonly width: number;
  readonly kerf: { readonly rip: number; readonly crosscut: number };
  readonly steps: readonly number[];
}): SawnBoard {
  let bench: Rect[] = [{ from: 0, to: setup.length, left: 0, right: setup.width }];
  const cuts: SawCut[] = [];
  for (const step of setup.steps) {
    const of = bench[step % bench.length] as Rect;
    const axis = (step >>> 8) % 2 === 0 ? 'rip' : 'crosscut';
    const kerf = setup.kerf[axis];
    const [near, far] = axis === 'rip' ? [of.left, of.right] : [of.from, of.to];
    if (far - near < 2 * kerf + 2) continue;
    // From a blade that hangs half over the near side to one that hangs half over the far side.
    const first = near - Math.max(kerf - 1, -1);
    const last = far - 1;
    const at = first + ((step >>> 10) % (last - first + 1));
    cuts.push({ axis, of, at, kerf });
    bench = bench.filter((rect) => rect !== of).concat(sides(of, axis, at, at + kerf));
  }
  const blanks: Problem['blanks'][number][] = [];
  const pieces: PlacedBlank[] = [];
  const rests: Rect[] = [];
  for (const [index, rect] of bench.entries()) {
    if (index % 3 === 2) {
      rests.push(rect);
      continue;
    }
    const size = { length: rect.to - rect.from, width: rect.right - rect.left };
    let blank = blanks.findIndex((b) => b.length === size.length && b.width === size.width);
    if (blank < 0) {
      blank = blanks.length;
      blanks.push({
        part: `part ${blank}`,
        ...size,
        quantity: null,
        value: size.length * size.width,
        tier: 1,
        quality: 0,
        matchGroup: null,
      });
    }
    pieces.push({ ...rect, blank });
  }
  return {
    problem: {
      kerf: setup.kerf,
      maxStages: null,
      boards: [
        {
          tag: 'W-01',
          length: setup.length,
          width: setup.width,
          count: 1,
          cost: 0,
          // Bad wood lies where no piece was taken.
          blocked: [rests],
          fits: null,
        },
      ],
      blanks,
      objective: 'value',
      rest: null,
    },
    layout: { board: 0, pieces, cuts, rests },
  };
}

function sides(of: Rect, axis: 'rip' | 'crosscut', at: number, bladeEnd: number): Rect[] {
  const out: Rect[] = [];
  if (axis === 'rip') {
    if (at > of.left) out.push({ ...of, right: at });
    if (bladeEnd < of.right) out.push({ ...of, left: bladeEnd });
  } else {
    if (at > of.from) out.push({ ...of, to: at });
    if (bladeEnd < of.to) out.push({ ...of, from: bladeEnd });
  }
  return out;
}
