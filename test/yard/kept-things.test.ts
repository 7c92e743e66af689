/** What the object keeps of boards and jobs between two calls, and when it forgets. */
import { expect, test } from 'vitest';
import { KeptThings } from '../../worker/yard/kept-things.ts';
import { boardOf, partOf, Shop } from './shop.ts';

async function things() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg'));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  const [board, job, session] = [
    shop.board('Q-1'),
    shop.state().get('job', jobId),
    shop.state().get('session', sessionId),
  ];
  if (!job || !session) throw new Error('not made');
  return { board, job, session };
}

test('boards and jobs are given again as they were last written; sessions are always read', async () => {
  const { board, job, session } = await things();
  const kept = new KeptThings();
  expect(kept.get('board', board.id)).toBeNull();
  kept.keep('board', board.id, board);
  kept.keep('job', job.id, job);
  kept.keep('session', session.id, session);
  expect(kept.get('board', board.id)).toBe(board);
  expect(kept.get('job', job.id)).toBe(job);
  expect(kept.get('session', session.id)).toBeNull();
  expect(kept.get('job', board.id)).toBeNull();
  kept.keep('board', board.id, null);
  expect(kept.get('board', board.id)).toBeNull();
});

test('boards of a tag are kept until a board changes, and all of it until something is taken back', async () => {
  const { board, job } = await things();
  const kept = new KeptThings();
  kept.keep('job', job.id, job);
  expect(kept.boardsByFold('q-1')).toBeNull();
  kept.keepFold('q-1', [board]);
  expect(kept.boardsByFold('q-1')).toEqual([board]);
  kept.forgetFolds();
  expect(kept.boardsByFold('q-1')).toBeNull();
  expect(kept.get('job', job.id)).toBe(job);
  kept.keepFold('q-1', [board]);
  kept.forget();
  expect([kept.boardsByFold('q-1'), kept.get('job', job.id)]).toEqual([null, null]);
});

test('of a thousand boards and more not all are kept', async () => {
  const { board } = await things();
  const kept = new KeptThings();
  for (let no = 0; no < 1_000; no++) {
    kept.keep('board', `bd_${no}`, board);
    kept.keepFold(`q-${no}`, [board]);
  }
  expect([kept.get('board', 'bd_0'), kept.boardsByFold('q-0')]).toEqual([board, [board]]);
  kept.keep('board', 'bd_1000', board);
  kept.keepFold('q-1000', [board]);
  expect([kept.get('board', 'bd_0'), kept.boardsByFold('q-0')]).toEqual([null, null]);
  expect([kept.get('board', 'bd_1000'), kept.boardsByFold('q-1000')]).toEqual([board, [board]]);
});
