/**
 * `node test/bench/hold-throughput.ts [seconds a turn]`: holds a second through the whole service against bare durable
 * inserts a second, on the runtime itself, 64 clients, turn by turn in one run, so that a busy machine slows both. Prints
 * each pair of turns and the ratio of the middle ones.
 */
import { FarYard } from '../slow/far-yard.ts';
import { RawWorkerd } from '../slow/raw-workerd.ts';
import { randomFrom } from '../yard/random-history.ts';

const CLIENTS = 64;
const BOARDS = 500;
const TURNS = 7;
const turnMs = Number(process.argv[2] ?? 4) * 1000;

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
  const text = JSON.stringify({ jobId: jobIds[client], boards: [{ tag: tags[0], fromNm: 1, toNm: 2 }] });
  const response = await fetch(`${runtime.url}/bare`, { method: 'POST', body: text });
  await response.json();
}

/** Requests a second. */
async function turn(once: (client: number) => Promise<void>): Promise<number> {
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
  return (count * 1000) / (performance.now() - fromMs);
}

await turn(bareOnce);
await turn(holdOnce);
const pairs: { bare: number; held: number; ratio: number }[] = [];
for (let no = 0; no < TURNS; no++) {
  const bare = await turn(bareOnce);
  const held = await turn(holdOnce);
  pairs.push({ bare: Math.round(bare), held: Math.round(held), ratio: Math.round((held / bare) * 1000) / 1000 });
  console.log(JSON.stringify(pairs.at(-1)));
}
const ratios = pairs.map((pair) => pair.ratio).sort((a, b) => a - b);
console.log(
  JSON.stringify({ ratioMiddle: ratios[Math.floor(TURNS / 2)], done, refused, faults: (await yard.checkUp()).length }),
);
await runtime.end();
