/** What the sidebar shows from before says so, and leads back: an older takeoff, all of a job's plans, a tab pressed again. */
import { expect, test } from 'vitest';
import { toCutChoices, toCutText } from '../../addon/panel/screens/offcuts.tsx';
import { besideTakeoffText } from '../../addon/panel/screens/plan.tsx';
import { makeCuts } from '../../addon/panel/state/cuts.ts';
import { deviceTexts } from '../../addon/panel/state/device-texts.ts';
import { makeJobState } from '../../addon/panel/state/job.ts';
import { makeOutbox } from '../../addon/panel/state/outbox.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeMeasure } from '../../addon/panel/words/measure.ts';
import { layersOfKind } from '../../addon/panel/words/trade.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { fakeHost } from './fake-host.ts';
import { type FakeYard, fakeYard } from './fake-yard.ts';
import { hallTable, planId, samplePlan } from './sample.ts';

const at = () => Date.UTC(2026, 10, 25, 10);
const size = { lengthNm: inch(40), widthNm: inch(5), thicknessNm: inch(0.75) };
const measure = makeMeasure({ shown: 'in', denominator: 16, currency: 'USD' });

function open(yard: FakeYard) {
  const host = fakeHost([]);
  const shell = makeShell(at);
  const outbox = makeOutbox({
    api: yard,
    texts: deviceTexts(host, 'test'),
    nowMs: at,
    newId: () => 'intent-1',
    went: () => {},
  });
  return { shell, job: makeJobState(yard, shell, outbox), cuts: makeCuts(yard, host, shell, outbox) };
}

test('a takeoff is called old once the yard was changed, until it is taken anew', async () => {
  const { shell, job } = open(fakeYard());
  expect(job.isTakeoffOld.value).toBe(false);
  await job.open(hallTable);
  await job.takeOff();
  expect([job.takeoff.value === null, job.isTakeoffOld.value]).toEqual([false, false]);
  shell.changed();
  expect(job.isTakeoffOld.value).toBe(true);
  await job.takeOff();
  expect(job.isTakeoffOld.value).toBe(false);
});

test('a change while the takeoff was on its way makes it old too', async () => {
  const { shell, job } = open(fakeYard());
  await job.open(hallTable);
  const taking = job.takeOff();
  shell.changed();
  await taking;
  expect(job.isTakeoffOld.value).toBe(true);
});

test('every page of a job’s plans is read: one at the saw shows behind many that were dropped', async () => {
  const { layouts, unplaced, boardVersions: _b, notes: _n, ...summary } = samplePlan;
  const head = { ...summary, boardCount: layouts.length, unplacedCount: unplaced.length };
  const dropped = Array.from({ length: 100 }, (_, no) => ({
    ...{ ...head, id: `pl_00000drop${String(no).padStart(3, '0')}` },
    state: 'dropped' as const,
  }));
  const asked: unknown[] = [];
  const yard = fakeYard({
    listPlans: ({ query }) => {
      asked.push(query);
      return query?.after === undefined
        ? { items: dropped, next: 'page-2' }
        : { items: [{ ...head, state: 'reserved' }], next: null };
    },
    readPlan: () => ({ ...samplePlan, state: 'reserved' }),
  });
  const { cuts } = open(yard);
  await cuts.load(hallTable);
  expect(cuts.plan.value?.id).toBe(planId);
  expect(asked).toEqual([{}, { after: 'page-2' }]);
});

test('a tab that is in front and pressed again asks its views to lead back; another tab only comes in front', () => {
  const shell = makeShell(at);
  shell.pressTab('Cuts');
  expect([shell.tab.value, shell.homes.value]).toEqual(['Cuts', 0]);
  shell.pressTab('Cuts');
  expect([shell.tab.value, shell.homes.value]).toEqual(['Cuts', 1]);
});

test('what boards cost stands beside what the takeoff reckons, each said for what it is', () => {
  const shelf = part({ key: 'S', label: 'Shelf', ...size });
  const prices = [{ species: 'white oak', thicknessCall: null, minorPerBoardFoot: 900 }];
  const settings = { ...shopSettings(), prices };
  const taken = takeoff({ parts: [shelf], boards: [], settings, jobId: hallTable });
  const gross = measure.money(taken.total.costMinor ?? 0);
  const plan = { ...samplePlan, jobId: hallTable, continues: null };
  expect(besideTakeoffText(plan, taken, measure)).toBe(
    `These boards, whole, cost $124.50 with what is left of them; the takeoff reckons ${gross} for its gross wood at the shop’s prices.`,
  );
  expect(besideTakeoffText({ ...plan, continues: planId }, taken, measure)).toBeNull();
  expect(besideTakeoffText(plan, { ...taken, jobId: null }, measure)).toBeNull();
  const unpriced = takeoff({ parts: [shelf], boards: [], settings: { ...settings, prices: [] }, jobId: hallTable });
  expect(besideTakeoffText(plan, unpriced, measure)).toBeNull();
});

test('staves of a part bear no number where so many of them are told, plies do', () => {
  const top = part({ ...size, key: 'T', lamination: { kind: 'staves', count: 3 } });
  const post = part({ ...size, key: 'P', lamination: { kind: 'plies', plies: [] } });
  expect([layersOfKind(0, 1, top), layersOfKind(0, 2, top)]).toEqual([', stave', ', staves']);
  expect([layersOfKind(1, 2, post), layersOfKind(null, 2, undefined)]).toEqual([', ply 2', '']);
});

test('a part whose offcut is looked for names its staves together and each of its plies', () => {
  const ply = { thicknessNm: size.thicknessNm, widthNm: size.widthNm, offsetNm: 0 };
  const top = part({ ...size, key: 'T', label: 'Table top', lamination: { kind: 'staves', count: 3 } });
  const post = part({ ...size, key: 'P', label: 'Post', lamination: { kind: 'plies', plies: [ply, ply] } });
  expect(job([top, post]).parts.flatMap(toCutChoices).map(toCutText)).toEqual([
    'Table top, staves: 3 to cut',
    'Post, ply 1: 1 to cut',
    'Post, ply 2: 1 to cut',
  ]);
});
