/** The cut plan in front, its cutting session, and what the last reconciliation answered. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Alternative, Layout, Plan, PlanProgress } from '../../../worker/contract/plan.ts';
import type { ReconcileRequest } from '../../../worker/contract/session.ts';
import type { Answer, Body } from '../../../worker/contract/wire.ts';
import type { SheetHost } from '../../host/host.ts';
import { type CallInput, type Stop, Stopped, type YardApi } from '../api.ts';
import { count } from '../words/measure.ts';
import { keptHere, type Outbox } from './outbox.ts';
import type { BoardForm } from './reconcile-form.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export type SessionInFront = Answer<'readSession'>;
export type Reconciled = Answer<'reconcile'>;
export type Effort = Plan['effort'];

export interface CutsState {
  readonly plan: ReadonlySignal<Plan | null>;
  /** Plans of the same job that are held or begun beside the one in front, newest first. */
  readonly beside: ReadonlySignal<readonly Plan[]>;
  /** Open for the plan in front, or for the one at the saw that a draft in front goes on from. */
  readonly session: ReadonlySignal<SessionInFront | null>;
  readonly reconciled: ReadonlySignal<Reconciled | null>;
  /** What was typed at the boards of the session, by board; kept while other tabs are in front. */
  readonly forms: Signal<ReadonlyMap<string, BoardForm>>;
  readonly reading: Task;
  readonly planning: Task;
  readonly writing: Task;
  /** Putting a session on a sheet, and reading it back. */
  readonly sheeting: Task;
  /**
   * The plan that was brought in front, while it goes on; otherwise the one that asks for something now: one at the saw
   * before one held, a draft, or one that is done; the newest of its kind.
   */
  load(jobId: string): Promise<boolean>;
  /** Puts a plan from beside in front; it stays there until it is cut or dropped. */
  bring(one: Plan): Promise<boolean>;
  /** Puts a held plan in front and opens a session for it, whatever other plans are at the saw. */
  cutNow(one: Plan): Promise<boolean>;
  makePlan(jobId: string, effort: Effort): Promise<boolean>;
  /** The best so far of the search under way; null before anything was told. */
  readonly progress: ReadonlySignal<PlanProgress | null>;
  /** Ends the search and takes the best so far. */
  stop(): void;
  /** Plans to choose from; null before they were asked for. */
  readonly alternatives: ReadonlySignal<readonly Alternative[] | null>;
  compare(jobId: string): Promise<boolean>;
  /** Shows them no longer. */
  leaveAlternatives(): void;
  take(jobId: string, one: Alternative): Promise<boolean>;
  /** A new plan in place of the one in front, with the least change. */
  replan(): Promise<boolean>;
  reserve(how: 'whole' | 'runs'): Promise<boolean>;
  drop(): Promise<boolean>;
  openSession(): Promise<boolean>;
  showCards(): Promise<boolean>;
  reconcile(body: ReconcileRequest): Promise<boolean>;
  leaveReconciled(): void;
  /** Boards of the session that are not written down yet, here or in the yard. */
  openLayouts(session: SessionInFront): readonly Layout[];
}

const standingOrder: readonly Plan['state'][] = ['cutting', 'reserved', 'draft', 'done'];

