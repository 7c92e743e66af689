/**
 * Holds a second through the whole service against bare durable inserts a second, on the runtime itself, 64 clients, turn
 * by turn, so that a busy machine slows both. Both get the same requests, headers and bodies alike, over the same
 * connections, and cross from a worker to an object by one call.
 */
import { FarYard } from '../slow/far-yard.ts';
import { RawWorkerd } from '../slow/raw-workerd.ts';
import { randomFrom } from '../yard/random-history.ts';

const CLIENTS = 64;
const BOARDS = 500;

interface Turn {
  /** Requests a second. */
  readonly rate: number;
  /** Work of the runtime a request, microseconds. */
  readonly workUs: number;
}

/** One turn of each. */
export interface Pair {
  readonly bare: number;
  readonly held: number;
  readonly ratio: number;
  readonly bareUs: number;
  readonly heldUs: number;
  readonly workRatio: number;
}

export interface Measured {
  readonly ratioMiddle: number;
  /** Of the pair that other work on the machine disturbed least. */
  readonly ratioBest: number;
  /** What the ratio comes to where nothing but the runtime's own work counts: on a machine that is else idle. */
  readonly workRatioMiddle: number;
  readonly done: number;
  readonly refused: number;
  /** Findings of the doctor afterwards. */
  readonly faults: number;
}

const rounded = (value: number) => Math.round(value * 1000) / 1000;
const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

export async function measureHolds(turns: number, turnMs: number, show: (pair: Pair) => void): Promise<Measured> {
  const runtime = await RawWorkerd.with(new URL('../workerd/hold-worker.ts', import.meta.url), ['Yard', 'Bare']);
  const yard = await FarYard.found(runtime.url);
  const tags = Array.from({ length: BOARDS }, (_, no) => `C-${no + 1}`);
  await yard.takeIn(tags);
  const jobIds: string[] = [];
  for (let no = 0; no < CLIENTS; no++) jobIds.push(await yard.job(`Job ${no + 1}`));

  const random = randomFrom(1);
  let done = 0;
  let refused = 0;

  /** Short runs on many boards, so that most holds are done and not refused. */
  async function holdOnce(client: number): Promise<void> {
    const fromNm = Math.floor(random() * 2_400) * 1_000_000;
    const tag = tags[Math.floor(random() * BOARDS)];
    const boards = [{ tag, fromNm, toNm: fromNm + 1_000_000 }];
    const answer = await yard.post('/v1/reservations', { jobId: jobIds[client], boards });
    if (answer.status === 201) done += 1;
    else if (answer.status === 409) refused += 1;
    else throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
  }

  async function bareOnce(client: number): Promise<void> {
    const fromNm = Math.floor(random() * 2_400) * 1_000_000;
    const boards = [{ tag: tags[Math.floor(random() * BOARDS)], fromNm, toNm: fromNm + 1_000_000 }];
    const answer = await yard.post('/bare', { jobId: jobIds[client], boards });
    if (answer.status !== 201) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
  }

  async function turn(once: (client: number) => Promise<void>): Promise<Turn> {
    const workedMs = runtime.workMs() ?? 0;
    const endMs = performance.now() + turnMs;
    const fromMs = performance.now();
    let count = 0;
    await Promise.all(
      jobIds.map(async (_, client) => {
        while (performance.now() < endMs) {
          await once(client);
          count += 1;
        }
      }),
    );
    const rate = (count * 1000) / (performance.now() - fromMs);
    return { rate, workUs: (((runtime.workMs() ?? 0) - workedMs) * 1000) / count };
  }

  await turn(bareOnce);
  await turn(holdOnce);
  const pairs: Pair[] = [];
  for (let no = 0; no < turns; no++) {
    const bare = await turn(bareOnce);
    const held = await turn(holdOnce);
    const pair: Pair = {
      bare: Math.round(bare.rate),
      held: Math.round(held.rate),
      ratio: rounded(held.rate / bare.rate),
      bareUs: Math.round(bare.workUs),
      heldUs: Math.round(held.workUs),
      workRatio: rounded(bare.workUs / held.workUs),
    };
    pairs.push(pair);
    show(pair);
  }
  const faults = (await yard.checkUp()).length;
  await runtime.end();
  const ratioMiddle = middle(pairs.map((pair) => pair.ratio));
  const workRatioMiddle = middle(pairs.map((pair) => pair.workRatio));
  const ratioBest = Math.max(...pairs.map((pair) => pair.ratio));
  return { ratioMiddle, ratioBest, workRatioMiddle, done, refused, faults };
}
