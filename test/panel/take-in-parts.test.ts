/** A long list goes in part by part: progress, a lost connection in the middle, going on, nothing twice. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Stop } from '../../addon/panel/api.ts';
import { makeClient } from '../../addon/panel/client.ts';
import {
  makeTakingIn,
  PART_ROWS,
  type PartsTaken,
  partsOf,
  WHOLE_ROWS,
} from '../../addon/panel/state/take-in-parts.ts';
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import type { ReadRow } from '../../addon/sheet/read-rows.ts';
import { limits } from '../../worker/contract/limits.ts';
import { type Client, openShop } from '../api/shop.ts';
import { inch } from './sample.ts';

const unstopped: Stop = { signal: new AbortController().signal, doing: 'Taking in' };

const rowsOf = (count: number, note = ''): ReadRow<BoardInput>[] =>
  Array.from({ length: count }, (_, at) => ({
    sheetRow: at + 1,
    draft: {
      tag: `Q-${at}`,
      species: 'white oak',
      lengthNm: inch(100),
      widthNm: inch(8),
      thicknessNm: inch(2),
      ...(note === '' ? {} : { note }),
    },
  }));

/** The panel's client against the real service, over a line that is cut after a request went through, or before. */
async function bench(cuts: (request: number) => 'before' | 'after' | null) {
  const shop = openShop();
  const yard: Client = await shop.foundYard('Oak');
  let requests = 0;
  const api = makeClient({
    address: 'https://yard.example.com',
    key: yard.key,
    fetch: async (url, init) => {
      requests += 1;
      const cut = cuts(requests);
      if (cut === 'before') throw new TypeError('the line is down');
      const path = String(url).replace('https://yard.example.com', '');
      const headers = init?.headers as Record<string, string>;
      const answer = await shop.request(init?.method ?? 'GET', path, init?.body as string, headers);
      if (cut === 'after') throw new TypeError('the line is down');
      return new Response(answer.text, { status: answer.status, headers: answer.headers });
    },
    newId: () => crypto.randomUUID(),
    wait: () => Promise.resolve(),
    random: () => 0,
  } as Parameters<typeof makeClient>[0]);
  const inStock = async () => (await yard.send('GET', '/v1/yard')).json.boards.inStock as number;
  return { api, inStock, requests: () => requests };
}

test('parts have all rows in their order, none too many, none longer than a body may be', () => {
  fc.assert(
    fc.property(fc.nat(2_500), fc.constantFrom(0, 100, 500), (count, chars) => {
      const rows = rowsOf(count, 'x'.repeat(chars));
      const parts = partsOf(rows, PART_ROWS);
      expect(parts.flat()).toEqual(rows);
      for (const part of parts) {
        expect(part.length).toBeLessThanOrEqual(PART_ROWS);
        expect(JSON.stringify(part.map(({ draft }) => draft)).length).toBeLessThan(limits.bodyBytes / 2 + 1_000);
      }
    }),
    { numRuns: 30 },
  );
  expect(partsOf([], PART_ROWS)).toEqual([]);
  expect(WHOLE_ROWS).toBe(limits.boardsPerIntake);
});

test('a line that is cut in the middle leaves what is in; the next try goes on, and no board is there twice', async () => {
  // Each call is tried twice by the client itself: the third part is lost both times, once with its effect.
  const { api, inStock, requests } = await bench((no) => (no === 3 ? 'after' : no === 4 ? 'before' : null));
  const taking = makeTakingIn(api);
  const rows = rowsOf(1_800);
  const seen: string[] = [];
  const stop = taking.progress.subscribe((now) => now && seen.push(`${now.done}/${now.of}`));
  let all: PartsTaken | null = null;
  const done = (taken: PartsTaken) => {
    all = taken;
  };
  expect(await taking.send(rows, false, unstopped, done)).toEqual({ kind: 'offline' });
  expect([all, taking.progress.value, await inStock()]).toEqual([null, { done: 1_000, of: 1_800 }, 1_500]);
  expect(await taking.send(rows, false, unstopped, done)).toBe(null);
  expect(all).toEqual({ count: 1_800, faults: [] });
  expect([await inStock(), requests()]).toEqual([1_800, 6]);
  expect(seen).toEqual(['0/1800', '500/1800', '1000/1800', '1000/1800', '1500/1800', '1800/1800']);
  expect(taking.progress.value).toBe(null);
  stop();
});

test('a panel that was opened anew sends all rows again: those that are in are named, none doubles', async () => {
  const { api, inStock } = await bench((no) => (no === 2 ? 'before' : no === 3 ? 'before' : null));
  const rows = rowsOf(1_200);
  expect(await makeTakingIn(api).send(rows, false, unstopped, () => {})).toEqual({ kind: 'offline' });
  expect(await inStock()).toBe(500);
  let all: PartsTaken | null = null;
  expect(
    await makeTakingIn(api).send(rows, false, unstopped, (taken) => {
      all = taken;
    }),
  ).toBe(null);
  expect(await inStock()).toBe(1_200);
  expect(all).toMatchObject({ count: 700 });
  const { faults } = all as unknown as PartsTaken;
  expect(faults.map(({ row }) => row?.sheetRow)).toEqual(rows.slice(0, 500).map(({ sheetRow }) => sheetRow));
});

test('all or nothing is one request, and says so when it would not be', async () => {
  const { api, inStock, requests } = await bench(() => null);
  const taking = makeTakingIn(api);
  const trouble = await taking.send(rowsOf(WHOLE_ROWS + 1), true, unstopped, () => {});
  expect(trouble).toMatchObject({ kind: 'told' });
  expect(requests()).toBe(0);
  expect(await taking.send(rowsOf(WHOLE_ROWS), true, unstopped, () => {})).toBe(null);
  expect([await inStock(), requests()]).toEqual([WHOLE_ROWS, 1]);
});
