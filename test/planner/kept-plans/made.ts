/** Yards, racks and jobs made from a seed, each with something that a real one has: defects, tiers, crook, sizes that differ by board. */
import type { BoardView, Defect } from '../../../worker/contract/board.ts';
import type { Part } from '../../../worker/contract/job.ts';
import type { Blank, Problem, Rect, StockBoard } from '../../../worker/planner/problem.ts';
import { board, inch, part } from '../../takeoff/shop-cases.ts';
import { type Random, randomFrom } from '../../yard/random-history.ts';
import { blankOf, boardOfSize, problemWith } from '../solve-cases.ts';

const between = (random: Random, min: number, max: number): number =>
  Math.ceil(min) + Math.floor(random() * (Math.floor(max) - Math.ceil(min) + 1));
const some = <T>(count: number, make: (no: number) => T): T[] => Array.from({ length: count }, (_, no) => make(no));

function knot(random: Random, length: number, width: number): Rect {
  const from = between(random, 0, length - 20);
  const left = between(random, 0, width - 10);
  return { from, left, to: from + between(random, 10, 90), right: left + between(random, 10, 40) };
}

function blankFrom(random: Random, no: number, longest: number, copies: number, more: Partial<Blank> = {}): Blank {
  const length = between(random, longest / 6, longest);
  const width = between(random, 30, 110);
  return blankOf(`part ${no + 1}`, length, width, { quantity: between(random, 1, copies), ...more });
}

/** Boards with knots and stain, blanks of two qualities and two tiers, each board at its cost. */
export function yard(seed: number, boardCount: number, blankCount: number, more: Partial<Problem> = {}): Problem {
  const random = randomFrom(seed);
  const boards = some(boardCount, (no): StockBoard => {
    const [length, width] = [between(random, 900, 2600), between(random, 110, 260)];
    const knots = some(between(random, 0, 4), () => knot(random, length, width));
    const stain = some(between(random, 0, 2), () => knot(random, length, width));
    return boardOfSize(`W-${no + 1}`, length, width, {
      cost: (length * width) / 4,
      blocked: [[...knots, ...stain], knots],
    });
  });
  const blanks = some(blankCount, (no) =>
    blankFrom(random, no, 1200, 4, { quality: between(random, 0, 1), tier: between(random, 1, 2) }),
  );
  return problemWith(boards, blanks, { objective: 'net', ...more });
}

/** As a yard, but each board asks its own size of a blank and gives some not at all, and what is left is worth keeping. */
export function unlikeBoards(seed: number, boardCount: number, blankCount: number): Problem {
  const random = randomFrom(seed);
  const plain = yard(seed + 1, boardCount, blankCount);
  const boards = plain.boards.map((each): StockBoard => {
    const fits = plain.blanks.map(({ length, width }) =>
      random() < 0.2 ? null : { length: length + between(random, 0, 12), width: width + between(random, 0, 6) },
    );
    return { ...each, fits };
  });
  const rest = {
    lengthMin: 300,
    widthMin: 50,
    perArea: 0.3,
    lengthRef: 1000,
    lengthPower: 0.4,
    widthRef: 100,
    widthPower: 0.2,
  };
  return { ...plain, boards, rest };
}

/** All blanks from the fewest of boards that differ in size and cost. */
export function racks(seed: number, kinds: number, blankCount: number, more: Partial<Problem> = {}): Problem {
  const random = randomFrom(seed);
  const boards = some(kinds, (no) => {
    const [length, width] = [between(random, 1200, 2400), between(random, 120, 240)];
    return boardOfSize(`R-${no + 1}`, length, width, { count: no === 0 ? null : 2, cost: 1 });
  });
  const blanks = some(blankCount, (no) => blankFrom(random, no, 1100, 5));
  return problemWith(boards, blanks, { objective: 'boards', ...more });
}

/** One board, as many copies as pay, or a few of each. */
export function oneBoard(seed: number, knots: number, copies: number | null, more: Partial<Problem> = {}): Problem {
  const random = randomFrom(seed);
  const stock = boardOfSize('O-1', 1800, 220, { blocked: [some(knots, () => knot(random, 1800, 220))] });
  const blanks = some(7, (no) => ({
    ...blankFrom(random, no, 900, 3),
    ...(copies === null ? { quantity: null } : {}),
  }));
  return problemWith([stock], blanks, more);
}

