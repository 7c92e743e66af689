/** Planning runs outside the yard: while a plan is worked out, the yard is asked a little at its beginning and told at its end, and is free between. */
import { expect, test } from 'vitest';
import { createApp } from '../../worker/api/app.ts';
import type { YardDoor } from '../../worker/yard/command.ts';
import { NodeYard } from '../yard/node-yard.ts';
import { board } from './shop.ts';

const env = { ADMIN_KEY: 'admin-key-of-the-tests', KEY_PEPPER: 'pepper-of-the-tests' };

test('of the time that a plan takes, the yard is busy for a small part, never for long at once', async () => {
  const yard = new NodeYard();
  const busy: { name: string; ms: number }[] = [];
  const timed = async <T>(name: string, act: () => Promise<T>): Promise<T> => {
    const fromMs = performance.now();
    const answer = await act();
    busy.push({ name, ms: performance.now() - fromMs });
    return answer;
  };
  const door: YardDoor = {
    found: (input) => yard.found(input),
    giveOwnerKey: (key) => yard.giveOwnerKey(key),
    restore: (asker, firstLine, lines) => yard.restore(asker, firstLine, lines),
    command: (asker, receipt, command, occasion) =>
      timed(command.do, () => yard.command(asker, receipt, command, occasion)),
    ask: (asker, name, ask) => timed(name, () => yard.ask(asker, name, ask)),
  };
  const app = createApp<typeof env>({ door: () => door, nowMs: () => Date.parse('2026-11-20T10:00:00Z') });
  let sends = 0;
  async function send(method: string, path: string, body: unknown, key: string) {
    sends += 1;
    const headers = {
      authorization: `Bearer ${key}`,
      'content-type': 'application/json',
      'idempotency-key': `apart-${sends}-${sends}`,
    };
    const response = await app.request(path, { method, headers, body: JSON.stringify(body) }, env);
    const text = await response.text();
    expect([path, response.status < 300 ? '' : text]).toEqual([path, '']);
    return JSON.parse(text);
  }
  const { key } = await send('POST', '/v1/yards', { name: 'Oak yard' }, env.ADMIN_KEY);
  const boards = Array.from({ length: 60 }, (_, no) => board(`Q-${no}`, { lengthNm: `${60 + (no % 40)} in` }));
  await send('POST', '/v1/boards', { boards }, key);
  const job = await send('POST', '/v1/jobs', { name: 'Hall table' }, key);
  const parts = Array.from({ length: 12 }, (_, no) => ({
    key: `p${no}`,
    label: `Part ${no}`,
    quantity: 4,
    species: 'white oak',
    lengthNm: `${11 + 3 * no} in`,
    widthNm: `${2 + (no % 4)} in`,
    thicknessNm: '1 in',
  }));
  await send('PUT', `/v1/jobs/${job.id}/cut-list`, { parts }, key);
  busy.length = 0;
  const fromMs = performance.now();
  await send('POST', `/v1/jobs/${job.id}/plans`, { effort: 'quick' }, key);
  const tookMs = performance.now() - fromMs;
  const busyMs = busy.reduce((sum, each) => sum + each.ms, 0);
  console.log(`plan ${tookMs.toFixed(0)} ms, the yard busy ${busyMs.toFixed(0)} ms in ${busy.length} calls`);
  // What is written comes once, at the end; what is read is short.
  expect(busy.filter((each) => each.name === 'keep-plan')).toHaveLength(1);
  expect(busy.length).toBeLessThan(10);
  expect(busyMs).toBeLessThan(tookMs / 3);
}, 120_000);
