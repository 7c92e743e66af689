/**
 * An import of any size as the API takes it: parts of bounded size, each under an Idempotency-Key made of the import's name
 * and the number of the part. The line is cut at any moment and the runtime killed on the way; who sends it begins again
 * from the first part each time, and what is in the yard at the end is the list, once.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { randomFrom } from '../yard/random-history.ts';
import { FarYard } from './far-yard.ts';
import { RawWorkerd } from './raw-workerd.ts';

const BOARDS = Number(process.env.HEARTSIDE_IMPORT_BOARDS ?? 12_000);
const PART = 500;

let runtime: RawWorkerd;
let yard: FarYard;
beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
  yard = await FarYard.found(runtime.url);
});
afterAll(() => runtime.end());

const board = (no: number) => ({
  tag: `N-${no}`,
  species: 'white oak',
  lengthNm: `8' 4 1/2"`,
  widthNm: '8 1/4 in',
  thicknessNm: '8/4',
  note: 'stack 3, stickered',
});

test(`${BOARDS} boards in parts, begun again after each loss: every board once, and the same answers`, async () => {
  const random = randomFrom(29);
  const parts = Array.from({ length: Math.ceil(BOARDS / PART) }, (_, part) =>
    Array.from({ length: Math.min(PART, BOARDS - part * PART) }, (_, at) => board(part * PART + at)),
  );
  const answers = new Map<number, string>();
  let losses = 0;
  let again = 0;

  /** Every part from the first on; false when the line was lost. */
  async function sendAll(): Promise<boolean> {
    for (const [no, boards] of parts.entries()) {
      const isRisky = losses < 25 && random() < 0.3;
      const signal = isRisky ? AbortSignal.timeout(1 + Math.floor(random() * 250)) : null;
      const key = `import-2026-11-25-part-${String(no).padStart(4, '0')}`;
      const answer = await yard.post('/v1/boards', { boards, allOrNothing: true }, { key, signal }).catch(() => null);
      if (answer === null) return false;
      expect(answer.status, JSON.stringify(answer.body)).toBe(201);
      const text = JSON.stringify(answer.body);
      const before = answers.get(no);
      if (before !== undefined) again += 1;
      expect(before ?? text).toBe(text);
      answers.set(no, text);
    }
    return true;
  }

  while (!(await sendAll())) {
    losses += 1;
    if (losses % 5 === 0) {
      await runtime.kill();
      await runtime.start();
    }
  }
  console.log(`${parts.length} parts, ${losses} losses, ${again} parts answered again`);
  expect(losses).toBeGreaterThan(3);
  expect(again).toBeGreaterThan(0);
  const facts = await yard.ask('yard-facts', {});
  expect(facts.boards.inStock).toBe(BOARDS);
  // One movement a part, besides the founding.
  expect(facts.seq).toBe(1 + parts.length);
  expect(await yard.checkUp()).toEqual([]);
});