const KINDS: readonly Defect['kind'][] = ['knot-sound', 'knot-loose', 'split', 'stain', 'wane', 'worm'];

/** Long bars in fine units: no table over every length. */
export function longBars(seed: number, kinds: number, more: Partial<Problem> = {}): Problem {
  const random = randomFrom(seed);
  const blanks = some(kinds, (no) =>
    blankOf(`part ${no + 1}`, between(random, 4_000, 29_000), 90, { quantity: between(random, 2, 9) }),
  );
  return problemWith([boardOfSize('B-1', 62_000, 90, { count: null, cost: 1 })], blanks, {
    objective: 'boards',
    ...more,
  });
}

/** One board as long and wide as they come, knots in it, and as many small blanks as pay. */
export function wideBoard(seed: number, knots: number): Problem {
  const random = randomFrom(seed);
  const stock = boardOfSize('O-1', 900, 420, { blocked: [some(knots, () => knot(random, 900, 420))] });
  const blanks = some(5, (no) =>
    blankOf(`part ${no + 1}`, between(random, 90, 260), between(random, 60, 130), { quantity: null }),
  );
  return problemWith([stock], blanks);
}

/** Rough white oak in 1 in and 2 in, with defects, warp, moisture and cost as a rack has them. */
export function rack(seed: number, count: number): BoardView[] {
  const random = randomFrom(seed);
  return some(count, (no) => {
    const [length, width] = [between(random, 40, 120), between(random, 5, 12)];
    const defects = some(between(random, 0, 3), (): Defect => {
      const from = between(random, 0, length - 6);
      const left = between(random, 0, width - 3);
      return {
        kind: KINDS[between(random, 0, KINDS.length - 1)] ?? 'knot-sound',
        face: (['a', 'b', 'through'] as const)[between(random, 0, 2)] ?? 'through',
        fromNm: inch(from),
        toNm: inch(from + between(random, 1, 5)),
        leftNm: inch(left),
        rightNm: inch(left + between(random, 1, 2)),
      };
    });
    return board({
      id: `bd_${String(no + 1).padStart(8, '0')}`,
      tag: `K-${no + 1}`,
      lengthNm: inch(length),
      widthNm: inch(width),
      thicknessNm: inch(no % 3 === 2 ? 2 : 1),
      grain: no % 4 === 0 ? 'quarter' : 'flat',
      readings: [{ moisturePercent: between(random, 7, 11), on: '2026-03-01', meter: 'pin' }],
      costMinor: no % 2 === 0 ? length * width * 10 : null,
      warp: no % 3 === 1 ? { bowNm: 0, crookNm: inch(0.25), cupNm: 0, twistNm: 0 } : null,
      defects,
    });
  });
}

/** A small bench: demanding rails, clear fronts, hidden runners, a post glued up from layers, a top that no board gives. */
export function benchParts(): Part[] {
  const sizes = (length: number, width: number, thickness: number) => ({
    lengthNm: inch(length),
    widthNm: inch(width),
    thicknessNm: inch(thickness),
  });
  return [
    part({ ...sizes(52, 3, 0.75), key: 'R', label: 'Long rail', quantity: 2, use: 'critical', faces: 'clear-both' }),
    part({ ...sizes(110, 11, 0.75), key: 'T', label: 'Top' }),
    part({ ...sizes(22, 2.5, 0.75), key: 'S', label: 'Stile', quantity: 4, grain: 'quarter' }),
    part({ ...sizes(18, 4, 0.75), key: 'D', label: 'Drawer front', quantity: 3, matchGroup: 'fronts' }),
    part({ ...sizes(14, 1.5, 0.5), key: 'C', label: 'Runner', quantity: 8, use: 'hidden', faces: 'hidden' }),
    part({ ...sizes(28, 2.5, 1.5), key: 'L', label: 'Leg', quantity: 2, faces: 'sound-knots' }),
    part({
      ...sizes(30, 3, 1.5),
      key: 'P',
      label: 'Post',
      lamination: {
        kind: 'plies',
        plies: [0, 1].map(() => ({ thicknessNm: inch(0.75), widthNm: inch(3), offsetNm: 0 })),
      },
    }),
  ];
}
