/** What a rest is worth in the caller's yard. */
import { learnedWorth, type Worth } from '../planner/shop-worth.ts';
import { type Asking, good, type Outcome } from './serve.ts';

export async function worthIn(call: Asking): Promise<Outcome<Worth>> {
  const facts = await call.ask('worth-facts', {});
  return facts.ok ? good(learnedWorth(facts.value ?? { offcuts: [], sizes: [] })) : facts;
}
