/** Routes of cut plans and reservations. The planning itself runs here, on a snapshot; the yard keeps the plan only if the boards are still as planned. */
import type { Layout, Plan, PlanProgress } from '../../contract/plan.ts';
import type { Answer } from '../../contract/wire.ts';
import { type CuttingAnswer, type CuttingInput, type PlanStep, planSteps } from '../../planner/shop.ts';
import { alternativesFor } from '../../planner/shop-alternatives.ts';
import { type ReplanInput, replanSteps } from '../../planner/shop-replan.ts';
import type { BoardsWanted } from '../../yard/command.ts';
import { drawnPlan, undrawn } from '../plan-drawings.ts';
import { type Asking, type Call, good, type Handler, type Outcome, refuse } from '../serve.ts';
import { worthIn } from '../worth.ts';
import { pageAsk } from './boards.ts';
import { noJob } from './jobs.ts';

export const noPlan = refuse('not-found', 'There is no such plan in this yard.');

export async function planOf(call: Asking, planId: string): Promise<Outcome<Plan>> {
  const found = await call.ask('plan', { planId });
  if (!found.ok) return found;
  return found.value ? good(found.value) : noPlan;
}

async function drawnPlanOf(call: Asking, planId: string): Promise<Outcome<Plan>> {
  const plan = await planOf(call, planId);
  return plan.ok ? drawnPlan(call, plan.value) : plan;
}

type PlanSummary = Answer<'listPlans'>['items'][number];

function summaryOf(plan: Plan): PlanSummary {
  const { layouts, unplaced, boardVersions: _versions, notes: _notes, ...facts } = plan;
  return { ...facts, boardCount: layouts.length, unplacedCount: unplaced.reduce((sum, row) => sum + row.count, 0) };
}

/** Lines at most of one plan under way. */
const LINES_MOST = 60;
/** Of them those that look at the best so far anew: laying it out and proving its bound takes longer than many steps. */
const LOOKS_MOST = 8;

/** Runs the steps to their end, telling the best so far now and then. */
async function followed(
  steps: Generator<PlanStep, CuttingAnswer>,
  progress: Call<'planJob'>['progress'],
): Promise<CuttingAnswer> {
  let told = -1;
  let looked = -1;
  let seen: PlanProgress | null = null;
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    const { share, look: lookAgain } = step.value;
    const line = Math.floor(share * LINES_MOST);
    if (!progress || line <= told) continue;
    told = line;
    const look = Math.floor(share * LOOKS_MOST);
    if (seen === null || look > looked) seen = lookAgain();
    looked = look;
    await progress({ ...seen, share });
  }
}

/** The plan that is continued, and which of its boards are at the saw. */
async function earlierPlan(
  call: Pick<Call<'planJob'>, 'ask'>,
  jobId: string,
  planId: string,
): Promise<Outcome<Pick<ReplanInput, 'plan' | 'atTheSaw'>>> {
  const plan = await planOf(call, planId);
  if (!plan.ok) return plan;
  // A draft holds nothing: what it would take the place of is what is continued.
  if (plan.value.state === 'draft' && plan.value.continues !== null)
    return earlierPlan(call, jobId, plan.value.continues);
  if (plan.value.jobId !== jobId) return refuse('not-found', 'The plan to continue belongs to another job.');
  const sessions = await call.ask('sessions', { jobId, state: 'open', page: { after: null, limit: 200 } });
  if (!sessions.ok) return sessions;
  const open = (sessions.value?.items ?? []).filter((session) => session.planId === planId);
  const boardIds = open.flatMap((session) => session.boardIds.filter((id) => !session.doneBoardIds.includes(id)));
  return good({ plan: plan.value, atTheSaw: new Set(boardIds) });
}

/** The draft in front of whoever asks, or null: the next plan for its aim is not to be worse than it. */
async function draftInFront(
  call: Pick<Call<'planJob'>, 'ask'>,
  jobId: string,
  continues: string | null,
): Promise<Outcome<Plan | null>> {
  // Another draft is dropped when a plan is kept, so a draft is the newest of its job's plans.
  const newest = await call.ask('plans', { jobId, page: { after: null, limit: 1 } });
  if (!newest.ok) return newest;
  const plan = newest.value?.items[0];
  return good(plan?.state === 'draft' && plan.continues === continues ? plan : null);
}

const layoutsFor = (draft: Plan | null, aim: Plan['aim']): readonly Layout[] =>
  draft?.aim === aim ? draft.layouts : [];

const boardsFor = (boardIds: readonly string[] | undefined, alsoIds: readonly string[]): BoardsWanted =>
  boardIds ? { which: 'named', ids: [...boardIds, ...alsoIds] } : { which: 'of-jobs', alsoIds };

