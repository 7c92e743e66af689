/** Routes of the cutting session: opening it, its cards, and what really came out. */
import type { Layout } from '../../contract/plan.ts';
import type { Answer } from '../../contract/wire.ts';
import type { SessionView } from '../../yard/command.ts';
import { cutCardsPage } from '../cards/page.ts';
import { drawn } from '../plan-drawings.ts';
import { type Asking, good, type Handler, type Outcome, refuse } from '../serve.ts';
import { pageAsk } from './boards.ts';
import { noJob } from './jobs.ts';
import { planOf } from './plans.ts';

const noSession = refuse('not-found', 'There is no such cutting session in this yard.');

async function sessionOf(
  call: Asking,
  sessionId: string,
): Promise<Outcome<{ readonly session: SessionView; readonly layouts: Layout[] }>> {
  const found = await call.ask('session', { sessionId });
  if (!found.ok) return found;
  if (!found.value) return noSession;
  const session = found.value;
  const plan = await planOf(call, session.planId);
  if (!plan.ok) return plan;
  return good({ session, layouts: plan.value.layouts.filter((layout) => session.boardIds.includes(layout.boardId)) });
}

async function sessionAnswer(call: Asking, sessionId: string): Promise<Outcome<Answer<'readSession'>>> {
  const found = await sessionOf(call, sessionId);
  if (!found.ok) return found;
  const layouts = await drawn(call, found.value.layouts);
  return layouts.ok ? good({ ...found.value.session, layouts: layouts.value }) : layouts;
}

const openSession: Handler<'openSession'> = async (call) => {
  const told = await call.tell({
    do: 'open-session',
    planId: call.path.id ?? '',
    boardIds: call.body.boardIds ?? null,
    ifVersion: call.version,
  });
  return told.ok ? sessionAnswer(call, told.value.sessionId ?? '') : told;
};

const listSessions: Handler<'listSessions'> = async (call) => {
  const { jobId, state } = call.query;
  const page = await call.ask('sessions', { jobId, state, page: pageAsk(call.query) });
  if (!page.ok) return page;
  return good({ items: [...(page.value?.items ?? [])], next: page.value?.next ?? null });
};

const readSession: Handler<'readSession'> = (call) => sessionAnswer(call, call.path.id ?? '');

const readCutCards: Handler<'readCutCards'> = async (call) => {
  const found = await sessionOf(call, call.path.id ?? '');
  if (!found.ok) return found;
  const { session, layouts } = found.value;
  const snapshot = await call.ask('snapshot', {
    jobIds: [session.jobId],
    boards: { which: 'named', ids: layouts.map((layout) => layout.boardId) },
  });
  if (!snapshot.ok) return snapshot;
  const job = snapshot.value?.jobs[0];
  if (!snapshot.value || !job) return noJob;
  return good(
    cutCardsPage({ session, layouts, boards: snapshot.value.boards, job, settings: snapshot.value.settings }),
  );
};

const reconcile: Handler<'reconcile'> = async (call) => {
  const sessionId = call.path.id ?? '';
  const { restAsPlanned, boards, allowExtra } = call.body;
  const told = await call.tell({ do: 'reconcile', sessionId, restAsPlanned, boards, allowExtra });
  if (!told.ok) return told;
  const found = await call.ask('session', { sessionId });
  if (!found.ok) return found;
  if (!found.value) return noSession;
  const { jobName: _, ...session } = found.value;
  return good({
    session,
    balances: [...(told.value.balances ?? [])],
    offcuts: [...(told.value.offcuts ?? [])],
    wantedAgain: [...(told.value.wantedAgain ?? [])],
    notes: [...(told.value.notes ?? [])],
    seq: told.value.seq,
  });
};

export const sessionHandlers = { openSession, listSessions, readSession, readCutCards, reconcile };
