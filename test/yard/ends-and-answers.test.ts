/** What may not end while it holds boards, what the doctor makes of kept answers, and a job's plans page by page. */
import { expect, test } from 'vitest';
import { boardsChangedSince } from '../../worker/yard/decide/plans.ts';
import { brokenRules } from '../../worker/yard/decide/rules.ts';
import { checkUp } from './check-up.ts';
import { boardOf, memoryCopy, partOf, Shop } from './shop.ts';

async function heldPlan() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg'));
  const { planId, sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  return { shop, jobId, planId, sessionId };
}

test('a plan cannot end while it holds boards or is at the saw, and each is named', async () => {
  const { shop, planId, sessionId } = await heldPlan();
  const state = memoryCopy(shop.yard);
  const touched = [{ entity: 'plan' as const, id: planId, was: {}, now: {} }];
  const words = () => brokenRules(state, touched).map((broken) => broken.words);
  expect(words()).toEqual([]);
  const [plan, session] = [state.get('plan', planId), state.get('session', sessionId)];
  if (!plan || !session) throw new Error('not made');
  state.put('plan', planId, { ...plan, state: 'done' });
  expect(words()).toEqual(['the plan would end, but it holds boards', 'the plan would end, but it is at the saw']);
  state.put('session', sessionId, { ...session, state: 'closed' });
  expect(words()).toEqual(['the plan would end, but it holds boards']);
  for (const { id } of state.reservationsOfPlan(planId)) state.remove('reservation', id);
  expect(words()).toEqual([]);
});

test('a plan says which of its boards is gone, cut up or corrected since', async () => {
  const { shop, planId } = await heldPlan();
  const state = memoryCopy(shop.yard);
  const plan = state.get('plan', planId);
  const board = shop.board('Q-1');
  if (!plan) throw new Error('not made');
  expect(boardsChangedSince(state, plan)).toEqual([]);
  const why = () => boardsChangedSince(state, plan).map((conflict) => conflict.wayOut);
  state.put('board', board.id, { ...board, version: board.version + 1 });
  expect(why()).toEqual(['it was corrected or read since the plan was made; plan again']);
  state.put('board', board.id, { ...board, state: 'written-off' });
  expect(why()).toEqual(['it is no longer in stock; plan again']);
  state.remove('board', board.id);
  expect(why()).toEqual(['it is no longer in the yard; plan again']);
});

test('a kept refusal is sound; an answer that is neither a yes nor a no is found', async () => {
  const { shop } = await heldPlan();
  expect(shop.send({ do: 'undo', seq: 9_999 }, 'refused-once').ok).toBe(false);
  expect(checkUp(shop.yard.sql).findings).toEqual([]);
  for (const answer of ['{}', '{"ok":false}', '{"refusal":{}}', '{"ok":true}']) {
    shop.yard.sql.once(() => {
      shop.yard.sql.run('UPDATE receipt SET answer = ? WHERE idempotency_key = ?', answer, 'refused-once');
      return null;
    });
    expect(checkUp(shop.yard.sql).findings).toMatchObject([
      { rule: 'receipt', what: 'receipt owner/refused-once', words: 'its answer is neither a yes nor a no' },
    ]);
  }
});

test('the plans of a job come newest first, page by page, and those of another job do not', async () => {
  const { shop, jobId, planId } = await heldPlan();
  const other = shop.job('Bench', partOf('rail', { quantity: 1 }));
  shop.keep(shop.plan(other, { 'Q-2': [{ key: 'rail' }] }));
  const second = shop.keep(shop.plan(jobId, { 'Q-2': [{ key: 'leg' }] }));
  const first = shop.ask('plans', { jobId, page: { limit: 1, after: null } });
  expect(first.items.map((plan) => plan.id)).toEqual([second]);
  const rest = shop.ask('plans', { jobId, page: { limit: 5, after: second } });
  expect([rest.items.map((plan) => plan.id), rest.items[0]?.layouts[0]?.tag]).toEqual([[planId], 'Q-1']);
});
