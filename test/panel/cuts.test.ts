/** The Cuts tab behind its screen: plans compared and taken, a search followed and stopped, a plan continued. */
import { describe, expect, test } from 'vitest';
import { boardWithPieces } from '../../addon/panel/screens/beside.tsx';
import { bestWords, isPlanInFront } from '../../addon/panel/screens/cuts.tsx';
import { makeCuts } from '../../addon/panel/state/cuts.ts';
import { deviceTexts } from '../../addon/panel/state/device-texts.ts';
import { makeOutbox } from '../../addon/panel/state/outbox.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { fakeHost } from './fake-host.ts';
import { type FakeYard, fakeYard, sampleSession } from './fake-yard.ts';
import { hallTable, planId, sampleLayout, samplePlan } from './sample.ts';

const at = () => Date.UTC(2026, 10, 25, 10);
function open(yard: FakeYard) {
  const host = fakeHost([]);
  const texts = deviceTexts(host, 'test');
  const outbox = makeOutbox({ api: yard, texts, nowMs: at, newId: () => 'intent-1', went: () => {} });
  return makeCuts(yard, host, makeShell(at), outbox);
}
const planned = (yard: FakeYard) =>
  yard.calls.filter(({ name }) => name === 'planJob').map(({ input }) => (input as { body: unknown }).body);

describe('plans to choose from', () => {
  test('three are shown, none is kept; the one that is picked is asked for as it was found', async () => {
    const yard = fakeYard();
    const cuts = open(yard);
    expect(await cuts.compare(hallTable)).toBe(true);
    expect(cuts.alternatives.value?.map(({ aim }) => aim)).toEqual(['least-cost', 'fewest-boards', 'fewest-cuts']);
    expect(cuts.plan.value).toBeNull();
    const [, boards] = cuts.alternatives.value ?? [];
    if (!boards) throw new Error('no second plan');
    expect(await cuts.take(hallTable, boards)).toBe(true);
    expect(planned(yard)).toEqual([{ aim: 'fewest-boards', effort: 'quick', seed: 1 }]);
    expect(cuts.plan.value?.id).toBe(planId);
    expect(cuts.alternatives.value).toBeNull();
  });
});

describe('plans compared beside a draft', () => {
  test('the draft stays in front until another is taken, and may be kept', async () => {
    const yard = fakeYard();
    const cuts = open(yard);
    await cuts.makePlan(hallTable, 'normal');
    expect(await cuts.compare(hallTable)).toBe(true);
    expect([cuts.plan.value?.id, cuts.alternatives.value?.length]).toEqual([planId, 3]);
    cuts.leaveAlternatives();
    expect([cuts.plan.value?.id, cuts.alternatives.value]).toEqual([planId, null]);
    await cuts.compare(hallTable);
    const [, , fewest] = cuts.alternatives.value ?? [];
    if (!fewest) throw new Error('no third plan');
    expect(await cuts.take(hallTable, fewest)).toBe(true);
    expect(planned(yard)).toEqual([{ effort: 'normal' }, { aim: 'fewest-cuts', effort: 'quick', seed: 1 }]);
    expect(cuts.alternatives.value).toBeNull();
  });

  test('nothing is held while another plan is on its way to take the place of the one in front', async () => {
    const yard = fakeYard();
    const cuts = open(yard);
    await cuts.makePlan(hallTable, 'normal');
    await cuts.compare(hallTable);
    const [, fewest] = cuts.alternatives.value ?? [];
    if (!fewest) throw new Error('no second plan');
    const taking = cuts.take(hallTable, fewest);
    expect(await cuts.reserve('whole')).toBe(false);
    expect(yard.calls.some(({ name }) => name === 'reservePlan')).toBe(false);
    expect(await taking).toBe(true);
    expect(await cuts.reserve('whole')).toBe(true);
  });

  test('a plan that is best at two things is called by both', () => {
    expect(bestWords({ bestAt: ['least-cost', 'fewest-boards'] }, true)).toBe('Least cost of wood, fewest boards');
    expect(bestWords({ bestAt: ['least-cost', 'fewest-boards'] }, false)).toBe('Least wood, fewest boards');
    expect(bestWords({ bestAt: ['fewest-cuts'] }, true)).toBe('Fewest cuts and settings together');
  });

  test('the one that the draft is already is known by its boards, cuts and pieces', () => {
    const { aim, effort, seed, placedCount, wantedCount, yieldPercent, cutCount, settingCount } = samplePlan;
    const { stockUsedM3, stockBoundM3, gapPercent } = samplePlan;
    const figures = { placedCount, wantedCount, yieldPercent, cutCount, settingCount };
    const tags = samplePlan.layouts.map((layout) => layout.tag);
    const same = {
      ...{ aim, effort, seed, ...figures, stockUsedM3, stockBoundM3, gapPercent },
      ...{
        boardCount: tags.length,
        tags,
        cost: { minor: 0, unpricedCount: 0, shopPricedCount: 0 },
        bestAt: [aim],
        trades: '',
      },
    };
    expect(isPlanInFront(same, samplePlan)).toBe(true);
    expect(isPlanInFront(same, null)).toBe(false);
    expect(isPlanInFront({ ...same, cutCount: cutCount + 1 }, samplePlan)).toBe(false);
    expect(isPlanInFront({ ...same, settingCount: settingCount + 1 }, samplePlan)).toBe(false);
    expect(isPlanInFront({ ...same, placedCount: placedCount - 1 }, samplePlan)).toBe(false);
    expect(isPlanInFront({ ...same, tags: ['WO-99', ...tags.slice(1)] }, samplePlan)).toBe(false);
    expect(isPlanInFront({ ...same, tags: [...tags, 'WO-99'] }, samplePlan)).toBe(false);
  });
});

