/** Many hands reach for the same boards at once, on the runtime itself: nobody holds what another holds. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { problem } from '../../worker/contract/problem.ts';
import { randomFrom } from '../yard/random-history.ts';
import { FarYard, INCH } from './far-yard.ts';
import { RawWorkerd } from './raw-workerd.ts';

const CLIENTS = 64;
/** HEARTSIDE_STORM_BOARDS lengthens the storm on whole boards, up to 2,000. */
const BOARDS = Number(process.env.HEARTSIDE_STORM_BOARDS ?? 200);

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

/** Names the board, the other job and the way out. */
function isClear(body: unknown): boolean {
  const read = problem.safeParse(body);
  const [conflict] = read.data?.conflicts ?? [];
  return (
    read.data?.type.endsWith('board-held') === true &&
    conflict !== undefined &&
    tags.includes(conflict.tag) &&
    (conflict.jobName ?? '').startsWith('Job ') &&
    conflict.wayOut.length > 0
  );
}

test(`${CLIENTS} clients, ${CLIENTS * BOARDS} tries at ${BOARDS} boards: each board is held once and every loser is told by whom`, async () => {
  const fromMs = performance.now();
  const answers = await Promise.all(
    jobIds.map(async (jobId) => {
      const mine: Awaited<ReturnType<typeof yard.post>>[] = [];
      for (const tag of tags) mine.push(await yard.post('/v1/reservations', { jobId, boards: [{ tag }] }));
      return mine;
    }),
  ).then((all) => all.flat());
  const seconds = (performance.now() - fromMs) / 1000;
  console.log(`${answers.length} tries in ${seconds.toFixed(1)} s, ${Math.round(answers.length / seconds)} a second`);
  expect(answers).toHaveLength(CLIENTS * BOARDS);
  expect(answers.filter((answer) => answer.status === 201)).toHaveLength(BOARDS);
  const refused = answers.filter((answer) => answer.status === 409);
  expect(refused).toHaveLength((CLIENTS - 1) * BOARDS);
  expect(refused.every((answer) => isClear(answer.body))).toBe(true);
  const held = await yard.reservations();
  expect(new Set(held.map((each) => each.boardId)).size).toBe(BOARDS);
  expect(held).toHaveLength(BOARDS);
  expect(await yard.faults()).toEqual([]);
});

test('runs of up to five boards, taken and given back at random: all of a list or none of it', async () => {
  const held = await yard.reservations();
  for (let at = 0; at < held.length; at += 100) {
    await yard.tell({ do: 'release', ids: held.slice(at, at + 100).map((each) => each.id) });
  }
  const outcomes = await Promise.all(
    jobIds.map(async (jobId, client) => {
      const random = randomFrom(client + 1);
      const upTo = (count: number) => Math.floor(random() * count);
      const mine: { asked: number; got: number; ok: boolean }[] = [];
      let last: readonly string[] = [];
      for (let attempt = 0; attempt < 50; attempt++) {
        if (last.length > 0 && random() < 0.5) await yard.tell({ do: 'release', ids: last });
        const chosen = [...tags].sort(() => random() - 0.5).slice(0, 1 + upTo(5));
        const boards = chosen.map((tag) => {
          const fromNm = upTo(60) * INCH;
          return { tag, fromNm, toNm: fromNm + (6 + upTo(30)) * INCH };
        });
        const answer = await yard.send({ do: 'reserve', jobId, boards });
        last = answer.ok ? (answer.told.reservationIds ?? []) : [];
        mine.push({ asked: boards.length, got: last.length, ok: answer.ok });
      }
      return mine;
    }),
  ).then((all) => all.flat());
  expect(outcomes).toHaveLength(3_200);
  expect(outcomes.filter((each) => each.ok).length).toBeGreaterThan(100);
  expect(outcomes.filter((each) => !each.ok).length).toBeGreaterThan(100);
  expect(outcomes.every((each) => each.got === (each.ok ? each.asked : 0))).toBe(true);
  expect(await yard.faults()).toEqual([]);
});

test('one write sent 64 times at once has one effect and one answer', async () => {
  const before = (await yard.ask('yard-facts', {})).seq;
  for (let round = 0; round < 100; round++) {
    const key = yard.newKey();
    const draft = { name: `Bench ${round}`, dueOn: null, note: '' };
    const answers = await Promise.all(Array.from({ length: 64 }, () => yard.send({ do: 'open-job', draft }, key)));
    const ids = new Set(answers.map((answer) => (answer.ok ? answer.told.jobId : null)));
    expect(ids.size).toBe(1);
    expect(ids.has(null)).toBe(false);
    expect(answers.filter((answer) => !answer.replayed)).toHaveLength(1);
  }
  expect((await yard.ask('yard-facts', {})).seq).toBe(before + 100);
});

/** Sent until an answer comes: now and then the line is cut at any moment, and the same write is sent again under its key. */
async function stubborn(random: () => number, body: unknown) {
  const key = yard.newKey();
  let cut = 0;
  for (;;) {
    const signal = random() < 0.25 ? AbortSignal.timeout(Math.floor(random() * 60)) : null;
    const answer = await yard.post('/v1/reservations', body, { key, signal }).catch(() => null);
    if (answer) return { key, answer, cut };
    cut += 1;
  }
}

test('64 clients x 200 holds of 500 boards, lines cut and writes sent again: none overlaps, none is lost, none is done twice', async () => {
  const many = Array.from({ length: 500 }, (_, no) => `S-${no + 1}`);
  await yard.takeIn(many);
  const before = (await yard.ask('yard-facts', {})).seq;
  let cut = 0;
  let again = 0;
  const fromMs = performance.now();
  const answers = await Promise.all(
    jobIds.map(async (jobId, client) => {
      const random = randomFrom(client + 4_711);
      const mine: { key: string; status: number; body: unknown }[] = [];
      for (let attempt = 0; attempt < 200; attempt++) {
        const fromNm = Math.floor(random() * 80) * INCH;
        const whole = random() < 0.1;
        const run = whole ? {} : { fromNm, toNm: fromNm + Math.floor(2 + random() * 14) * INCH };
        const body = { jobId, boards: [{ tag: many[Math.floor(random() * many.length)], ...run }] };
        const sent = await stubborn(random, body);
        cut += sent.cut;
        mine.push({ key: sent.key, ...sent.answer });
        if (random() < 0.05) {
          again += 1;
          const second = await yard.post('/v1/reservations', body, { key: sent.key });
          expect(second.status).toBe(sent.answer.status);
          if (second.status === 201) expect(second.body).toEqual(sent.answer.body);
        }
      }
      return mine;
    }),
  ).then((all) => all.flat());
  const seconds = (performance.now() - fromMs) / 1000;
  expect(answers).toHaveLength(12_800);
  const done = answers.filter((answer) => answer.status === 201);
  expect(answers.filter((answer) => answer.status === 409)).toHaveLength(12_800 - done.length);
  // One movement for each yes, whatever was cut off or sent twice.
  expect((await yard.ask('yard-facts', {})).seq).toBe(before + done.length);
  const told = new Set(done.map((answer) => (answer.body as { seq: number }).seq));
  expect(told.size).toBe(done.length);
  expect(cut).toBeGreaterThan(300);
  expect(await yard.faults()).toEqual([]);
  expect(await yard.checkUp()).toEqual([]);
  console.log(`${done.length} held, ${cut} lines cut, ${again} sent again, ${Math.round(12_800 / seconds)} a second`);
});
