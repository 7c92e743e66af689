/**
 * A drawing as data: shapes in millimetres of the real thing (across times crossFactor), styled by role and never by
 * colour, so that the panel draws it with its own elements and the printed card with ink. x runs along the grain, y across.
 */
import * as z from 'zod';

/**
 * outline board edge · blank a part · offcut kept · scrap · cut a saw line · dim a dimension line · defect-* hatchings ·
 * ghost another job's run; of a plot: band a likely range · curve · level a line to reach · reading a measured point
 */
export const role = z.enum([
  'outline',
  'blank',
  'offcut',
  'scrap',
  'cut',
  'dim',
  'ghost',
  'defect-knot',
  'defect-split',
  'defect-wane',
  'defect-stain',
  'defect-rot',
  'defect-other',
  'grain',
  'band',
  'curve',
  'level',
  'reading',
]);
export type Role = z.output<typeof role>;

export const shape = z.discriminatedUnion('shape', [
  z.strictObject({
    shape: z.literal('rect'),
    role,
    x: z.number(),
    y: z.number(),
    w: z.number(),
    h: z.number(),
    title: z.string().optional(),
  }),
  z.strictObject({ shape: z.literal('line'), role, x1: z.number(), y1: z.number(), x2: z.number(), y2: z.number() }),
  z.strictObject({
    shape: z.literal('text'),
    role,
    /** x, y is where the anchor lies, at the foot of the letters; turned text reads upwards. */
    x: z.number(),
    y: z.number(),
    /** Height of the letters in drawing millimetres. */
    size: z.number(),
    anchor: z.enum(['start', 'middle', 'end']),
    turned: z.boolean().default(false),
    text: z.string(),
  }),
  /** An outline of straight lines and arcs, as SVG path data. */
  z.strictObject({ shape: z.literal('path'), role, d: z.string(), title: z.string().optional() }),
  /** A cut's number in a circle. */
  z.strictObject({ shape: z.literal('mark'), role, x: z.number(), y: z.number(), r: z.number(), text: z.string() }),
]);
export type Shape = z.output<typeof shape>;

export const drawing = z.strictObject({
  title: z.string(),
  /** The same in words, for a screen reader. */
  description: z.string(),
  widthMm: z.number(),
  heightMm: z.number(),
  shapes: z.array(shape),
  /** How many times larger the width is drawn than the length, in the shapes as they stand; 1, to scale, when left out. */
  crossFactor: z.number().min(1).optional(),
  /** The defect roles that occur, with what they stand for. */
  legend: z.array(z.strictObject({ role, text: z.string() })),
});
export type Drawing = z.output<typeof drawing>;
