/** ETags (RFC 9110, 8.8.3 and 13.1): the whole answer for reading again, the version in it for changing. */
import { beforeEach, describe, expect, test } from 'vitest';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
let boardPath: string;
let jobPath: string;

beforeEach(async () => {
  yard = await openShop().foundYard('Oak');
  const taken = await yard.send('POST', '/v1/boards', { boards: [board('Q-1'), board('Q-2')] });
  boardPath = `/v1/boards/${taken.json.taken[0].id}`;
  jobPath = `/v1/jobs/${(await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json.id}`;
});

const tagOf = async (path: string) => (await yard.send('GET', path)).headers.get('etag') ?? '';
const again = (path: string, tag: string) => yard.send('GET', path, undefined, { 'if-none-match': tag });
const part = { key: 'leg', label: 'Leg', quantity: 4, lengthNm: '28 in', widthNm: '3 in', thicknessNm: '1 in' };
const listOf = (quantity: number) => ({ parts: [{ ...part, species: 'white oak', quantity }] });

describe('reading again', () => {
  test('what the reader has is not sent again, whatever is read', async () => {
    const paths = [boardPath, jobPath, '/v1/yard', '/v1/boards', '/v1/jobs', '/v1/movements', '/v1/species'];
    for (const path of paths) {
      const tag = await tagOf(path);
      expect(tag, path).toMatch(/^"(s\d+-)?[0-9a-f]{20}"$/);
      for (const said of [tag, `W/${tag}`, `"other", ${tag}`, '*']) {
        const answer = await again(path, said);
        expect([answer.status, answer.text, answer.headers.get('etag')], `${path} ${said}`).toEqual([304, '', tag]);
        expect(answer.headers.get('cache-control')).toBe('no-store');
      }
      expect((await again(path, '"s1"')).status, path).toBe(200);
    }
  });

  test('a board that was held since is sent again, although its version stands', async () => {
    const before = await yard.send('GET', boardPath);
    const jobId = jobPath.split('/').at(-1);
    const held = await yard.send('POST', '/v1/reservations', { jobId, boards: [{ tag: 'Q-1' }] });
    expect(held.status).toBe(201);
    const after = await again(boardPath, before.headers.get('etag') ?? '');
    expect([after.status, after.json.version, after.json.held.length]).toEqual([200, before.json.version, 1]);
  });

  test('a key that may not read is refused, whatever it says that it has', async () => {
    const tag = await tagOf('/v1/keys');
    const viewer = await yard.send('POST', '/v1/keys', { label: 'Screen', role: 'viewer' });
    const headers = { authorization: `Bearer ${viewer.json.secret}`, 'if-none-match': tag };
    expect((await yard.send('GET', '/v1/keys', undefined, headers)).status).toBe(403);
  });
});

