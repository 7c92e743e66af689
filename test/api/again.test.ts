/**
 * The same write sent again: every route that writes answers it as it did the first time, to the byte, whatever happened
 * between, and refuses another body under the same key. The routes come from the contract's table, so none is forgotten.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { type Route, type RouteName, routes } from '../../worker/contract/routes.ts';
import { type Answered, board, type Client, openShop } from './shop.ts';

interface Write {
  readonly path: string;
  readonly body?: unknown;
  /** Another body that would also be read. */
  readonly other?: unknown;
  readonly headers?: Record<string, string>;
}

let yard: Client;
const made: Record<string, string> = {};

const part = (key: string, quantity = 2) => ({
  key,
  label: `Part ${key}`,
  quantity,
  species: 'white oak',
  lengthNm: '20 in',
  widthNm: '3 in',
  thicknessNm: '1 in',
});

/** In the order of a shop's day; each step is the first of its route. */
const steps: readonly (readonly [RouteName, () => Write | Promise<Write>])[] = [
  [
    'takeInBoards',
    () => ({
      path: '/v1/boards',
      body: { boards: ['Q-1', 'Q-2', 'Q-3', 'Q-4'].map((tag) => board(tag)) },
      other: { boards: [board('Q-9')] },
    }),
  ],
  ['openJob', () => ({ path: '/v1/jobs', body: { name: 'Hall table' }, other: { name: 'Bench' } })],
  [
    'changeJob',
    async () => ({
      path: `/v1/jobs/${made.job}`,
      body: { note: 'by spring' },
      other: { note: 'by autumn' },
      headers: { 'if-match': await etag(`/v1/jobs/${made.job}`) },
    }),
  ],
  [
    'setCutList',
    () => ({ path: `/v1/jobs/${made.job}/cut-list`, body: { parts: [part('leg')] }, other: { parts: [part('rail')] } }),
  ],
  [
    'correctBoard',
    async () => ({
      path: `/v1/boards/${made.q4}`,
      body: { place: 'rack 4' },
      other: { place: 'rack 5' },
      headers: { 'if-match': await etag(`/v1/boards/${made.q4}`) },
    }),
  ],
  [
    'readMoisture',
    () => ({
      path: `/v1/boards/${made.q4}/readings`,
      body: { readings: [{ moisturePercent: 9, on: '2026-11-10' }] },
      other: { readings: [{ moisturePercent: 7, on: '2026-11-10' }] },
    }),
  ],
  [
    'reserve',
    () => ({
      path: '/v1/reservations',
      body: { jobId: made.job, boards: [{ tag: 'Q-3' }] },
      other: { jobId: made.job, boards: [{ tag: 'Q-4' }] },
    }),
  ],
  [
    'release',
    () => ({ path: '/v1/reservations/release', body: { ids: [made.held] }, other: { ids: [made.held, made.held] } }),
  ],
  ['writeOffBoard', () => ({ path: `/v1/boards/${made.q4}/write-off`, body: { why: 'rot' }, other: { why: 'worm' } })],
  [
    'planJob',
    () => ({ path: `/v1/jobs/${made.job}/plans`, body: { effort: 'quick' }, other: { effort: 'quick', seed: 2 } }),
  ],
  ['reservePlan', () => ({ path: `/v1/plans/${made.plan}/reserve`, body: { how: 'whole' }, other: { how: 'runs' } })],
  ['openSession', () => ({ path: `/v1/plans/${made.plan}/sessions`, body: {}, other: { boardIds: [made.q1] } })],
  [
    'reconcile',
    () => ({
      path: `/v1/sessions/${made.session}/reconcile`,
      body: { restAsPlanned: true },
      other: { restAsPlanned: true, allowExtra: true },
    }),
  ],
  [
    'movePieces',
    () => ({
      path: `/v1/jobs/${made.job}/pieces`,
      body: { steps: [{ partKey: 'leg', no: 1, to: 'passed', why: 'flat by eye' }] },
      other: { steps: [{ partKey: 'leg', no: 2, to: 'passed', why: 'flat' }] },
    }),
  ],
  ['undoMovement', () => ({ path: `/v1/movements/${made.seq}/undo` })],
  ['dropPlan', () => ({ path: `/v1/plans/${made.draft}/drop` })],
  [
    'changeSettings',
    async () => {
      const { settings } = (await yard.send('GET', '/v1/yard')).json;
      return { path: '/v1/yard/settings', body: { ...settings, cureHours: 30 }, other: { ...settings, cureHours: 31 } };
    },
  ],
  [
    'makeKey',
    () => ({ path: '/v1/keys', body: { label: 'Saw', role: 'hand' }, other: { label: 'Shelf', role: 'hand' } }),
  ],
  [
    'makeFeed',
    () => ({ path: '/v1/feeds', body: { label: 'Sheet', list: 'stock' }, other: { label: 'Sheet', list: 'held' } }),
  ],
  ['rotateKey', () => ({ path: `/v1/keys/${made.key}/rotate`, body: { oldHours: 1 }, other: { oldHours: 2 } })],
  ['revokeKey', () => ({ path: `/v1/keys/${made.key}/revoke` })],
  [
    'makeLinkCode',
    () => ({ path: '/v1/link-codes', body: { label: 'Ann', role: 'hand' }, other: { label: 'Ann', role: 'viewer' } }),
  ],
  ['useLinkCode', () => ({ path: '/v1/link', headers: { authorization: `Bearer yl_${yard.yardId}_${made.code}` } })],
];

