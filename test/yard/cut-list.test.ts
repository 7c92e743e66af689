/** A job's cut list set and set again: wood that is cut stays, wood that is planned stands in the way. */
import { expect, test } from 'vitest';
import type { Part } from '../../worker/contract/job.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

const leg = (over: Partial<Part> = {}) => partOf('leg', { label: 'Leg', quantity: 4, ...over });
const rail = partOf('rail', { label: 'Rail', quantity: 2 });

/** Two of four legs at the saw; as planned or not yet cut. */
async function shopWith(how: 'planned' | 'roughed') {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', leg(), rail);
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] });
  if (how === 'roughed') shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const states = () => shop.pieces(jobId, 'leg').map((piece) => piece.state);
  const set = (...parts: readonly Part[]) =>
    ({ do: 'set-cut-list', jobId, parts, faults: [], allOrNothing: true, ifVersion: null }) as const;
  return { shop, jobId, states, set };
}

test('a laminated part asks for the whole piece and each of its layers, copy by copy', async () => {
  const shop = await Shop.open();
  const staves = { kind: 'staves' as const, count: 3 };
  const jobId = shop.job('Hall table', partOf('top', { quantity: 2, lamination: staves }));
  const pieces = shop.ask('job', { jobId }).parts[0]?.pieces.map((piece) => [piece.no, piece.element, piece.state]);
  expect(pieces).toEqual([1, 2].flatMap((no) => [null, 0, 1, 2].map((element) => [no, element, 'wanted'])));
});

test('more copies are wanted, fewer are not; cut ones stay', async () => {
  const { shop, states, set } = await shopWith('roughed');
  shop.tell(set(leg({ quantity: 6 }), rail));
  expect(states()).toEqual(['roughed', 'roughed', 'wanted', 'wanted', 'wanted', 'wanted']);
  shop.tell(set(leg({ quantity: 2 }), rail));
  expect(states()).toEqual(['roughed', 'roughed']);
  const told = shop.tell(set(leg({ quantity: 1 }), rail));
  expect(told.notes).toEqual(['Leg: 1 piece more than asked for are already cut; they stay.']);
  expect(states()).toEqual(['roughed', 'roughed']);
  shop.expectSound();
});

test('a row that is gone leaves the list, but not the wood already cut for it', async () => {
  const { shop, jobId, states, set } = await shopWith('roughed');
  const told = shop.tell(set());
  expect(told.notes).toEqual(['Leg is no longer on the list; 2 pieces already cut stay.']);
  expect(shop.ask('job', { jobId }).parts.map((part) => [part.key, part.quantity])).toEqual([['leg', 2]]);
  expect(states()).toEqual(['roughed', 'roughed']);
  shop.expectSound();
});

test('a new size is refused while pieces are planned at the old one', async () => {
  const { shop, set } = await shopWith('planned');
  for (const parts of [[leg({ lengthNm: 27 * INCH }), rail], [leg({ quantity: 1 }), rail], [rail]]) {
    const refusal = shop.refused(set(...parts));
    expect(refusal.why).toBe('invalid-input');
    expect(refusal.faults?.[0]?.help).toContain('drop that plan first');
  }
  const places = (...parts: readonly Part[]) =>
    shop.refused(set(...parts)).faults?.map(({ pointer, row, field }) => [pointer, row, field]);
  expect(places(rail, leg({ lengthNm: 27 * INCH }))).toEqual([['/parts/1/lengthNm', 1, 'lengthNm']]);
  expect(places(rail, leg({ quantity: 1 }))).toEqual([['/parts/1/quantity', 1, 'quantity']]);
  // A row that is gone has no place of its own.
  expect(places(rail)).toEqual([['/parts', undefined, 'key']]);
  shop.tell(set(leg({ label: 'Front leg' }), rail));
});

test('a new size keeps what was cut to the old size, and says so', async () => {
  const { shop, states, set } = await shopWith('roughed');
  const told = shop.tell(set(leg({ lengthNm: 27 * INCH }), rail));
  expect(told.notes).toEqual(['Leg: 2 pieces already cut to the old size stay on the list.']);
  expect(states()).toEqual(['roughed', 'roughed', 'wanted', 'wanted']);
});

test('two rows with one key are a fault that names both', async () => {
  const { shop, set } = await shopWith('roughed');
  const refusal = shop.refused(set(leg(), rail, leg()));
  expect(refusal.faults).toEqual([
    {
      pointer: '/parts/2/key',
      row: 2,
      field: 'key',
      read: 'leg',
      help: 'row 1 has the same key; each row needs its own',
    },
  ]);
});

test('rows that could not be read take nothing off the list when the good rows are kept', async () => {
  const { shop, jobId, set } = await shopWith('roughed');
  const faults = [
    { pointer: '/parts/0/lengthNm', row: 0, field: 'lengthNm', read: '3 5/0', help: 'no fraction of zero' },
  ];
  expect(shop.refused({ ...set(rail), faults }).why).toBe('invalid-input');
  const told = shop.tell({ ...set(rail), faults, allOrNothing: false });
  expect(told.faults).toEqual(faults);
  expect(shop.ask('job', { jobId }).parts.map((part) => part.key)).toEqual(['rail', 'leg']);
});

test('each setting is a revision; a stale one is refused', async () => {
  const { shop, jobId, set } = await shopWith('roughed');
  const job = () => shop.state().get('job', jobId);
  expect(job()?.revision).toBe(1);
  const ifVersion = job()?.version ?? 0;
  shop.tell({ ...set(leg()), ifVersion });
  expect(job()?.revision).toBe(2);
  expect(shop.refused({ ...set(leg()), ifVersion }).why).toBe('version-stale');
});

test('a revision number is never given twice, so that no old plan passes for one of a new list', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', leg());
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] });
  shop.tell({ do: 'undo', seq: shop.seq() });
  shop.cutList(jobId, leg({ lengthNm: 20 * INCH }));
  expect(shop.refused({ do: 'keep-plan', plan: body }).why).toBe('boards-changed');
});

test('a job takes 5,000 pieces, layers counted, and not one more', async () => {
  const shop = await Shop.open();
  const staves = { kind: 'staves' as const, count: 9 };
  const jobId = shop.job('Panels');
  const full = partOf('panel', { quantity: 500, lamination: staves });
  shop.cutList(jobId, full);
  const set = { do: 'set-cut-list', jobId, faults: [], allOrNothing: false, ifVersion: null } as const;
  const refusal = shop.refused({ ...set, parts: [full, partOf('peg', { quantity: 1 })] });
  expect(refusal.faults?.[0]?.help).toContain('5001 pieces');
});

test('a number once given to a copy is not given to another', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', leg({ quantity: 3 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg', count: 3 }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  shop.tell({ do: 'move-pieces', jobId, steps: [1, 2].map((no) => shop.step('leg', no, 'wanted')) });
  shop.cutList(jobId, leg({ quantity: 1 }));
  shop.cutList(jobId, leg({ quantity: 4 }));
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.state])).toEqual([
    [3, 'roughed'],
    [4, 'wanted'],
    [5, 'wanted'],
    [6, 'wanted'],
  ]);
});
