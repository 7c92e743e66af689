/** What the routes of the trade's arithmetic share: the key is proved before anything is worked out, and input refused by name. */
import type { RouteName } from '../../contract/routes.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { bookWith } from '../../wood/own-wood.ts';
import type { Result } from '../../wood/result.ts';
import type { Species, SpeciesBook } from '../../wood/species.ts';
import { woodNameBook } from '../../wood/species-naming.ts';
import { type Asking, type Call, good, type Handler, type Outcome, refuse } from '../serve.ts';

/** One field that cannot be, with what would be right. */
export function refusedAt(pointer: string, help: string): Outcome<never> {
  const field = pointer.split('/').findLast((step) => step !== '' && !/^\d+$/.test(step));
  return refuse('invalid-input', help, [{ pointer, ...(field === undefined ? {} : { field }), help }]);
}

/** A route that only needs its body and the shop's settings; asking for these proves the key. */
export function worked<N extends RouteName>(
  work: (body: Call<N>['body'], settings: Settings) => Outcome<Answer<N>>,
): Handler<N> {
  return async (call) => {
    const facts = await call.ask('yard-facts', {});
    if (!facts.ok) return facts;
    if (!facts.value) return refuse('not-found', 'There is no such yard.');
    return work(call.body, facts.value.settings);
  };
}

/** The shop's woods, its own among them; asking for them proves the key. */
export async function shopBook(call: Asking): Promise<Outcome<SpeciesBook>> {
  const facts = await call.ask('yard-facts', {});
  if (!facts.ok) return facts;
  return facts.value ? good(bookWith(facts.value.settings.ownWoods)) : refuse('not-found', 'There is no such yard.');
}

/** The wood that a body names, or a refusal with the nearest names. */
export function woodNamed(name: string, { ownWoods }: Settings, pointer = '/species'): Outcome<Species> {
  const reading = bookWith(ownWoods).read(name);
  return reading.ok ? good(reading.species) : refusedAt(pointer, reading.help);
}

/** What to say of a name that is near to known woods, or may mean several; null for one wood, and for one that is near to none. */
export function nameSlip(name: string, { ownWoods }: Pick<Settings, 'ownWoods'>): string | null {
  const reading = woodNameBook(ownWoods).read(name);
  return reading.ok || reading.near.length === 0 ? null : reading.help;
}

/** A function's own refusal, at the field that it is about. */
export const fieldOf = <T>(pointer: string, result: Result<T>): Outcome<T> =>
  result.ok ? good(result.value) : refusedAt(pointer, result.help);

/** Each row's outcome, or the first refusal. */
export function eachOf<Row, Value>(
  rows: readonly Row[],
  work: (row: Row, at: number) => Outcome<Value>,
): Outcome<Value[]> {
  const values: Value[] = [];
  for (const [at, row] of rows.entries()) {
    const outcome = work(row, at);
    if (!outcome.ok) return outcome;
    values.push(outcome.value);
  }
  return good(values);
}
