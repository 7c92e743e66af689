/** A plan is kept without drawings and read with them: the same that the planner drew. */
import { expect, test } from 'vitest';
import type { Layout } from '../../worker/contract/plan.ts';
import { board, openShop } from './shop.ts';

test('the plan that is read has each board drawn; the journal has none', async () => {
  const shop = openShop();
  const yard = await shop.foundYard('Oak yard');
  const defects = [{ kind: 'knot-sound', face: 'a', fromNm: '30 in', toNm: '31 in', leftNm: '2 in', rightNm: '3 in' }];
  await yard.send('POST', '/v1/boards', { boards: [board('Q-1', { defects }), board('Q-2', { defects })] });
  const job = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
  const sizes = { lengthNm: '20 in', widthNm: '3 in', thicknessNm: '1 in', species: 'white oak' };
  await yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, {
    parts: [{ key: 'leg', label: 'Leg', quantity: 8, ...sizes }],
  });
  const made = (await yard.send('POST', `/v1/jobs/${job.id}/plans`, { effort: 'quick' })).json;
  const read = (await yard.send('GET', `/v1/plans/${made.id}`)).json;
  expect(read).toEqual(made);
  for (const layout of read.layouts as Layout[]) {
    const blanks = layout.drawing.shapes.filter((shape) => shape.role === 'blank');
    expect(blanks.length).toBeGreaterThanOrEqual(layout.pieces.length);
    expect(layout.drawing.title).toContain(layout.tag);
    expect(layout.drawing.widthMm).toBeGreaterThan(0);
  }
  const [first] = read.layouts as Layout[];
  expect(JSON.stringify(first?.drawing)).toContain('knot');
  // Two thirds of a plan's length are its drawings; none of it stands in the yard's file.
  const file = (await yard.send('GET', '/v1/yard/archive')).text;
  expect(file).not.toContain('"role":"blank"');
  const kept = file.split('\n').find((line) => line.includes('"kind":"plan-kept"')) ?? '';
  expect(kept.length).toBeLessThan(JSON.stringify(read).length / 1.8);

  await yard.send('POST', `/v1/plans/${made.id}/reserve`, {});
  const session = (await yard.send('POST', `/v1/plans/${made.id}/sessions`, {})).json;
  expect(session.layouts.map((layout: Layout) => layout.drawing)).toEqual(
    read.layouts.map((layout: Layout) => layout.drawing),
  );
});