describe('changing what was read', () => {
  const guarded = (method: string, path: string, body: unknown, tag: string) =>
    yard.send(method, path, body, { 'if-match': tag });
  const stale = { status: 412, type: '/problems/version-stale' };

  test('the tag as it came guards an edit; a hold in between does not stand in its way', async () => {
    const tag = await tagOf(boardPath);
    await yard.send('POST', '/v1/reservations', { jobId: jobPath.split('/').at(-1), boards: [{ tag: 'Q-1' }] });
    expect((await guarded('PATCH', boardPath, { place: 'rack 2' }, tag)).status).toBe(200);
    expect((await guarded('PATCH', boardPath, { place: 'rack 3' }, tag)).json).toMatchObject(stale);
  });

  test('of two who set one cut list, the second is told', async () => {
    const tag = await tagOf(jobPath);
    expect((await guarded('PUT', `${jobPath}/cut-list`, listOf(4), tag)).status).toBe(200);
    expect((await guarded('PUT', `${jobPath}/cut-list`, listOf(5), tag)).json).toMatchObject(stale);
    expect((await yard.send('GET', jobPath)).json.parts[0].quantity).toBe(4);
    expect((await guarded('PUT', `${jobPath}/cut-list`, listOf(5), await tagOf(jobPath))).status).toBe(200);
    // Who does not say what was read sets the list as it is now.
    expect((await yard.send('PUT', `${jobPath}/cut-list`, listOf(6))).status).toBe(200);
  });

  test("of two who change the shop's figures, the second is told; a delivery in between is no change of them", async () => {
    const { settings } = (await yard.send('GET', '/v1/yard')).json;
    const tag = await tagOf('/v1/yard');
    await yard.send('POST', '/v1/boards', { boards: [board('Q-9')] });
    const first = await guarded('PUT', '/v1/yard/settings', { ...settings, cureHours: 30 }, tag);
    expect(first.status).toBe(200);
    expect((await yard.send('GET', '/v1/yard')).json.version).toBe(first.json.version);
    expect((await guarded('PUT', '/v1/yard/settings', { ...settings, cureHours: 31 }, tag)).json).toMatchObject(stale);
    // The same figures once more are no change: the version stays, and is the one that is told.
    const same = await guarded('PUT', '/v1/yard/settings', { ...settings, cureHours: 30 }, `"s${first.json.version}"`);
    expect([same.status, same.json.version]).toEqual([200, first.json.version]);
  });

  test('a price for no thickness, or for a wood that is mistyped, is refused by name; the journal names a price that changed', async () => {
    const { settings } = (await yard.send('GET', '/v1/yard')).json;
    const put = (...prices: readonly object[]) => yard.send('PUT', '/v1/yard/settings', { ...settings, prices });
    const price = (species: string, thicknessCall: string | null = null) => ({
      species,
      thicknessCall,
      minorPerBoardFoot: 900,
    });
    const wrong = await put(price('white-oak', 'banana'), price('white-oak', '9/7'), price('wite oak', '8/4'));
    expect(wrong.status).toBe(422);
    expect(wrong.json.faults.map((one: { pointer: string; read: string }) => [one.pointer, one.read])).toEqual([
      ['/prices/0/thicknessCall', 'banana'],
      ['/prices/1/thicknessCall', '9/7'],
      ['/prices/2/species', 'wite oak'],
    ]);
    expect(wrong.json.faults[2].help).toContain('did you mean white oak');
    const right = [price('white-oak', '8/4'), price('zzyzzyx'), price('black-walnut', 'under 3/8')];
    expect((await put(...right)).status).toBe(200);
    const last = async () => (await yard.send('GET', '/v1/movements?limit=1')).json.items[0].summary;
    expect(await last()).toBe('Changed the price of white oak 8/4, zzyzzyx in any thickness, black walnut under 3/8');
    await put({ ...price('white-oak', '8/4'), minorPerBoardFoot: 950 }, ...right.slice(1));
    expect(await last()).toBe('Changed the price of white oak 8/4');
    await put(...right.slice(1));
    expect(await last()).toBe('Changed the price of white oak 8/4');
    await yard.send('PUT', '/v1/yard/settings', { ...settings, cureHours: 33 });
    expect(await last()).toBe("Changed the shop's figures");
  });

  test('a plan that went on since it was read is not reserved, cut or dropped by it', async () => {
    await yard.send('PUT', `${jobPath}/cut-list`, listOf(2));
    const planned = await yard.send('POST', `${jobPath}/plans`, { effort: 'quick' });
    const path = `/v1/plans/${planned.json.id}`;
    const draft = await tagOf(path);
    const reserved = await guarded('POST', `${path}/reserve`, { how: 'whole' }, draft);
    expect(reserved.status, reserved.text).toBe(201);
    for (const [to, body] of [
      ['reserve', { how: 'whole' }],
      ['sessions', {}],
      ['drop', undefined],
    ] as const) {
      expect((await guarded('POST', `${path}/${to}`, body, draft)).json, to).toMatchObject(stale);
    }
    expect((await guarded('POST', `${path}/sessions`, {}, await tagOf(path))).status).toBe(201);
  });
});