describe('a search under way', () => {
  test('tells its best and its bound, which near each other, and ends in the plan', async () => {
    const yard = fakeYard({}, 5);
    const cuts = open(yard);
    const seen: [number, number][] = [];
    const done = cuts.makePlan(hallTable, 'normal');
    const stop = cuts.progress.subscribe((now) => {
      if (now) seen.push([now.stockUsedM3, now.stockBoundM3]);
    });
    expect(await done).toBe(true);
    stop();
    expect(seen.length).toBe(4);
    for (const [at, [used, bound]] of seen.entries()) {
      expect(bound).toBeLessThan(used);
      expect(used).toBeLessThanOrEqual(seen[at - 1]?.[0] ?? used);
      expect(bound).toBeGreaterThanOrEqual(seen[at - 1]?.[1] ?? bound);
    }
    expect(cuts.progress.value).toBeNull();
    expect(planned(yard)).toEqual([{ effort: 'normal' }]);
  });

  test('stopped, the best so far is sent back and becomes the plan', async () => {
    const yard = fakeYard({}, 5);
    const cuts = open(yard);
    const done = cuts.makePlan(hallTable, 'long');
    const best = await new Promise((resolve) => {
      const stop = cuts.progress.subscribe((now) => {
        if (!now) return;
        resolve(now.best);
        queueMicrotask(() => stop());
        cuts.stop();
      });
    });
    expect(await done).toBe(true);
    expect(planned(yard)).toEqual([{ effort: 'long', taken: best }]);
    expect(cuts.plan.value?.id).toBe(planId);
  });
});

describe('a plan continued', () => {
  test('names the plan in front, and the draft that would replace it shows before it', async () => {
    const draft = { ...samplePlan, id: 'pl_0000000plan2', continues: planId, changes: ['Stays as it was: WO-14.'] };
    const heads = [
      { ...samplePlan, state: 'reserved' as const, boardCount: 2, unplacedCount: 1 },
      { ...draft, boardCount: 2, unplacedCount: 1 },
    ].map(({ layouts: _l, unplaced: _u, boardVersions: _b, notes: _n, ...head }) => head);
    const yard = fakeYard({
      planJob: () => draft,
      listPlans: () => ({ items: heads, next: null }),
      readPlan: ({ path }) => (path?.id === draft.id ? draft : { ...samplePlan, state: 'reserved' }),
    });
    const cuts = open(yard);
    expect(await cuts.replan()).toBe(false);
    await cuts.load(hallTable);
    expect(cuts.plan.value?.id).toBe(draft.id);
    await cuts.replan();
    expect(planned(yard)).toEqual([{ effort: 'normal', continues: draft.id }]);
    // Looked at longer, it still takes the place of the plan that is held.
    await cuts.makePlan(hallTable, 'long');
    expect(planned(yard).at(-1)).toEqual({ effort: 'long', continues: planId });
  });
});

describe('a draft that goes on from a plan at the saw', () => {
  const draft = { ...samplePlan, id: 'pl_0000000plan2', continues: planId };
  const atTheSaw = { ...samplePlan, state: 'cutting' as const };
  const headOf = ({ layouts, unplaced, boardVersions: _b, notes: _n, ...head }: typeof samplePlan) => ({
    ...head,
    boardCount: layouts.length,
    unplacedCount: unplaced.length,
  });
  const yardWithDraft = () => {
    const plans: (typeof samplePlan)[] = [atTheSaw];
    const yard = fakeYard({
      planJob: () => {
        plans.unshift(draft);
        return draft;
      },
      listPlans: () => ({ items: plans.map(headOf), next: null }),
      readPlan: ({ path }) => (path?.id === draft.id ? draft : atTheSaw),
      listSessions: () => ({ items: [sampleSession], next: null }),
      readSession: () => sampleSession,
    });
    return { yard, cuts: open(yard) };
  };

  test('leaves the open session at hand: its cards print, and what came out is written down', async () => {
    const { yard, cuts } = yardWithDraft();
    await cuts.load(hallTable);
    await cuts.replan();
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([draft.id, sampleSession.id]);
    // So it is, too, for who opens the panel anew.
    await cuts.load(hallTable);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([draft.id, sampleSession.id]);
    await cuts.showCards();
    expect(yard.calls.at(-1)).toEqual({ name: 'readCutCards', input: { path: { id: sampleSession.id } } });
  });

  test('is, once held, never shown with the session of the other plan', async () => {
    const { cuts } = yardWithDraft();
    await cuts.load(hallTable);
    await cuts.replan();
    expect(await cuts.reserve('whole')).toBe(true);
    expect(cuts.session.value).toBeNull();
  });
});

