/**
 * Any history, on the runtime itself: bursts of writes that were decided on the same state and reach the yard in any order,
 * writes sent twice, and the runtime killed while they are under way. After each step every movement is followed on a copy
 * and checked; at intervals the doctor makes its round. HEARTSIDE_MODEL_OPS says how many writes (20,000 for the full run);
 * a failure prints its seed, and HEARTSIDE_MODEL_SEED runs it again.
 */
import { setTimeout as pause } from 'node:timers/promises';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { CommandAnswer } from '../../worker/yard/command.ts';
import { RandomHistory, randomFrom } from '../yard/random-history.ts';
import { FarYard } from './far-yard.ts';
import { RawWorkerd } from './raw-workerd.ts';
import { Twin } from './twin.ts';

const OPS = Number(process.env.HEARTSIDE_MODEL_OPS ?? 2_500);
const SEED = Number(process.env.HEARTSIDE_MODEL_SEED ?? 20_261_125);
const STEPS_A_RUN = 150;
const CHECK_UP_EVERY = 50;

let runtime: RawWorkerd;
const total = { writes: 0, done: 0, refused: 0, replayed: 0, kills: 0, inFlight: 0, checkUps: 0 };

beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
});
afterAll(() => runtime.end());

/** What the copy knows. */
interface Model {
  readonly twin: Twin;
  readonly far: FarYard;
  steps: number;
}
type Write = Parameters<FarYard['sendAll']>[0][number];

/** Writes by hands that all looked at the same state; some are sent again under their key, anywhere in the burst. */
function burstOf({ twin, far, steps }: Model, seed: number, count: number): readonly Write[] {
  const random = randomFrom(seed);
  const writes: Write[] = [];
  for (let no = 0; no < count; no++) {
    const history = new RandomHistory(twin.shop, seed + no, steps * 1_000 + no * 50);
    writes.push({ command: history.next(), key: far.newKey() });
  }
  const again = writes.filter(() => random() < 0.2);
  return [...writes, ...again].sort(() => random() - 0.5);
}

/** One effect and one answer a key, and each answer tells of a movement of its kind that is there. */
async function expectAnswered(
  { twin }: Model,
  writes: readonly Write[],
  answers: readonly CommandAnswer[],
  fresh: number,
) {
  const firsts = new Map<string, CommandAnswer>();
  for (const [at, { key, command }] of writes.entries()) {
    const answer = answers[at];
    if (!answer) throw new Error('a write has no answer');
    const first = firsts.get(key);
    if (first) {
      expect({ ...answer, replayed: null }).toEqual({ ...first, replayed: null });
      total.replayed += 1;
      continue;
    }
    firsts.set(key, answer);
    total.writes += 1;
    if (answer.ok) {
      total.done += 1;
      expect(twin.shop.state().movement(answer.told.seq), command.do).not.toBeNull();
    } else total.refused += 1;
  }
  expect([...firsts.values()].filter((answer) => answer.ok)).toHaveLength(fresh);
}

class Burst implements fc.AsyncCommand<Model, RawWorkerd> {
  readonly seed: number;
  readonly count: number;
  readonly killed: number | null;

  /** killed: the runtime is killed after so many milliseconds, and whatever nobody answered is sent again. */
  constructor(seed: number, count: number, killed: number | null) {
    this.seed = seed;
    this.count = count;
    this.killed = killed;
  }

  check(): boolean {
    return true;
  }

  async run(model: Model, real: RawWorkerd): Promise<void> {
    const { twin, far } = model;
    model.steps += 1;
    if (this.seed % 7 === 0) {
      twin.shop.atMs += 86_400_000;
      twin.shop.today = new Date(twin.shop.atMs).toISOString().slice(0, 10);
    }
    const writes = burstOf(model, this.seed, this.count);
    const at = { atMs: twin.shop.atMs, today: twin.shop.today };
    let answers: readonly CommandAnswer[] | null;
    if (this.killed === null) answers = await far.sendAll(writes, at);
    else {
      const under = far.sendAll(writes, at).catch(() => null);
      await pause(this.killed);
      await real.kill();
      answers = await under;
      await real.start();
      total.kills += 1;
      if (answers === null) {
        total.inFlight += writes.length;
        answers = await far.sendAll(writes, at);
      }
    }
    const fresh = await twin.follow();
    await expectAnswered(model, writes, answers, fresh.length);
    if (model.steps % CHECK_UP_EVERY === 0) await expectSound(model);
  }

  toString(): string {
    return `burst of ${this.count} from ${this.seed}${this.killed === null ? '' : `, killed after ${this.killed} ms`}`;
  }
}

async function expectSound({ far, twin }: Model): Promise<void> {
  total.checkUps += 1;
  expect(await far.checkUp()).toEqual([]);
  expect((await far.ask('yard-facts', {})).seq).toBe(twin.shop.seq());
}

const seeds = fc.nat(0x7fff_ffff);
const bursts = [
  fc.tuple(seeds, fc.integer({ min: 1, max: 8 })).map(([seed, count]) => new Burst(seed, count, null)),
  fc.tuple(seeds, fc.integer({ min: 1, max: 8 })).map(([seed, count]) => new Burst(seed, count, null)),
  fc
    .tuple(seeds, fc.integer({ min: 1, max: 8 }), fc.nat(9), fc.nat(20))
    .map(([seed, count, chance, ms]) => new Burst(seed, count, chance === 0 ? ms : null)),
];

test(`${OPS} writes at random, in any order, some twice, the runtime killed between: every rule holds after each`, async () => {
  for (let run = 0; total.writes < OPS; run++) {
    await fc.assert(
      fc.asyncProperty(fc.commands(bursts, { maxCommands: STEPS_A_RUN, size: 'max' }), async (commands) => {
        const far = await FarYard.found(runtime.url);
        const model: Model = { twin: await Twin.of(far), far, steps: 0 };
        await fc.asyncModelRun(() => ({ model, real: runtime }), commands);
        await expectSound(model);
      }),
      // No shrinking: a shorter history is another one, on a yard of its own.
      { numRuns: 1, seed: SEED + run, endOnFailure: true },
    );
  }
  console.log(JSON.stringify(total));
  expect(total.kills).toBeGreaterThan(0);
  expect(total.done).toBeGreaterThan(total.writes / 4);
  expect(total.refused).toBeGreaterThan(total.writes / 20);
});
