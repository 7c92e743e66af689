/** What of the yard is ready to cut, and the glue-up of a job with the moisture of the boards that its layers come from. */
import { beforeEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../worker/contract/wire.ts';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
beforeEach(async () => {
  yard = await openShop().foundYard('Juniper Bend');
});

describe('what is ready to cut by a day', () => {
  const read = (on: string, moisturePercent: number) => ({ on, moisturePercent, meter: 'pin' });
  const shed = { temperatureF: 60, relativeHumidityPercent: 70 };
  const heated = { temperatureF: 70, relativeHumidityPercent: 30 };

  async function ready(body: object): Promise<Answer<'dryingReady'>> {
    const answer = await yard.send('POST', '/v1/drying/ready', body);
    expect(answer.status, answer.text).toBe(200);
    return answer.json;
  }
  const of = (answer: Answer<'dryingReady'>, tag: string) => answer.boards.find((row) => row.tag === tag);

  beforeEach(async () => {
    await yard.send('POST', '/v1/boards', {
      boards: [
        board('DRY', { place: 'Rack 2', readings: [read('2026-11-01', 7.4)] }),
        board('NEAR', { place: 'kiln room, top', readings: [read('2026-10-01', 14), read('2026-10-22', 10.5)] }),
        board('DAMP', { place: 'shed, row 3', readings: [read('2026-10-01', 18), read('2026-11-01', 16)] }),
        board('GREEN', { place: 'kiln room', readings: [], receivedOn: '2026-11-01' }),
        board('LOST', { place: 'behind the door', readings: [read('2026-10-01', 18), read('2026-11-01', 16)] }),
        board('TEAK', { place: 'kiln room', species: 'teak', readings: [] }),
      ],
      allOrNothing: true,
    });
  });

  test('each board by the air of its place: ready, a range of days, never and why, unknown and what to do', async () => {
    const answer = await ready({
      by: '2026-12-31',
      targetPercent: 8,
      airs: [
        { place: 'shed', air: shed },
        { place: 'Kiln room', air: heated },
        { place: 'rack 2', air: heated },
      ],
    });
    expect(answer.targetPercent).toBe(8);
    expect(of(answer, 'DRY')).toMatchObject({ stands: 'ready', lastPercent: 7.4 });
    expect(of(answer, 'NEAR')).toMatchObject({ stands: 'surely', forecast: { kind: 'range', basis: 'readings' } });
    expect(of(answer, 'DAMP')).toMatchObject({
      stands: 'never',
      why: expect.stringMatching(/kiln or a heated room under/),
    });
    expect(of(answer, 'GREEN')).toMatchObject({ stands: 'later', why: expect.stringMatching(/green when received/) });
    expect(of(answer, 'LOST')).toMatchObject({
      stands: 'unknown',
      why: expect.stringMatching(/^no air is known for “behind the door”/),
    });
    expect(of(answer, 'TEAK')).toMatchObject({ stands: 'unknown', why: expect.stringMatching(/no drying times/) });
    expect(answer.counts).toEqual({ ready: 1, byThen: 1, later: 1, never: 1, unknown: 2 });
    expect(answer.sources).toContainEqual(
      expect.objectContaining({ of: 'days to 20 % by species', words: 'from memory' }),
    );
  });

  test('ready is dry enough for seen parts, 12 % (common practice, no source), air known or not, and for which parts now', async () => {
    await yard.send('POST', '/v1/boards', {
      boards: [
        board('SEEN', { place: 'behind the door', readings: [read('2026-11-01', 12)] }),
        board('BACKS', { place: 'shed, row 3', readings: [read('2026-11-01', 12.1)] }),
      ],
    });
    const { settings } = (await yard.send('GET', '/v1/yard')).json;
    // Wood Handbook FPL-GTR-190 Table 4-2 and eq. 4-5: 60 °F and 70 % bring wood to 13.3 % (13.4 at 50 °F, 13.1 at 70 °F), 70 °F and 30 % to 6.2 %.
    const stackAirs = [
      { place: 'shed', relativeHumidityPercent: 70, temperatureC: 140 / 9 },
      { place: 'kiln room', relativeHumidityPercent: 30, temperatureC: 190 / 9 },
    ];
    await yard.send('PUT', '/v1/yard/settings', { ...settings, stackAirs });
    const answer = await ready({ by: '2026-12-31' });
    expect(answer.targetPercent).toBe(12);
    expect(of(answer, 'DRY')).toMatchObject({ stands: 'ready', dryFor: 'critical' });
    expect(of(answer, 'NEAR')).toMatchObject({ stands: 'ready', dryFor: 'visible' });
    expect(of(answer, 'SEEN')).toMatchObject({
      stands: 'ready',
      dryFor: 'visible',
      why: 'Read at 12 % on 1 Nov 2026.',
    });
    expect(of(answer, 'BACKS')).toMatchObject({ stands: 'never', dryFor: 'hidden', forecast: { kind: 'never' } });
    expect(of(answer, 'GREEN')).toMatchObject({ stands: 'later', dryFor: 'unknown' });

    // The cell beside a row of the sheet says the same.
    const tags = ['DRY', 'NEAR', 'SEEN', 'BACKS', 'GREEN', 'LOST'];
    const status: Answer<'boardStatus'> = (await yard.send('POST', '/v1/boards/status', { tags })).json;
    const green = of(answer, 'GREEN')?.forecast;
    expect(status.rows.map((row) => [row.ready, row.readyOn])).toEqual([
      ['ready', null],
      ['ready', null],
      ['ready', null],
      ['never', null],
      ['drying', green?.kind === 'range' ? green.likelyOn : 'a range'],
      ['unknown', null],
    ]);
  });

  test('the board’s dates are those of its own forecast', async () => {
    const answer = await ready({ by: '2026-12-01', targetPercent: 9, otherAir: heated });
    const own = await yard.send('POST', '/v1/wood/drying', {
      species: 'white oak',
      thicknessNm: '8/4',
      air: heated,
      targetPercent: 9,
      readings: [read('2026-10-01', 14), read('2026-10-22', 10.5)],
    });
    expect(of(answer, 'NEAR')).toMatchObject({ forecast: own.json.forecast });
  });

  test('a day sooner or later changes how surely it is ready by then', async () => {
    const by = async (day: string) => of(await ready({ by: day, targetPercent: 8, otherAir: heated }), 'NEAR');
    const forecast = (await by('2027-12-31'))?.forecast;
    if (forecast?.kind !== 'range') throw new Error('two readings give a range');
    const { earliestOn, likelyOn, latestOn } = forecast;
    expect(await by(latestOn)).toMatchObject({ stands: 'surely' });
    expect(await by(likelyOn)).toMatchObject({ stands: 'likely' });
    expect(await by(earliestOn)).toMatchObject({ stands: 'possibly' });
    expect(await by('2026-10-22')).toMatchObject({ stands: 'later' });
  });

  test('a place longer by a word wins over the place that it begins with', async () => {
    const airs = [
      { place: 'kiln room', air: shed },
      { place: 'kiln room, top', air: heated },
    ];
    expect(of(await ready({ by: '2026-12-31', targetPercent: 8, airs }), 'NEAR')).toMatchObject({ stands: 'surely' });
    expect(of(await ready({ by: '2026-12-31', targetPercent: 8, airs }), 'GREEN')).toMatchObject({ stands: 'never' });
  });

  test('a day that is none is refused', async () => {
    const answer = await yard.send('POST', '/v1/drying/ready', { by: '2026-02-30' });
    expect(answer.json.faults).toMatchObject([{ pointer: '/by' }]);
  });
});

describe('the glue-up of a job', () => {
  const ply = (thicknessNm: string, widthNm: string, offsetNm: string | number = 0) => ({
    thicknessNm,
    widthNm,
    offsetNm,
  });
  const facts = { clampForceLbf: 1200, clampsAtHand: 24, openMinutes: 8, spreadMinutesPerJoint: 2, clampMinutes: 2 };

  async function postsAndPanel(): Promise<string> {
    const jobId = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json.id;
    const size = { species: 'white oak', lengthNm: '30 in' };
    const parts = [
      {
        ...size,
        key: 'post',
        label: 'Post',
        quantity: 2,
        widthNm: '3 in',
        thicknessNm: '2 1/4 in',
        use: 'hidden',
        lamination: {
          kind: 'plies',
          plies: [ply('3/4 in', '3 in'), ply('3/4 in', '2 in', '1/2 in'), ply('3/4 in', '3 in')],
        },
      },
      {
        ...size,
        key: 'top',
        label: 'Top',
        quantity: 1,
        widthNm: '15 in',
        thicknessNm: '3/4 in',
        lamination: { kind: 'staves', count: 4 },
      },
      { ...size, key: 'rail', label: 'Rail', quantity: 2, widthNm: '3 in', thicknessNm: '3/4 in' },
    ];
    const set = await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts });
    expect(set.status, set.text).toBe(200);
    return jobId;
  }

  const glueUp = async (jobId: string, body: object = facts): Promise<Answer<'glueUpJob'>> => {
    const answer = await yard.send('POST', `/v1/jobs/${jobId}/glue-up`, body);
    expect(answer.status, answer.text).toBe(200);
    return answer.json;
  };
  async function post(jobId: string): Promise<Answer<'glueUpJob'>['parts'][number]> {
    const found = (await glueUp(jobId)).parts.find((part) => part.partKey === 'post');
    if (!found) throw new Error('no post');
    return found;
  }

  test('each laminated part: its layers, glue lines, glue and clamps; solid parts are left out', async () => {
    const answer = await glueUp(await postsAndPanel());
    expect(answer.parts.map((part) => part.partKey)).toEqual(['post', 'top']);
    const [posts, top] = answer.parts;
    if (!posts || !top) throw new Error('two laminated parts');
    expect(posts).toMatchObject({ kind: 'plies', copies: 2, glueLinesPerPiece: 2 });
    // Two lines of 2 × 30 in, where the narrow middle ply meets its neighbours, in each of two posts.
    expect(posts.glueLineAreaM2).toBeCloseTo(4 * 2 * 30 * 0.0254 ** 2, 9);
    expect(top).toMatchObject({ kind: 'staves', copies: 1, glueLinesPerPiece: 3 });
    expect(top.glueLineAreaM2).toBeCloseTo(3 * 0.75 * 30 * 0.0254 ** 2, 9);
    expect(answer.glueMl[1]).toBeCloseTo(posts.glueMl[1] + top.glueMl[1], 9);
    expect(posts.pieces).toEqual([
      { no: 1, boards: [], apartPoints: null },
      { no: 2, boards: [], apartPoints: null },
    ]);
    expect(posts.checklist[1]).toMatchObject({ met: null });
  });

  /** Three thin boards of 6.5, 8 and 9.5 %, and the posts' layers sawn out of them. */
  async function postsSawn() {
    const thin = (tag: string, moisturePercent: number) =>
      board(tag, {
        thicknessNm: '4/4',
        widthNm: '4 in',
        lengthNm: '96 in',
        readings: [{ moisturePercent, on: '2026-11-01' }],
      });
    await yard.send('POST', '/v1/boards', { boards: [thin('A', 6.5), thin('B', 8), thin('C', 9.5)] });
    const jobId = await postsAndPanel();
    const plan = (await yard.send('POST', `/v1/jobs/${jobId}/plans`, { effort: 'quick', partKeys: ['post'] })).json;
    expect(plan.unplaced).toEqual([]);
    await yard.send('POST', `/v1/plans/${plan.id}/reserve`, { how: 'whole' });
    const session = (await yard.send('POST', `/v1/plans/${plan.id}/sessions`, {})).json;
    const done = await yard.send('POST', `/v1/sessions/${session.id}/reconcile`, { restAsPlanned: true, boards: [] });
    expect(done.status, done.text).toBe(201);
    return { jobId, tags: plan.layouts.map((layout: { tag: string }) => layout.tag) as string[] };
  }

  test('once cut, the layers know their boards, and how far apart these read', async () => {
    const { jobId, tags } = await postsSawn();
    const sawn = await post(jobId);
    const used = [...new Set(sawn.pieces.flatMap((piece) => piece.boards.map(({ tag }) => tag)))];
    expect(used.sort()).toEqual([...new Set(tags)].sort());
    expect(used.length).toBeGreaterThan(1);
    for (const { boards, apartPoints } of sawn.pieces) {
      const percents = boards.map(({ moisturePercent }) => moisturePercent ?? Number.NaN);
      expect(apartPoints).toBe(Math.max(...percents) - Math.min(...percents));
    }
    const furthest = Math.max(...sawn.pieces.map((piece) => piece.apartPoints ?? 0));
    expect(sawn.moisture?.apartPoints).toBe(furthest);
    expect(sawn.checklist[1]?.met).toBe(furthest <= 2);
  });

  test('a post that is glued up needs no more glue', async () => {
    const { jobId } = await postsSawn();
    const before = await post(jobId);
    const layer = (element: number | null, to: string) => ({
      partKey: 'post',
      no: 1,
      element,
      to,
      why: 'flat already',
    });
    const steps = [layer(0, 'passed'), layer(1, 'passed'), layer(2, 'passed'), layer(null, 'glued-up')];
    const moved = await yard.send('POST', `/v1/jobs/${jobId}/pieces`, { steps });
    expect(moved.status, moved.text).toBe(201);
    const after = await post(jobId);
    expect(after.copies).toBe(1);
    expect(after.glueG[1]).toBeCloseTo(before.glueG[1] / 2, 9);
  });

  test('a thicker caul spreads the pressure, so that clamps may stand wider apart', async () => {
    const jobId = await postsAndPanel();
    const bySpacing = async (body: object) => (await glueUp(jobId, body)).parts[1]?.clamps?.least.bySpacing ?? 0;
    expect(await bySpacing({ ...facts, caulNm: '2 in' })).toBeLessThan(await bySpacing(facts));
  });

  test('a job that is none is not found', async () => {
    expect((await yard.send('POST', '/v1/jobs/jb_0000000000/glue-up', facts)).status).toBe(404);
  });
});
