/**
 * The runtime is killed while wood is being held, and started again on the same files. HEARTSIDE_KILLS says how often (100
 * for the full run). SIGKILL tries the process, not the power cord; each acknowledged write was synced to disk before.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Command, CommandAnswer } from '../../worker/yard/command.ts';
import { type Random, randomFrom } from '../yard/random-history.ts';
import { FarYard, takingIn } from './far-yard.ts';
import { RawWorkerd } from './raw-workerd.ts';
import { Twin } from './twin.ts';

const ROUNDS = Number(process.env.HEARTSIDE_KILLS ?? 12);
const CLIENTS = 32;
const BOARDS = 150;

let runtime: RawWorkerd;
let yard: FarYard;
const tags = Array.from({ length: BOARDS }, (_, no) => `C-${no + 1}`);
const jobIds: string[] = [];

beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
  yard = await FarYard.found(runtime.url);
  await yard.takeIn(tags);
  for (let no = 0; no < CLIENTS; no++) jobIds.push(await yard.job(`Job ${no + 1}`));
});
afterAll(() => runtime.end());

interface Write {
  readonly key: string;
  readonly command: Command;
  /** Null while nobody answered. */
  readonly answer: CommandAnswer | null;
}

function anyCommand(random: Random, jobId: string, held: readonly string[]): Command {
  const roll = random();
  if (roll < 0.2) return takingIn([1, 2, 3].map(() => `N-${Math.floor(random() * 1e12)}`));
  if (roll < 0.5 && held.length > 0) return { do: 'release', ids: held };
  const chosen = [...tags].sort(() => random() - 0.5).slice(0, 3);
  return { do: 'reserve', jobId, boards: chosen.map((tag) => ({ tag })) };
}

/** Writes until the runtime is gone; the last write may never be answered. */
async function writeUntilKilled(jobId: string, random: Random, isOver: () => boolean): Promise<readonly Write[]> {
  const writes: Write[] = [];
  let held: readonly string[] = [];
  while (!isOver()) {
    const command = anyCommand(random, jobId, held);
    const key = yard.newKey();
    const answer = await yard.send(command, key).catch(() => null);
    writes.push({ key, command, answer });
    if (answer === null) return writes;
    if (command.do === 'reserve' && answer.ok) held = answer.told.reservationIds ?? [];
    if (command.do === 'release') held = [];
  }
  return writes;
}

test(`killed ${ROUNDS} times under load: every acknowledged write is there, none is half there`, async () => {
  const random = randomFrom(20_260_302);
  const acknowledged: Write[] = [];
  const unanswered: Write[] = [];
  let slowestStartMs = 0;
  // Follows the journal from restart to restart, so that a hundred rounds do not read it from its beginning each time.
  const twin = await Twin.of(yard);
  for (let round = 0; round < ROUNDS; round++) {
    let over = false;
    const clients = jobIds.map((jobId, client) =>
      writeUntilKilled(jobId, randomFrom(round * 1000 + client), () => over),
    );
    await pause(200 + random() * 1_000);
    await runtime.kill();
    over = true;
    for (const write of (await Promise.all(clients)).flat()) (write.answer ? acknowledged : unanswered).push(write);
    slowestStartMs = Math.max(slowestStartMs, await runtime.start());
    await twin.follow();
    const lastTold = acknowledged.reduce(
      (last, { answer }) => (answer?.ok ? Math.max(last, answer.told.seq) : last),
      0,
    );
    expect(twin.shop.seq()).toBeGreaterThanOrEqual(lastTold);
  }
  const bySeq = new Map((await yard.journal()).map((movement) => [movement.seq, movement]));
  for (const { command, answer } of acknowledged) {
    if (!answer?.ok) continue;
    const movement = bySeq.get(answer.told.seq);
    const kind = { 'take-in-boards': 'boards-received', reserve: 'reserved', release: 'released' }[
      command.do as string
    ];
    expect(movement?.kind).toBe(kind);
    // Three boards taken in are three changes; none of them can be missing. (Boards that a job held before need none.)
    if (command.do === 'take-in-boards') expect(movement?.changes.length).toBe(3);
    if (command.do === 'reserve') expect(answer.told.reservationIds).toHaveLength(3);
  }
  // Whoever got no answer sends the same write again: it is done once, whether the first was lost or only its answer.
  for (const { key, command } of unanswered) await yard.send(command, key);
  // Whoever was answered gets the same answer again.
  for (const { key, command, answer } of acknowledged.slice(-300)) {
    const again = await yard.send(command, key);
    expect({ ...again, replayed: false }).toEqual({ ...answer, replayed: false });
    expect(again.replayed).toBe(true);
  }
  await twin.follow();
  expect(await yard.faults()).toEqual([]);
  expect(await yard.checkUp()).toEqual([]);
  expect(acknowledged.length).toBeGreaterThan(15 * ROUNDS);
  console.log(
    `${ROUNDS} kills, ${acknowledged.length} acknowledged, ${unanswered.length} in flight, start ${Math.round(slowestStartMs)} ms at most`,
  );
});
