/** The printable glue-up sheet: every laminated part that is still to be glued, with what it needs and the cautions. */
import { beforeEach, expect, test } from 'vitest';
import { answers } from '../../worker/contract/wire.ts';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
let jobId: string;
beforeEach(async () => {
  yard = await openShop().foundYard('Juniper Bend');
  jobId = (await yard.send('POST', '/v1/jobs', { name: 'Hall <table>' })).json.id;
  await yard.send('POST', '/v1/boards', { boards: [board('A')] });
  const parts = [
    {
      key: 'post',
      label: 'Post & cap',
      quantity: 2,
      species: 'white oak',
      // Worked case of the handbook: leg blank of 3 plies 3 × 30 in: 2 lines, 1.25 ft², 0.116 m².
      lengthNm: '30 in',
      widthNm: '3 in',
      thicknessNm: '2 1/4 in',
      grain: 'flat',
      lamination: {
        kind: 'plies',
        plies: [0, 1, 2].map(() => ({ thicknessNm: '3/4 in', widthNm: '3 in' })),
      },
    },
    {
      key: 'top',
      label: 'Top',
      quantity: 1,
      species: 'white oak',
      lengthNm: '48 in',
      widthNm: '16 in',
      thicknessNm: '3/4 in',
      lamination: { kind: 'staves', count: 4 },
    },
    {
      key: 'shelf',
      label: 'Shelf',
      quantity: 1,
      species: 'white oak',
      lengthNm: '20 in',
      widthNm: '6 in',
      thicknessNm: '3/4 in',
    },
  ];
  const set = await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts });
  expect(set.status, set.text).toBe(200);
});

const shop = { bottleMl: 473, clampForceLbf: 1200, clampsAtHand: 12, spreadMinutesPerJoint: 1, clampMinutes: 2 };

test('each laminated part on a page of its own: pieces, glue in bottles, clamps, checklist with sources, cautions once', async () => {
  const page = await yard.send('POST', `/v1/jobs/${jobId}/glue-up/sheet`, shop);
  expect(page.status, page.text).toBe(200);
  expect(page.headers.get('content-type')).toMatch(/text\/html/);
  expect(page.text.match(/<article class="card">/g)).toHaveLength(2);
  expect(page.text).toContain('Post &amp; cap');
  expect(page.text).toContain('Hall &lt;table&gt;');
  expect(page.text).not.toContain('<h1>Shelf</h1>');
  expect(page.text).toContain('<dt>Bottles</dt><dd>1</dd>');
  expect(page.text).toMatch(/<dt>Clamps a piece<\/dt><dd>\d+ to \d+<\/dd>/);
  // 16 in of four staves with three joints of 1/8 in.
  const unspanned = page.text.replaceAll('&quot;', '"').replaceAll(/<span class="one">(.*?)<\/span>/g, '$1');
  expect(unspanned).toContain('<dt>Staves</dt><dd>4 of 3/4" × 4 1/8" before jointing, which takes 1/8" a joint</dd>');
  expect(page.text).toContain('common practice, no source');
  expect(page.text.match(/Before you open the glue/g)).toHaveLength(1);
  expect(page.text).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
});

test('the job’s answer draws the end of each part, and agrees with the worked case of the handbook', async () => {
  const answer = await yard.send('POST', `/v1/jobs/${jobId}/glue-up`, { ...shop, pressureKPa: 150 * 6.894757293168 });
  expect(answers.glueUpJob.safeParse(answer.json).error).toBeUndefined();
  const [post, top] = answer.json.parts;
  // 90 in² at 150 psi is 13,500 lbf: 12 clamps of 1,200 lbf (computed, handbook 8.3).
  expect(post.clamps.least).toMatchObject({ byForce: 12 });
  expect(post.glueLineAreaM2).toBeCloseTo(2 * 1.25 * 0.09290304, 6);
  const ends = (part: typeof post) => part.drawing.shapes.filter((shape: { role: string }) => shape.role === 'blank');
  expect(ends(post)).toHaveLength(3);
  expect(ends(top)).toHaveLength(4);
  expect(post.drawing.description).toMatch(/^3 plies, 1: 3\/4" × 3".*turned about/);
});

test('a job without laminated parts prints a page that says so', async () => {
  const other = (await yard.send('POST', '/v1/jobs', { name: 'Box' })).json.id;
  const page = await yard.send('POST', `/v1/jobs/${other}/glue-up/sheet`, {});
  expect(page.text).toContain('No part of this job is left to glue up.');
  const nowhere = await yard.send('POST', '/v1/jobs/jb_00000000/glue-up/sheet', {});
  expect(nowhere.status).toBe(404);
});
