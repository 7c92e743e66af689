/** A handler's questions about what it just wrote, answered from the write's own answer: no second way to the yard, and the same again when the write is sent again. */
import type { QuestionName, Questions, Shown } from '../yard/command.ts';
import type { Asking } from './serve.ts';

type Ask = Asking['ask'];
type Answers = { readonly [Q in QuestionName]?: (ask: Questions[Q]['ask']) => Questions[Q]['answer'] | undefined };

function sameIds(ids: readonly string[], things: readonly { readonly id: string }[]): boolean {
  const wanted = new Set(ids);
  return things.length === wanted.size && things.every((thing) => wanted.has(thing.id));
}

function answersOf(shown: Shown): Answers {
  const { board, job, session, movement, reservations } = shown;
  return {
    board: ({ boardId }) => (board?.id === boardId ? board : undefined),
    job: ({ jobId }) => (job?.id === jobId ? job : undefined),
    session: ({ sessionId }) => (session?.id === sessionId ? session : undefined),
    movement: ({ seq }) => (movement?.seq === seq ? movement : undefined),
    'reservations-by-id': ({ ids }) => (reservations && sameIds(ids, reservations) ? reservations : undefined),
  };
}

/** ask, where what the last write showed comes first. */
export function askAfterWrite(ask: Ask, shown: () => Shown | null): Ask {
  return async (name, question) => {
    const now = shown();
    if (now === null) return ask(name, question);
    const kept = answersOf(now)[name]?.(question);
    if (kept !== undefined) return { ok: true, value: kept };
    const found = await ask(name, question);
    if (name !== 'plan' || !found.ok || !found.value) return found;
    const plan = found.value as Questions['plan']['answer'];
    return now.plan?.id === plan.id ? { ok: true, value: { ...plan, ...now.plan } as typeof found.value } : found;
  };
}
