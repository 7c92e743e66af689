/** What is typed to connect: key or code, together or apart, and nothing lost when the answer is. */
import { describe, expect, test } from 'vitest';
import type { YardApi } from '../../addon/panel/api.ts';
import { makeConnections } from '../../addon/panel/state/connections.ts';
import { entered } from '../../addon/panel/state/link-code.ts';
import { fakeHost } from './fake-host.ts';

const ID = 'abcdefghjkmn12345678';
const AT = 'https://yard.example.com';

describe('what was entered', () => {
  test('a code with the address that names the yard, in one field or two', () => {
    const both = { address: AT, with: { yardId: ID, code: 'K7QM2RX4' } };
    expect(entered(`${AT}/yard/${ID}`, 'K7QM-2RX4')).toEqual(both);
    expect(entered(` ${AT}/yard/${ID} K7QM-2RX4 `, '')).toEqual(both);
    expect(entered(`${AT}/yard/${ID}/`, 'k7qm 2rx4')).toEqual({ ...both, with: { yardId: ID, code: 'k7qm2rx4' } });
  });

  test('a key with either address', () => {
    const key = { address: AT, with: { key: 'yk_a_b_c' } };
    expect(entered(AT, ' yk_a_b_c ')).toEqual(key);
    expect(entered(`${AT}/yard/${ID}`, 'yk_a_b_c')).toEqual(key);
  });

  test('a code without its yard, and nothing at all, are said so', () => {
    expect(entered(AT, 'K7QM-2RX4')).toMatchObject({ fault: expect.stringContaining('goes with its own address') });
    expect(entered(AT, '')).toMatchObject({ fault: expect.stringContaining('Enter the link code') });
  });
});

/** A yard that changes one code, and whose answers are lost as told. */
function yardThat(lost: string[]) {
  const asked: string[] = [];
  const client = (address: string, key: string): YardApi => ({
    name: key,
    followPlan: async () => null,
    call: (async (name: string) => {
      asked.push(`${name} ${address} ${key}`);
      if (lost[0] === name) {
        lost.shift();
        return { ok: false, offline: true };
      }
      if (name === 'useLinkCode') return { ok: true, answer: { secret: 'yk_new' } };
      return { ok: true, answer: { name: 'Oak Lane' } };
    }) as YardApi['call'],
  });
  return { asked, client };
}

describe('connecting with a code', () => {
  test('keeps the key that the code was changed for, and no code', async () => {
    const host = fakeHost([[]]);
    const { asked, client } = yardThat([]);
    const connections = makeConnections(host, client);
    expect(await connections.connect(`${AT}/yard/${ID} K7QM-2RX4`, '')).toBe(true);
    expect(asked).toEqual([`useLinkCode ${AT} yl_${ID}_K7QM2RX4`, `readYard ${AT} yk_new`]);
    expect(connections.inFront.value).toEqual({ address: AT, key: 'yk_new', name: 'Oak Lane' });
    expect(await host.settings.get('yard-connection', 'user')).toBe(JSON.stringify({ address: AT, key: 'yk_new' }));
  });

  test('the yard lost right after the change: a second press uses the key, not the used-up code', async () => {
    const { asked, client } = yardThat(['readYard']);
    const connections = makeConnections(fakeHost([[]]), client);
    expect(await connections.connect(`${AT}/yard/${ID}`, 'K7QM-2RX4')).toBe(false);
    expect(await connections.connect(`${AT}/yard/${ID}`, 'K7QM-2RX4')).toBe(true);
    expect(asked.filter((one) => one.startsWith('useLinkCode'))).toHaveLength(1);
  });
});
