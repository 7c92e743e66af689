/** A yard behind a connection that breaks: the real service in memory, and a fetch that loses what it is told to lose. */
import { makeClient } from '../../addon/panel/client.ts';
import type { DeviceTexts } from '../../addon/panel/state/device-texts.ts';
import { makeOutbox, type Outbox } from '../../addon/panel/state/outbox.ts';
import { type Client, openShop } from '../api/shop.ts';

/** before: the request never arrives. during: the answer breaks off half-way. after: the answer never arrives. */
export type Break = 'before' | 'during' | 'after' | 'none';

export interface BrokenNetwork {
  /** Taken from the front, one a request; once it is empty the connection holds. */
  readonly breaks: Break[];
  /** While true, nothing arrives at all. */
  down: boolean;
  fetch(url: string, init: RequestInit): Promise<Response>;
}

export function brokenNetwork(shop: ReturnType<typeof openShop>): BrokenNetwork {
  const network: BrokenNetwork = {
    breaks: [],
    down: false,
    async fetch(url, init) {
      const how = network.down ? 'before' : (network.breaks.shift() ?? 'none');
      if (how === 'before') throw new TypeError('Failed to fetch');
      const { method = 'GET', body } = init;
      const headers = Object.fromEntries(new Headers(init.headers));
      const { pathname, search } = new URL(url);
      const answer = await shop.request(method, pathname + search, body ?? undefined, headers);
      if (how === 'after') throw new TypeError('Failed to fetch');
      const text = answer.status === 204 ? null : how === 'during' ? brokenOff(answer.text) : answer.text;
      return new Response(text, { status: answer.status, headers: answer.headers });
    },
  };
  return network;
}

function brokenOff(text: string): ReadableStream<Uint8Array> {
  let begun = false;
  return new ReadableStream({
    pull(controller) {
      if (begun) controller.error(new TypeError('network error'));
      else controller.enqueue(new TextEncoder().encode(text.slice(0, text.length / 2)));
      begun = true;
    },
  });
}

export interface Shopful {
  readonly shop: ReturnType<typeof openShop>;
  readonly yard: Client;
  readonly network: BrokenNetwork;
  /** What the device keeps, over every sidebar that is opened on it. */
  readonly kept: Map<string, string>;
  readonly clock: { nowMs: number };
  readonly texts: DeviceTexts;
  /** A sidebar as it opens: nothing in memory, everything else from the device. */
  open(): Outbox;
  api(): ReturnType<typeof makeClient>;
}

let ids = 0;

export async function openBroken(): Promise<Shopful> {
  const shop = openShop();
  const yard = await shop.foundYard('Poor connection');
  const network = brokenNetwork(shop);
  const kept = new Map<string, string>();
  const clock = { nowMs: Date.parse('2026-11-20T10:00:00Z') };
  const newId = () => {
    ids += 1;
    return `intent-${ids}`;
  };
  const texts: DeviceTexts = {
    get: async (name) => kept.get(name) ?? null,
    async set(name, text) {
      if (text === null) kept.delete(name);
      else kept.set(name, text);
    },
  };
  const api = () =>
    makeClient({
      address: 'https://yard.example',
      key: yard.key,
      fetch: network.fetch,
      newId,
      wait: async () => {},
      random: () => 0,
    });
  return {
    shop,
    yard,
    network,
    kept,
    clock,
    texts,
    api,
    open: () => makeOutbox({ api: api(), texts, nowMs: () => clock.nowMs, newId, went: () => {} }),
  };
}