async function etag(path: string): Promise<string> {
  return (await yard.send('GET', path)).headers.get('etag') ?? '';
}

const idOf = (name: RouteName, { json }: Answered): Record<string, string> => {
  const names: { readonly [N in RouteName]?: () => Record<string, string> } = {
    takeInBoards: () => ({ q1: json.taken[0].id, q4: json.taken[3].id }),
    openJob: () => ({ job: json.id }),
    reserve: () => ({ held: json.reservations[0].id }),
    planJob: () => ({ plan: json.id }),
    openSession: () => ({ session: json.id }),
    movePieces: () => ({}),
    makeKey: () => ({ key: json.key?.id ?? json.id }),
    makeLinkCode: () => ({ code: json.code }),
  };
  return names[name]?.() ?? {};
};

const sent: { name: RouteName; write: Write; key: string; answer: Answered }[] = [];

async function send(name: RouteName, write: Write, key: string, body = write.body): Promise<Answered> {
  return yard.send(routes[name].method, write.path, body, { 'idempotency-key': key, ...write.headers });
}

beforeAll(async () => {
  yard = await openShop().foundYard('Oak yard');
  for (const [name, prepare] of steps) {
    if (name === 'undoMovement') made.seq = String((await yard.send('GET', '/v1/yard')).json.seq);
    if (name === 'dropPlan') {
      await yard.send('PUT', `/v1/jobs/${made.job}/cut-list`, { parts: [part('leg'), part('rail')] });
      made.draft = (await yard.send('POST', `/v1/jobs/${made.job}/plans`, { effort: 'quick' })).json.id;
    }
    const write = await prepare();
    const key = `again-${name}`;
    const answer = await send(name, write, key);
    expect([name, answer.status, answer.status < 300 ? '' : answer.text]).toEqual([name, answer.status, '']);
    Object.assign(made, idOf(name, answer));
    sent.push({ name, write, key, answer });
  }
}, 60_000);

test('every route that writes is tried here', () => {
  const writing = (Object.keys(routes) as RouteName[]).filter((name) => (routes[name] as Route).writes);
  expect(steps.map(([name]) => name).sort()).toEqual(writing.sort());
});

describe.each(steps.map(([name]) => name))('%s', (name) => {
  const of = () => {
    const found = sent.find((each) => each.name === name);
    if (!found) throw new Error(`${name} was not sent`);
    return found;
  };

  test('sent again at the end of the day, the answer is the same to the byte, and nothing happens', async () => {
    const { write, key, answer } = of();
    const before = (await yard.send('GET', '/v1/yard')).json.seq;
    const again = await send(name, write, key);
    expect([again.status, again.text]).toEqual([answer.status, answer.text]);
    expect((await yard.send('GET', '/v1/yard')).json.seq).toBe(before);
  });

  test('another body under the same key is refused', async () => {
    const { write, key } = of();
    if (write.other === undefined) return;
    const other = await send(name, write, key, write.other);
    expect([other.status, other.json.type]).toEqual([422, '/problems/idempotency-key-reused']);
  });

  test('without a key nothing is written', async () => {
    const { write } = of();
    const bare = await send(name, write, '');
    expect([bare.status, bare.json.type]).toEqual([400, '/problems/idempotency-key-missing']);
  });

  test('a change of what was read since is refused; an edit says what was read', async () => {
    const { ifMatch } = routes[name] as Route;
    if (!ifMatch) return;
    const { write } = of();
    const { 'if-match': _, ...bare } = write.headers ?? {};
    if (ifMatch === 'must') {
      const missing = await send(name, { ...write, headers: bare }, `bare-${name}`);
      expect([missing.status, missing.json.type]).toEqual([428, '/problems/version-missing']);
    }
    const stale = await send(name, { ...write, headers: { 'if-match': '"s1"' } }, `stale-${name}`);
    expect([stale.status, stale.json.type]).toEqual([412, '/problems/version-stale']);
  });
});
