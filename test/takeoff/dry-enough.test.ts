import { expect, test } from 'vitest';
import { dryEnough, moistureLimitPercent } from '../../worker/takeoff/dry-enough.ts';
import { shopSettings } from './shop-cases.ts';

// 10 % critical, 12 % visible, 15 % hidden, 10 % plies and staves: the shop's first figures, common practice, no source.
const settings = shopSettings({ moistureMax: { critical: 10, visible: 12, hidden: 15, layer: 11 } });
const limit = (use: 'critical' | 'visible' | 'hidden', what: 'solid' | 'ply' | 'stave', own: number | null = null) =>
  moistureLimitPercent({ use, moisturePercentMax: own }, what, settings);

test('a part of one piece is cut as wet as its use allows; plies and staves no wetter than what is glued', () => {
  expect([limit('critical', 'solid'), limit('visible', 'solid'), limit('hidden', 'solid')]).toEqual([10, 12, 15]);
  expect([limit('critical', 'ply'), limit('visible', 'ply'), limit('hidden', 'stave')]).toEqual([10, 11, 11]);
});

test("a part's own figure goes before the shop's, for its plies too", () => {
  expect([limit('critical', 'solid', 8), limit('hidden', 'ply', 14)]).toEqual([8, 14]);
});

test('a board at the limit may be cut, a tenth over it not, and one without a reading not for a critical part', () => {
  expect([dryEnough(10, 10, 'critical'), dryEnough(10.1, 10, 'critical')]).toEqual([true, false]);
  expect([dryEnough(null, 10, 'critical'), dryEnough(null, 12, 'visible'), dryEnough(null, 15, 'hidden')]).toEqual([
    false,
    true,
    true,
  ]);
});
