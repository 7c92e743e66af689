/** The shop's own woods in a cell: kept with the file by the sidebar, read by the formulas, never trusted as they stand. */
import { expect, test } from 'vitest';
import { woodFormulas } from '../../addon/formulas/catalogue.ts';
import type { Habits } from '../../addon/formulas/formula.ts';
import { ownWoodsOf } from '../../addon/formulas/own-woods.ts';
import { runWoodFormula } from '../../addon/formulas/run.ts';

const bogOak = {
  name: 'Bog oak',
  botanical: '',
  alsoCalled: ['moor oak'],
  shrinkRadialPercent: 6,
  shrinkTangentialPercent: 12,
  specificGravityGreen: 0.55,
};
const plain: Habits = { unit: 'in', decimal: '.', dateOrder: 'mdy' };
const own: Habits = { ...plain, ownWoods: ownWoodsOf(JSON.stringify([bogOak])) };

function shrinkage(species: string, habits: Habits): unknown {
  const formula = woodFormulas.find(({ name }) => name === 'SHRINKAGE');
  if (!formula) throw new Error('no formula SHRINKAGE');
  const result = runWoodFormula(formula, [species, 'flat', 30, 0], habits);
  return result.ok ? result.rows[0]?.[0] : result.fault;
}

test('move by the figures that the shop wrote down: 12 % from green to oven-dry, by definition', () => {
  expect(shrinkage('moor oak', own)).toBeCloseTo(12, 6);
  expect(shrinkage('moor oak', plain)).toMatchObject({ fault: expect.stringContaining('not a wood in the list') });
});

test('a wood without published figures says so in the cell', () => {
  expect(shrinkage('hornbeam', own)).toMatchObject({ fault: expect.stringMatching(/^no published figure was found/) });
});

test.each([
  ['nothing', null],
  ['no JSON', '{'],
  ['no list', '{"name":"oak"}'],
  ['figures that no wood has', JSON.stringify([{ ...bogOak, shrinkRadialPercent: -1 }])],
  ['a figure as text', JSON.stringify([{ ...bogOak, specificGravityGreen: '0.5' }])],
])('%s in the file is no wood', (_, kept) => {
  expect(ownWoodsOf(kept)).toEqual([]);
});
