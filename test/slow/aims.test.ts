/** Over made jobs the plan searched for fewest cuts takes fewest, counted as the plan shows them. */
import { expect, test } from 'vitest';
import { figuresByAim } from '../planner/made-jobs.ts';

test('over 20 jobs fewest cuts saves cuts and settings: seldom beaten, a twentieth fewer than either other plan', () => {
  const jobs = Array.from({ length: 20 }, (_, at) => figuresByAim(at + 1, 'quick'));
  const cuts = (aim: 'least-cost' | 'fewest-boards' | 'fewest-cuts') =>
    jobs.reduce((sum, plans) => sum + plans[aim]['fewest-cuts'], 0);
  const beaten = jobs.filter((plans) => {
    const others = [plans['least-cost'], plans['fewest-boards']];
    return others.some((other) => other['fewest-cuts'] < plans['fewest-cuts']['fewest-cuts']);
  });
  expect(beaten.length).toBeLessThanOrEqual(5);
  expect(cuts('fewest-cuts')).toBeLessThan(0.95 * Math.min(cuts('least-cost'), cuts('fewest-boards')));
});
