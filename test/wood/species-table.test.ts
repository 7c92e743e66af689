/** The whole species table against a second copy of the handbook's figures, every row and every figure. */
import { expect, test } from 'vitest';
import { coefficientOf } from '../../worker/wood/shrinkage.ts';
import { allSpecies, type Species } from '../../worker/wood/species.ts';
import { handbookImported, handbookSpecies } from './handbook-species.ts';

const rowsOf = (table: string) =>
  table
    .trim()
    .split('\n')
    .map((row) => row.split('|').map((cell) => cell.trim()));

/** "Douglas-fir coast" and "coast Douglas-fir" are one wood; so are "oak northern red" and "northern red oak". */
const words = (name: string) =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z]+/g, ' ')
    .trim()
    .split(' ')
    .sort()
    .join(' ');

function woodOf(botanical: string, name: string): Species {
  const same = allSpecies.filter((wood) => wood.botanical === botanical);
  const found = same.length > 1 ? same.find((wood) => words(wood.name) === words(name)) : same[0];
  if (!found) throw new Error(`${name} (${botanical}) is not in the table`);
  return found;
}

test.each(rowsOf(handbookSpecies))('%s, %s', (botanical, name, ...cells) => {
  const [sr, st, sv, cr, ct, gb, mc, g12] = cells.map((cell) => (cell === '-' ? null : Number(cell)));
  expect(woodOf(botanical ?? '', name ?? '')).toMatchObject({
    figuresFrom: 'wood-handbook',
    shrinkRadialPercent: sr,
    shrinkTangentialPercent: st,
    shrinkVolumetricPercent: sv,
    coefficientRadial: cr,
    coefficientTangential: ct,
    specificGravityGreen: gb,
    greenMoisturePercent: mc,
    specificGravity12: g12,
  });
});

test.each(rowsOf(handbookImported))('%s, %s', (botanical, name, ...cells) => {
  const [sr, st, sv, gb] = cells.map(Number);
  const wood = woodOf(botanical ?? '', name ?? '');
  expect(wood).toMatchObject({
    shrinkRadialPercent: sr,
    shrinkTangentialPercent: st,
    shrinkVolumetricPercent: sv,
    specificGravityGreen: gb,
  });
  // Worked out: C = S / (3000 − 20 S), to the five digits of Table 13-5.
  expect(wood.coefficientRadial).toBeCloseTo(coefficientOf(sr ?? 0), 5);
  expect(wood.coefficientTangential).toBeCloseTo(coefficientOf(st ?? 0), 5);
});

test('no wood of the handbook stands in the table that is not in the copy', () => {
  const count = rowsOf(handbookSpecies).length + rowsOf(handbookImported).length;
  expect(allSpecies.filter((wood) => wood.figuresFrom === 'wood-handbook')).toHaveLength(count);
});

/**
 * Hoadley 1998, Table 1 (The Structural Conservation of Panel Paintings, Getty Conservation Institute, p. 15), read in a
 * copy of the page: tangential, radial; and basic density of IPCC 2006 Guidelines vol. 4 Table 4.14 (walnut, chestnut:
 * IPCC 2003), read in two copies in public code.
 */
test.each([
  ['norway-spruce', 7.4, 3.6, 0.4],
  ['silver-fir', 7.6, 3.8, 0.4],
  ['scots-pine', 7.7, 4.0, 0.42],
  ['european-larch', 7.8, 3.3, 0.46],
  ['european-walnut', 6.4, 4.3, 0.53],
  ['sweet-chestnut', 6.8, 4.0, 0.48],
  ['white-willow', 7.2, 4.2, 0.45],
  ['common-alder', 7.3, 4.4, 0.45],
  ['european-cherry', 7.8, 4.2, 0.49],
  ['european-ash', 8.3, 5.2, 0.57],
  ['black-poplar', 8.5, 3.4, 0.35],
  ['sycamore-maple', 8.8, 4.2, 0.52],
  ['european-lime', 9.5, 6.8, 0.43],
  ['european-oak', 10.2, 5.2, 0.58],
  ['european-beech', 11.8, 5.8, 0.58],
])('%s by the published means of its genus', (key, tangential, radial, gravity) => {
  expect(allSpecies.find((wood) => wood.key === key)).toMatchObject({
    figuresFrom: 'genus-means',
    shrinkTangentialPercent: tangential,
    shrinkRadialPercent: radial,
    shrinkVolumetricPercent: null,
    specificGravityGreen: gravity,
    sources: { shrinkage: 'second-hand', coefficients: 'computed', specificGravityGreen: 'second-hand' },
  });
});
