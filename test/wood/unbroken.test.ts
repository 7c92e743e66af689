/** Sizes days and tags stay in one line of a narrow sidebar and on a card; the text itself is not changed. */
import { expect, test } from 'vitest';
import { dayText } from '../../worker/wood/day.ts';
import { lengthText } from '../../worker/wood/length.ts';
import { stretchesOf } from '../../worker/wood/unbroken.ts';
import { NM_PER_INCH } from '../../worker/wood/unit.ts';

const wholes = (text: string) => stretchesOf(text).flatMap((one) => (one.whole ? [one.text] : []));

test('sizes as the tape shows them, thicknesses and tags are kept whole', () => {
  const text =
    'needs 84 1/2" × 5 1/8" of 5/4; the longest is 8\' 4 1/2", 7/8" thick or 600.5 mm, JB-111 or WO-9/1, 3.2 bf, 0.07 m², 169 lb, 9 lbs';
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
    '0.07 m²',
    '169 lb',
  ]);
  expect(
    stretchesOf(text)
      .map((one) => one.text)
      .join(''),
  ).toBe(text);
});

test('every length that the program writes is kept whole', () => {
  for (const system of ['in', 'mm'] as const) {
    for (const inches of [0.875, 5, 12, 23.625, 84.5, 96, 96.25, 100.5, 100.51]) {
      const size = lengthText(Math.round(NM_PER_INCH * inches), { system, denominator: 16, feet: 'from-8-ft' });
      expect(wholes(`needs ${size} rough`)).toEqual([size]);
    }
  }
});

test('days as they are written are kept whole', () => {
  expect(wholes('likely 3 Dec, from 29 Nov to 9 Jan 2027; rests 2 days')).toEqual(['3 Dec', '29 Nov', '9 Jan 2027']);
  expect(wholes(`read ${dayText('2026-11-02')}`)).toEqual(['2 Nov 2026']);
  expect(wholes('7 Marks, 3 Decks')).toEqual([]);
});

test('layers and strips keep their number', () => {
  expect(wholes('Rip length 2: gives Post 1, ply 12 and Top 1, stave 3 (chalk 2 on strip 4)')).toEqual([
    'length 2',
    'ply 12',
    'stave 3',
    'strip 4',
  ]);
  expect(wholes('the length 84 1/2", length 600 mm, length 14"; plies 3, ply 1.')).toEqual([
    '84 1/2"',
    '600 mm',
    '14"',
    'ply 1',
  ]);
});

test('words are not', () => {
  expect(wholes('White oak, re-sawn in 2 or more; clear-one, long-grain')).toEqual([]);
  expect(stretchesOf('')).toEqual([]);
});
