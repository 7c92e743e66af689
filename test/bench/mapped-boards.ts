/**
 * Makes boards as a defect map has them, for measuring: `node test/bench/mapped-boards.ts SEED > DIR/mapped-boards.json`.
 *
 * The shape follows that of the public data banks of red oak lumber that the Forest Service of the USDA mapped for
 * rough-mill studies (from memory): boards of 6 to 16 ft by 4 to 12 in, each defect on either face as a rectangle on a
 * grid of 1/4 or 1/16 in, about 15 a board and up to 60; and that of their cutting bills: 10 to 50 sizes of 10 to 75 in
 * by 1 to 4 1/2 in. All figures are drawn at random; none is a measured board. As in a map, defects lie over one another
 * where both faces have one, reach over the board's edge, and may have no width.
 */

import type { Rect } from '../../worker/planner/problem.ts';
import { type Random, seededRandom } from '../../worker/planner/random.ts';
import type { Instance } from './instance.ts';

interface Grid {
  readonly name: string;
  /** Units to an inch. */
  readonly perInch: number;
  /** A blade, in units. */
  readonly kerf: number;
}

const GRIDS: readonly Grid[] = [
  { name: 'mm', perInch: 25.4, kerf: 3 },
  { name: '16ths', perInch: 16, kerf: 2 },
  { name: 'quarters', perInch: 4, kerf: 1 },
  { name: 'mm-wide-blade', perInch: 25.4, kerf: 6 },
];

type Board = Instance['boards'][number];

/** A number from least to most, which may be fractions. */
const within = (random: Random, least: number, most: number): number => least + random.next() * (most - least);

function mappedBoard(random: Random, grid: Grid, tag: string, defectsMost: number): Board {
  const units = (inches: number) => Math.round(inches * grid.perInch);
  const lengthIn = 12 * (6 + random.below(11)) + within(random, 0, 3);
  const widthIn = within(random, 4, 12);
  // Few boards have many.
  const count = 5 + Math.floor(random.next() ** 2 * (defectsMost - 4));
  const defects = Array.from({ length: count }, (): Rect => {
    const [from, to, left, right] = defectInches(random, lengthIn, widthIn);
    return { from: units(from), to: units(to), left: units(left), right: units(right) };
  });
  const [length, width] = [units(lengthIn), units(widthIn)];
  return {
    tag,
    length,
    width,
    count: 1,
    cost: Math.round((100 * length * width) / grid.perInch ** 2 / 144) / 100,
    defects,
  };
}

/** from, to, left and right. */
function defectInches(random: Random, length: number, width: number): readonly [number, number, number, number] {
  const along = within(random, -1, length - 1);
  const across = within(random, -0.25, width - 0.25);
  const kind = random.below(20);
  // Pin knots and worm holes, then knots, then checks, then bark pockets and stain.
  if (kind < 7) return [along, along + within(random, 0.25, 0.75), across, across + within(random, 0.25, 0.5)];
  if (kind < 12) return [along, along + within(random, 0.75, 3), across, across + within(random, 0.5, 2.5)];
  if (kind < 15) return [along, along + within(random, 2, 16), across, across + (kind === 14 ? 0 : 0.125)];
  if (kind < 17) return [along, along + within(random, 3, 20), across, across + within(random, 0.25, 1.5)];
  if (kind < 18) {
    // A split from an end.
    const deep = within(random, 2, 14);
    return random.below(2) === 0
      ? [-0.5, deep, across, across + 0.25]
      : [length - deep, length + 0.5, across, across + 0.25];
  }
  // Wane along an edge.
  const deep = within(random, 0.25, 1.25);
  const to = along + within(random, 8, 50);
  return random.below(2) === 0 ? [along, to, -1, deep] : [along, to, width - deep, width + 1];
}

/** quantity: copies in all, shared out at random; null for as many as pay. */
function cuttingBill(random: Random, grid: Grid, kinds: number, pieces: number | null): Instance['blanks'] {
  return Array.from({ length: kinds }, (_, index) => {
    const lengthIn = 10 + Math.round(random.next() ** 1.5 * 65 * 4) / 4;
    const widthIn = 1 + random.below(15) / 4;
    return {
      part: `P${index + 1}`,
      length: Math.ceil(lengthIn * grid.perInch),
      width: Math.ceil(widthIn * grid.perInch),
      quantity: pieces === null ? null : Math.max(1, Math.round((2 * random.next() * pieces) / kinds)),
      // Long pieces are dearer by the foot.
      value: Math.round((100 * widthIn * lengthIn * (1 + lengthIn / 60)) / 144) / 100,
    };
  });
}

function instance(
  random: Random,
  at: number,
  objective: Instance['objective'],
  boards: number,
  kinds: number,
  pieces: number | null,
): Instance {
  const grid = GRIDS[at % GRIDS.length]!;
  const few = pieces === null ? 'any' : `${pieces}`;
  return {
    name: `mapped-${objective}-${boards}b-${kinds}k-${few}-${grid.name}-${at}`,
    objective,
    kerf: { rip: grid.kerf, crosscut: grid.kerf },
    boards: Array.from({ length: boards }, (_, index) => mappedBoard(random, grid, `B${index + 1}`, 60)),
    blanks: cuttingBill(random, grid, kinds, pieces),
  };
}

const random = seededRandom(Number(process.argv[2] ?? 1));
const limited = Array.from({ length: 24 }, (_, at) =>
  instance(random, at, 'value', 1, 10 + 5 * (at % 9), 20 + 10 * (at % 7)),
);
const unlimited = Array.from({ length: 12 }, (_, at) => instance(random, at, 'value', 1, 10 + 5 * (at % 9), null));
const yards = [20, 30, 40, 60, 75].map((boards, at) => instance(random, at, 'net', boards, 20 + 5 * at, 3 * boards));
const fewest = [20, 40].map((boards, at) => instance(random, at, 'boards', boards, 20 + 10 * at, 3 * boards));
process.stdout.write(`${JSON.stringify([...limited, ...unlimited, ...yards, ...fewest])}\n`);
