/**
 * Days for green 1 in lumber to air-dry to 20 %: the fewest for stock stacked in a good season, the most for stock
 * stacked in autumn that only gets there next spring (FPL Technical Note 233 and the air-drying manual). From memory,
 * but for hard maple, where 40 to 205 days were measured (FPL Report 2086, read). Wide on purpose.
 */
export const daysToTwentyPercent: Readonly<Record<string, readonly [least: number, most: number]>> = {
  'red-alder': [20, 180],
  'white-ash': [60, 200],
  'quaking-aspen': [50, 150],
  'american-basswood': [40, 150],
  'american-beech': [70, 200],
  'paper-birch': [40, 200],
  'yellow-birch': [70, 200],
  butternut: [60, 200],
  'black-cherry': [70, 200],
  'eastern-cottonwood': [50, 150],
  'american-elm': [50, 150],
  'shagbark-hickory': [60, 200],
  'mockernut-hickory': [60, 200],
  'pignut-hickory': [60, 200],
  'shellbark-hickory': [60, 200],
  pecan: [60, 200],
  'bigleaf-maple': [60, 180],
  'red-maple': [30, 120],
  'hard-maple': [50, 200],
  'northern-red-oak': [70, 200],
  'southern-red-oak': [100, 300],
  'white-oak': [80, 250],
  sweetgum: [70, 300],
  'american-sycamore': [30, 150],
  tanoak: [180, 365],
  'black-walnut': [70, 200],
  'yellow-poplar': [40, 150],
  'eastern-white-pine': [60, 200],
  'ponderosa-pine': [15, 150],
  'sugar-pine': [15, 90],
  'loblolly-pine': [30, 150],
  'longleaf-pine': [30, 150],
  'coast-douglas-fir': [20, 200],
  'western-hemlock': [60, 200],
  'old-growth-redwood': [60, 185],
  'young-growth-redwood': [60, 185],
  baldcypress: [100, 300],
};

/** What the table's days lead to. */
export const TABLE_END_PERCENT = 20;

/** Drying time grows with thickness to this power: 2 by diffusion alone, 1.5 in practice (from memory). */
export const THICKNESS_POWER = 1.5;
