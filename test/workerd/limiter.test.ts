/** The platform's own rate limiting binding, as the local runtime has it. */
import { env } from 'cloudflare:workers';
import { expect, test } from 'vitest';
import { BucketLimiter, boundLimiter } from '../../worker/api/limiter.ts';

test('the binding counts by caller; a rate without a binding is counted here', async () => {
  const limiter = boundLimiter({ RATE_PLAN: env.RATE_PLAN }, new BucketLimiter(() => 0));
  const answers: boolean[] = [];
  for (let no = 0; no < 5; no++) answers.push(await limiter.allow('plan', 'one'));
  expect(answers).toEqual([true, true, true, false, false]);
  expect(await limiter.allow('plan', 'other')).toBe(true);
  expect(await limiter.allow('read', 'one')).toBe(true);
});