describe('a plan that is held beside one at the saw', () => {
  const heldId = 'pl_0000000plan2';

  /** The trade's way: boards at the saw, a ply fails, it is planned again with the least change, and its board is held. */
  function yardWithTwo() {
    const atTheSaw = { ...samplePlan, state: 'cutting' as const };
    const ply = { ...sampleLayout.pieces[0]!, no: 1, element: 2, what: 'ply' as const, attempt: 2 };
    let again = {
      ...{ ...samplePlan, id: heldId, continues: planId, unplaced: [], state: 'reserved' as 'reserved' | 'cutting' },
      layouts: [{ ...sampleLayout, boardId: 'bd_000000000104', tag: 'JB-104', pieces: [ply] }],
    };
    const sessions = () => [
      ...(again.state === 'cutting' ? [{ ...sampleSession, id: 'cs_0000000sess2', planId: heldId }] : []),
      sampleSession,
    ];
    const headOf = (plan: typeof samplePlan) => {
      const { layouts, unplaced, boardVersions: _b, notes: _n, ...head } = plan;
      return { ...head, boardCount: layouts.length, unplacedCount: unplaced.length };
    };
    return fakeYard({
      listPlans: () => ({ items: [headOf(again), headOf(atTheSaw)], next: null }),
      readPlan: ({ path }) => (path?.id === heldId ? again : atTheSaw),
      listSessions: () => ({ items: sessions(), next: null }),
      readSession: ({ path }) => sessions().find(({ id }) => id === path?.id) ?? sampleSession,
      openSession: () => {
        again = { ...again, state: 'cutting' };
        return sessions()[0] ?? sampleSession;
      },
    });
  }

  test('stands beside the session with its board and its pieces', async () => {
    const cuts = open(yardWithTwo());
    await cuts.load(hallTable);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([planId, sampleSession.id]);
    expect(cuts.beside.value.map(({ id }) => id)).toEqual([heldId]);
    expect(cuts.beside.value[0]?.layouts.map(boardWithPieces)).toEqual(['JB-104 (Long rail 1, ply 3 again)']);
  });

  test('is cut now in a session of its own, and the earlier session is one press away', async () => {
    const yard = yardWithTwo();
    const cuts = open(yard);
    await cuts.load(hallTable);
    expect(await cuts.cutNow(cuts.beside.value[0]!)).toBe(true);
    expect(yard.calls.filter(({ name }) => name === 'openSession').map(({ input }) => input)).toEqual([
      { path: { id: heldId }, body: {} },
    ]);
    await cuts.load(hallTable);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([heldId, 'cs_0000000sess2']);
    expect(cuts.beside.value.map(({ id }) => id)).toEqual([planId]);
    await cuts.bring(cuts.beside.value[0]!);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([planId, sampleSession.id]);
    expect(cuts.beside.value.map(({ id }) => id)).toEqual([heldId]);
  });

  test('is cut now, and brought, though another reading comes between', async () => {
    const cuts = open(yardWithTwo());
    await cuts.load(hallTable);
    const [held] = cuts.beside.value;
    const [isOpen] = await Promise.all([cuts.cutNow(held!), cuts.load(hallTable)]);
    expect(isOpen).toBe(true);
    await cuts.load(hallTable);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([heldId, 'cs_0000000sess2']);
    await Promise.all([cuts.bring(cuts.beside.value[0]!), cuts.load(hallTable)]);
    expect([cuts.plan.value?.id, cuts.session.value?.id]).toEqual([planId, sampleSession.id]);
  });

  test('of a board with many pieces the first are named', () => {
    const pieces = [1, 2, 3, 4, 5].map((no) => ({ ...sampleLayout.pieces[0]!, no }));
    expect(boardWithPieces({ ...sampleLayout, pieces })).toBe(
      'WO-14 (Long rail 1; Long rail 2; Long rail 3 and 2 more)',
    );
    expect(boardWithPieces({ ...sampleLayout, pieces: pieces.slice(0, 4) })).toMatch(/Long rail 4\)$/);
  });
});
