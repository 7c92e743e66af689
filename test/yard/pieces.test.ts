/** Pieces on their way: resting, passed, glued up, cured, milled; and back when they fail. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

const HOUR_MS = 3_600_000;
const plies = (count: number) => ({
  kind: 'plies' as const,
  plies: Array.from({ length: count }, () => ({ thicknessNm: INCH, widthNm: 3 * INCH, offsetNm: 0 })),
});

/** A leg and a post of two plies, all roughed on 2 March; critical parts rest seven days. */
async function roughed() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const post = partOf('post', { label: 'Post', quantity: 1, lamination: plies(2) });
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 1 }), post);
  const { sessionId } = shop.atTheSaw(jobId, {
    'Q-1': [{ key: 'leg' }],
    'Q-2': [
      { key: 'post', element: 0 },
      { key: 'post', element: 1 },
    ],
  });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const move = (...steps: readonly ReturnType<Shop['step']>[]) => ({ do: 'move-pieces' as const, jobId, steps });
  const help = (...steps: readonly ReturnType<Shop['step']>[]) => shop.refused(move(...steps)).faults?.[0]?.help;
  const state = (key: string, element: number | null = null) =>
    shop.pieces(jobId, key, element).map((piece) => piece.state);
  return { shop, jobId, move, help, state };
}

test('a piece does not pass before its rest is over, unless someone says why', async () => {
  const { shop, move, help, state } = await roughed();
  expect(help(shop.step('leg', 1, 'passed'))).toBe(
    'it rests until 9 Mar 2026; wait, or say why it passes before that day',
  );
  shop.tell(move(shop.step('leg', 1, 'passed', null, 'quartersawn, moved nothing in two days')));
  expect(state('leg')).toEqual(['passed']);
});

test('after the rest a piece passes and is milled; a rested one may be milled straight away', async () => {
  const { shop, move, help, state } = await roughed();
  expect(help(shop.step('leg', 1, 'milled'))).toContain('it is roughed, resting until 9 Mar 2026');
  shop.today = '2026-03-09';
  shop.tell(move(shop.step('leg', 1, 'passed')));
  shop.tell(move(shop.step('leg', 1, 'milled')));
  expect(state('leg')).toEqual(['milled']);
});

test('a piece that moved in its rest fails with its reason, stays as history, and is wanted again', async () => {
  const { shop, jobId, move, help } = await roughed();
  expect(help(shop.step('leg', 1, 'failed'))).toBe('say why it failed');
  expect(help(shop.step('leg', 9, 'passed'))).toBe('this job has no such piece');
  expect(help(shop.step('arm', 1, 'passed'))).toBe('this job has no such piece');
  shop.tell(move(shop.step('leg', 1, 'failed', null, 'bowed 1/4"')));
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.attempt, piece.state, piece.why])).toEqual([
    [1, 'failed', 'bowed 1/4"'],
    [2, 'wanted', ''],
  ]);
  expect(help(shop.step('leg', 1, 'failed', null, 'again'))).toContain('this one is wanted');
});

test('a post is glued up only when all its layers have passed, and milled only when the glue has cured', async () => {
  const { shop, jobId, move, help, state } = await roughed();
  shop.today = '2026-03-09';
  shop.tell(move(shop.step('post', 1, 'passed', 0)));
  expect(help(shop.step('post', 1, 'milled', 0))).toBe(
    'layers are planed for the glue-up; only the whole piece is milled',
  );
  expect(help(shop.step('post', 1, 'glued-up'))).toBe(
    'all its layers must have passed: layer 2 is roughed, resting until 9 Mar 2026',
  );
  shop.tell(move(shop.step('post', 1, 'passed', 1), shop.step('post', 1, 'glued-up')));
  expect([state('post'), state('post', 0), state('post', 1)]).toEqual([['glued-up'], ['glued-up'], ['glued-up']]);
  // 24 hours of cure: the shop's default, common practice, no source.
  expect(shop.pieces(jobId, 'post')[0]?.curingUntilMs).toBe(shop.atMs + 24 * HOUR_MS);
  expect(help(shop.step('post', 1, 'milled'))).toBe('its glue cures until 3 Mar 2026, 09:00 UTC');
  shop.atMs += 24 * HOUR_MS;
  shop.tell(move(shop.step('post', 1, 'milled')));
  expect(state('post')).toEqual(['milled']);
  shop.expectSound();
});

test('a glue-up that fails takes its layers with it: all are wanted again', async () => {
  const { shop, jobId, move } = await roughed();
  shop.today = '2026-03-09';
  shop.tell(
    move(shop.step('post', 1, 'passed', 0), shop.step('post', 1, 'passed', 1), shop.step('post', 1, 'glued-up')),
  );
  shop.tell(move(shop.step('post', 1, 'failed', null, 'starved joint')));
  for (const element of [null, 0, 1]) {
    expect(shop.pieces(jobId, 'post', element).map((piece) => [piece.attempt, piece.state])).toEqual([
      [1, 'failed'],
      [2, 'wanted'],
    ]);
  }
});

test('a piece roughed by mistake is wanted again; one wrong step keeps all steps back', async () => {
  const { shop, move, state } = await roughed();
  const refusal = shop.refused(move(shop.step('leg', 1, 'wanted'), shop.step('arm', 1, 'wanted')));
  expect([refusal.why, refusal.faults?.[0]?.pointer]).toEqual(['piece-not-there', '/steps/1']);
  expect(state('leg')).toEqual(['roughed']);
  shop.tell(move(shop.step('leg', 1, 'wanted')));
  expect(state('leg')).toEqual(['wanted']);
});

test('where a job stands counts pieces and layers apart', async () => {
  const { shop, jobId } = await roughed();
  const { standing, heldBoards } = shop.ask('job', { jobId });
  expect(standing).toEqual({ pieces: { roughed: 1, wanted: 1 }, layers: { roughed: 2 } });
  expect(heldBoards).toBe(0);
});
