/** A whole service in memory: the HTTP app over yards in node:sqlite, with a clock of its own. */
import { createApp } from '../../worker/api/app.ts';
import { BucketLimiter } from '../../worker/api/limiter.ts';
import type { Log } from '../../worker/api/log.ts';
import type { Env } from '../../worker/api/serve.ts';
import type { YardDoor } from '../../worker/yard/command.ts';
import { NodeYard } from '../yard/node-yard.ts';

export interface Answered {
  readonly status: number;
  readonly headers: Headers;
  // biome-ignore lint/suspicious/noExplicitAny: a test reads whatever came back
  readonly json: any;
  readonly text: string;
}

export interface Client {
  readonly yardId: string;
  readonly key: string;
  send(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<Answered>;
}

const secrets = { ADMIN_KEY: 'admin-key-of-the-tests', KEY_PEPPER: 'pepper-of-the-tests' };

export interface ShopOptions {
  readonly log?: Log;
  /** Whether the rates of worker/api/limiter.ts hold. */
  readonly limited?: boolean;
  readonly env?: Partial<Env>;
  /** Stands between the app and each yard. */
  readonly between?: (yard: YardDoor) => YardDoor;
}

export function openShop(startMs = Date.parse('2026-11-20T10:00:00Z'), options: ShopOptions = {}) {
  const yards = new Map<string, NodeYard>();
  let nowMs = startMs;
  const bucket = new BucketLimiter(() => nowMs);
  const env: { -readonly [N in keyof Env]: Env[N] } = { ...secrets, ...options.env };
  const app = createApp<Env>({
    ...(options.log ? { log: options.log } : {}),
    ...(options.limited ? { limiter: () => bucket } : {}),
    door: (_env, yardId) => {
      const yard = yards.get(yardId) ?? new NodeYard({ now: () => nowMs });
      yards.set(yardId, yard);
      return options.between ? options.between(yard) : yard;
    },
    nowMs: () => nowMs,
  });

  async function request(
    method: string,
    path: string,
    body: unknown,
    headers: Record<string, string>,
  ): Promise<Answered> {
    const raw = typeof body === 'string' ? body : body === undefined ? undefined : JSON.stringify(body);
    const response = await app.request(
      path,
      {
        method,
        headers: { ...(raw === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
        ...(raw === undefined ? {} : { body: raw }),
      },
      env,
    );
    const text = await response.text();
    const isJson = (response.headers.get('content-type') ?? '').match(/[/+]json/) !== null;
    return { status: response.status, headers: response.headers, text, json: isJson && text ? JSON.parse(text) : null };
  }

  let sends = 0;
  function client(yardId: string, key: string): Client {
    return {
      yardId,
      key,
      send: (method, path, body, headers = {}) => {
        sends += 1;
        return request(method, path, body, {
          authorization: `Bearer ${key}`,
          'idempotency-key': `test-send-${sends}`,
          ...headers,
        });
      },
    };
  }

  async function foundYard(name: string): Promise<Client> {
    const founded = await request('POST', '/v1/yards', { name }, { authorization: `Bearer ${secrets.ADMIN_KEY}` });
    if (founded.status !== 201) throw new Error(`founding failed: ${founded.text}`);
    return client(founded.json.yardId, founded.json.key);
  }

  return {
    request,
    foundYard,
    client,
    yards,
    /** How the service is configured; may be changed between two requests. */
    env,
    advanceMs: (ms: number) => {
      nowMs += ms;
    },
  };
}

export const board = (tag: string, over: Record<string, unknown> = {}) => ({
  tag,
  species: 'white oak',
  lengthNm: `8' 4 1/2"`,
  widthNm: '8 1/4 in',
  thicknessNm: '8/4',
  readings: [{ moisturePercent: 8.5, on: '2026-11-01' }],
  ...over,
});
