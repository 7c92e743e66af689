/** Sizes and tags stay in one line of a narrow sidebar; the text itself is not changed. */
import { expect, test } from 'vitest';
import { stretchesOf } from '../../addon/panel/words/unbroken.ts';
import { lengthText } from '../../worker/wood/length.ts';
import { inch } from './sample.ts';

const wholes = (text: string) => stretchesOf(text).flatMap((one) => (one.whole ? [one.text] : []));

test('sizes as the tape shows them, thicknesses and tags are kept whole', () => {
  const text =
    'needs 84 1/2" × 5 1/8" of 5/4; the longest is 8\' 4 1/2", 7/8" thick or 600.5 mm, JB-111 or WO-9/1, 3.2 bf';
  expect(wholes(text)).toEqual([
    '84 1/2"',
    '5 1/8"',
    '5/4',
    '8\' 4 1/2"',
    '7/8"',
    '600.5 mm',
    'JB-111',
    'WO-9/1',
    '3.2 bf',
  ]);
  expect(
    stretchesOf(text)
      .map((one) => one.text)
      .join(''),
  ).toBe(text);
});

test('every length that the program writes is kept whole', () => {
  for (const system of ['in', 'mm'] as const) {
    for (const inches of [0.875, 5, 12, 23.625, 84.5, 96, 100.5, 100.51]) {
      const size = lengthText(Math.round(inch(1) * inches), { system, denominator: 16, feet: 'from-8-ft' });
      expect(wholes(`needs ${size} rough`)).toEqual([size]);
    }
  }
});

test('words are not', () => {
  expect(wholes('White oak, re-sawn in 2 or more; clear-one, long-grain')).toEqual([]);
  expect(stretchesOf('')).toEqual([]);
});