const planJob: Handler<'planJob'> = async (call) => {
  const jobId = call.path.id ?? '';
  const { effort, seed, aim, partKeys, boardIds, continues, taken } = call.body;
  const before = continues === undefined ? null : await earlierPlan(call, jobId, continues);
  if (before && !before.ok) return before;
  const draft = await draftInFront(call, jobId, before?.value.plan.id ?? null);
  if (!draft.ok) return draft;
  const known = layoutsFor(draft.value, aim);
  const cutFrom = [...(before?.value.plan.layouts ?? []), ...known].map((layout) => layout.boardId);
  const snapshot = await call.ask('snapshot', { jobIds: [jobId], boards: boardsFor(boardIds, cutFrom) });
  if (!snapshot.ok) return snapshot;
  const job = snapshot.value?.jobs[0];
  if (!snapshot.value || !job) return noJob;
  const worth = await worthIn(call);
  if (!worth.ok) return worth;
  const input: CuttingInput = {
    job,
    boards: snapshot.value.boards,
    settings: snapshot.value.settings,
    effort,
    seed,
    aim,
    worth: worth.value,
    known,
    ...(partKeys ? { partKeys } : {}),
    ...(boardIds ? { boardIds } : {}),
    ...(taken ? { taken } : {}),
  };
  const steps = before ? replanSteps({ ...input, ...before.value }) : planSteps(input);
  const planned = await followed(steps, call.progress);
  if (!planned.ok) return { ok: false, refusal: planned.refusal };
  const told = await call.tell({ do: 'keep-plan', plan: undrawn(planned.plan) });
  return told.ok ? drawnPlanOf(call, told.value.planId ?? '') : told;
};

const planAlternatives: Handler<'planAlternatives'> = async (call) => {
  const { effort, seed, partKeys, boardIds } = call.body;
  const jobId = call.path.id ?? '';
  const draft = await draftInFront(call, jobId, null);
  if (!draft.ok) return draft;
  const cutFrom = (draft.value?.layouts ?? []).map((layout) => layout.boardId);
  const snapshot = await call.ask('snapshot', { jobIds: [jobId], boards: boardsFor(boardIds, cutFrom) });
  if (!snapshot.ok) return snapshot;
  const job = snapshot.value?.jobs[0];
  if (!snapshot.value || !job) return noJob;
  const worth = await worthIn(call);
  if (!worth.ok) return worth;
  const { boards, settings } = snapshot.value;
  const only = { ...(partKeys ? { partKeys } : {}), ...(boardIds ? { boardIds } : {}) };
  const knownFor = (aim: Plan['aim']) => layoutsFor(draft.value, aim);
  const found = alternativesFor({ job, boards, settings, effort, seed, worth: worth.value, ...only }, knownFor);
  return found.ok ? good({ alternatives: found.alternatives }) : { ok: false, refusal: found.refusal };
};

const listPlans: Handler<'listPlans'> = async (call) => {
  const jobId = call.path.id ?? '';
  const page = await call.ask('plans', { jobId, page: pageAsk(call.query) });
  if (!page.ok) return page;
  const items = (page.value?.items ?? []).map(summaryOf);
  if (items.length > 0) return good({ items, next: page.value?.next ?? null });
  // A job without plans, or no job.
  const job = await call.ask('job', { jobId });
  return job.ok && !job.value ? noJob : good({ items, next: null });
};

const readPlan: Handler<'readPlan'> = (call) => drawnPlanOf(call, call.path.id ?? '');

const dropPlan: Handler<'dropPlan'> = async (call) => {
  const planId = call.path.id ?? '';
  const told = await call.tell({ do: 'drop-plan', planId, ifVersion: call.version });
  if (!told.ok) return told;
  const plan = await planOf(call, planId);
  return plan.ok ? good(summaryOf(plan.value)) : plan;
};

async function reservationsOf(call: Asking, ids: readonly string[]) {
  const found = await call.ask('reservations-by-id', { ids });
  if (!found.ok) return found;
  return good([...(found.value ?? [])]);
}

const reservePlan: Handler<'reservePlan'> = async (call) => {
  const planId = call.path.id ?? '';
  const told = await call.tell({ do: 'reserve-plan', planId, how: call.body.how, ifVersion: call.version });
  if (!told.ok) return told;
  const plan = await planOf(call, planId);
  if (!plan.ok) return plan;
  const reservations = await reservationsOf(call, told.value.reservationIds ?? []);
  return reservations.ok ? good({ plan: summaryOf(plan.value), reservations: reservations.value }) : reservations;
};

const reserve: Handler<'reserve'> = async (call) => {
  const told = await call.tell({ do: 'reserve', jobId: call.body.jobId, boards: call.body.boards });
  if (!told.ok) return told;
  const reservations = await reservationsOf(call, told.value.reservationIds ?? []);
  return reservations.ok ? good({ reservations: reservations.value, seq: told.value.seq }) : reservations;
};

const listReservations: Handler<'listReservations'> = async (call) => {
  const { jobId, boardId } = call.query;
  const page = await call.ask('reservations', { jobId, boardId, page: pageAsk(call.query) });
  if (!page.ok) return page;
  return good({ items: [...(page.value?.items ?? [])], next: page.value?.next ?? null });
};

const release: Handler<'release'> = async (call) => {
  const told = await call.tell({ do: 'release', ids: call.body.ids });
  return told.ok ? good({ released: [...(told.value.reservationIds ?? call.body.ids)], seq: told.value.seq }) : told;
};

export const planHandlers = {
  planJob,
  planAlternatives,
  listPlans,
  readPlan,
  dropPlan,
  reservePlan,
  reserve,
  listReservations,
  release,
};