export function makeCuts(api: YardApi, host: SheetHost, shell: Shell, outbox: Outbox): CutsState {
  const plan = signal<Plan | null>(null);
  const beside = signal<readonly Plan[]>([]);
  const alternatives = signal<readonly Alternative[] | null>(null);
  const progress = signal<PlanProgress | null>(null);
  let stopSearch = () => {};
  const session = signal<SessionInFront | null>(null);
  const reconciled = signal<Reconciled | null>(null);
  const forms = signal<ReadonlyMap<string, BoardForm>>(new Map());
  const reading = makeTask();
  const planning = makeTask();
  const writing = makeTask();
  const sheeting = makeTask();

  /** Counts readings and openings: a reading that a session was opened under must not close it. */
  let reads = 0;
  let broughtId: string | null = null;

  async function readPlan(id: string, stop: Stop) {
    return taken(await api.call('readPlan', { stop, path: { id } }), (answer) => {
      plan.value = answer;
    });
  }

  async function readBeside(ids: readonly string[], mine: number, stop: Stop) {
    const found = await Promise.all(ids.map((id) => api.call('readPlan', { stop, path: { id } })));
    const plans: Plan[] = [];
    for (const one of found) {
      if (!one.ok) return taken(one, () => {});
      plans.push(one.answer);
    }
    if (mine === reads) beside.value = plans;
    return null;
  }

  async function readOpenSession(jobId: string, planId: string, stop: Stop) {
    const found = await api.call('listSessions', { stop, query: { jobId, state: 'open' } });
    if (!found.ok) return taken(found, () => {});
    const mine = found.answer.items.find((item) => item.planId === planId);
    if (mine === undefined) {
      session.value = null;
      return null;
    }
    return taken(await api.call('readSession', { stop, path: { id: mine.id } }), (answer) => {
      session.value = answer;
    });
  }

  /** Follows the search; ended, it takes the best that was told. Who stops waiting ends it too, and takes nothing. */
  async function searched(input: CallInput<'planJob'>, stop: Stop) {
    const end = new AbortController();
    stopSearch = () => end.abort();
    stop.signal.addEventListener('abort', stopSearch);
    const tell = (now: PlanProgress) => {
      if (!stop.signal.aborted) progress.value = now;
    };
    const result = await api.followPlan(input, tell, end.signal);
    const best = progress.value?.best;
    progress.value = null;
    if (stop.signal.aborted) throw new Stopped(null);
    return result ?? api.call('planJob', { ...input, stop, body: { ...input.body, ...(best ? { taken: best } : {}) } });
  }

  /** The yard never gives away what a draft has for less, as long as the aim stays. */
  const sameAim = (now: Plan | null) => (now === null || now.aim === 'least-cost' ? {} : { aim: now.aim });

  function planWith(jobId: string, body: Body<'planJob'>) {
    return planning.run('Planning the cuts', async (stop) =>
      taken(await searched({ path: { id: jobId }, body }, stop), (answer) => {
        plan.value = answer;
        alternatives.value = null;
        // The boards at the saw stay there while a plan that goes on from theirs waits to be held.
        if (session.value?.planId !== answer.continues) session.value = null;
        reconciled.value = null;
        shell.say(`The plan places ${answer.placedCount} of ${count(answer.wantedCount, 'blank')}.`);
      }),
    );
  }

  const openLayouts = (of: SessionInFront) => {
    const waits = outbox.aboutWaiting('reconcile', of.id);
    return of.layouts.filter((one) => !of.doneBoardIds.includes(one.boardId) && !waits.has(one.boardId));
  };

  function load(jobId: string) {
    if (plan.value !== null && plan.value.jobId !== jobId) {
      plan.value = null;
      beside.value = [];
      alternatives.value = null;
      session.value = null;
      reconciled.value = null;
    }
    reads += 1;
    const mine = reads;
    return reading.run('Reading the plan', async (stop) => {
      const heads: Answer<'listPlans'>['items'][number][] = [];
      for (let after: string | null | undefined; after !== null; ) {
        const page = await api.call('listPlans', {
          stop,
          path: { id: jobId },
          query: after === undefined ? {} : { after },
        });
        if (!page.ok) return taken(page, () => {});
        heads.push(...page.answer.items);
        after = page.answer.next;
      }
      const standing = heads
        .filter((item) => item.state !== 'dropped')
        .toSorted((a, b) => standingOrder.indexOf(a.state) - standingOrder.indexOf(b.state));
      const going = standing.filter((item) => item.state === 'cutting' || item.state === 'reserved');
      const first = going.find((item) => item.id === broughtId) ?? standing.at(0);
      // A draft that would take the place of a plan shows before it.
      const newest = standing.find((item) => item.state === 'draft' && item.continues === first?.id) ?? first;
      if (newest === undefined) {
        plan.value = null;
        beside.value = [];
        session.value = null;
        return null;
      }
      const others = going.filter((item) => item !== newest && item !== first).map((item) => item.id);
      const [found, ...read] = await Promise.all([
        api.call('readPlan', { stop, path: { id: newest.id } }),
        readBeside(others, mine, stop),
        first?.state === 'cutting' ? readOpenSession(jobId, first.id, stop) : null,
      ]);
      if (first?.state !== 'cutting' && mine === reads) session.value = null;
      // Last, so that a plan at the saw never shows as one without a session.
      const trouble = await taken(found, (answer) => {
        plan.value = answer;
      });
      if (trouble !== null) return trouble;
      return read.find((one) => one !== null) ?? null;
    });
  }

  /** Stays asked for where another reading takes the place of this one: that brings it too. */
  function bring(one: Plan) {
    broughtId = one.id;
    return load(one.jobId);
  }

  async function openSession(of: Plan) {
    const done = await writing.run('Opening the session', async (stop) => {
      const result = await api.call('openSession', { stop, path: { id: of.id }, body: {} });
      if (!result.ok) return taken(result, () => {});
      reads += 1;
      broughtId = of.id;
      const trouble = await readPlan(of.id, stop);
      session.value = result.answer;
      shell.say('The cutting session is open.');
      return trouble;
    });
    if (done) shell.changed();
    return done;
  }

  return {
    openLayouts,
    plan,
    beside,
    alternatives,
    progress,
    stop: () => stopSearch(),
    session,
    reconciled,
    forms,
    reading,
    planning,
    writing,
    sheeting,
    load,
    bring,
    cutNow: openSession,
    makePlan(jobId, effort) {
      const draft = plan.value?.state === 'draft' ? plan.value : null;
      const continues = draft?.continues ?? null;
      return planWith(jobId, { effort, ...sameAim(draft), ...(continues === null ? {} : { continues }) });
    },
    compare: (jobId) =>
      planning.run('Looking for plans', async (stop) =>
        taken(await api.call('planAlternatives', { stop, path: { id: jobId }, body: {} }), (answer) => {
          alternatives.value = answer.alternatives;
          shell.say(`${count(answer.alternatives.length, 'plan')} to choose from.`);
        }),
      ),
    leaveAlternatives() {
      alternatives.value = null;
    },
    take: (jobId, { aim, effort, seed }) => planWith(jobId, { aim, effort, seed }),
    async replan() {
      const now = plan.value;
      return now !== null && planWith(now.jobId, { effort: now.effort, ...sameAim(now), continues: now.id });
    },
    async reserve(how) {
      const now = plan.value;
      // A plan that is about to take its place is what will be held.
      if (now === null || planning.busy.value) return false;
      const done = await writing.run('Holding the boards', async (stop) => {
        const result = await api.call('reservePlan', { stop, path: { id: now.id }, body: { how } });
        if (!result.ok) return taken(result, () => {});
        if (session.value?.planId !== now.id) session.value = null;
        shell.say(`Held for this plan: ${count(result.answer.reservations.length, 'board')}.`);
        return readPlan(now.id, stop);
      });
      if (done) shell.changed();
      return done;
    },
    async drop() {
      const now = plan.value;
      if (now === null) return false;
      const done = await writing.run('Dropping the plan', async (stop) =>
        taken(await api.call('dropPlan', { stop, path: { id: now.id } }), () => {
          plan.value = null;
          session.value = null;
          shell.say('The plan is dropped; its boards are free again.');
        }),
      );
      if (done) shell.changed();
      return done;
    },
    openSession: async () => plan.value !== null && openSession(plan.value),
    showCards: () =>
      writing.run('Making the cut cards', async (stop) => {
        const now = session.value;
        if (now === null) return { kind: 'told', help: 'Open a cutting session first.' };
        return taken(await api.call('readCutCards', { stop, path: { id: now.id } }), (html) =>
          host.showPage(`Cut cards, ${now.jobName}`, html),
        );
      }),
    async reconcile(body) {
      const now = session.value;
      if (now === null) return false;
      const done = await writing.run('Writing down what came out', async (stop) => {
        const open = openLayouts(now);
        const about = body.restAsPlanned ? open.map((one) => one.boardId) : body.boards.map((one) => one.boardId);
        const tags = open.filter((one) => about.includes(one.boardId)).map((one) => one.tag);
        const what = `${now.jobName}, what came out of ${tags.join(', ')}`;
        const result = await outbox.submit({ route: 'reconcile', pathId: now.id, body, what, about }, stop);
        if ('waits' in result) {
          forms.value = new Map([...forms.value].filter(([boardId]) => !about.includes(boardId)));
          shell.say(keptHere);
          return null;
        }
        if (!result.ok) return taken(result, () => {});
        reconciled.value = result.answer;
        const done = new Set(result.answer.session.doneBoardIds);
        forms.value = new Map([...forms.value].filter(([boardId]) => !done.has(boardId)));
        session.value = result.answer.session.state === 'closed' ? null : { ...now, ...result.answer.session };
        shell.say(`${count(result.answer.balances.length, 'board')} written down; the wood balances.`);
        return readPlan(now.planId, stop);
      });
      if (done) shell.changed();
      return done;
    },
    leaveReconciled() {
      reconciled.value = null;
    },
  };
}
