/** Formulas that the yard answers: many cells, one call, and answers that stay for a minute. */
import { expect, test } from 'vitest';
import { askingFormulas } from '../../addon/formulas/catalogue.ts';
import type { Habits, YardQuestion } from '../../addon/formulas/formula.ts';
import { runYardFormula } from '../../addon/formulas/run.ts';
import { answersTo, freeByWood, needsOf, type StockBoard } from '../../addon/formulas/yard-answers.ts';
import { makeYardAsker, NO_ANSWER, type YardAnswer } from '../../addon/formulas/yard-asker.ts';

const habits: Habits = { unit: 'in', decimal: '.', dateOrder: 'mdy' };
const IN = 25_400_000;

function asking(answer: (question: YardQuestion) => YardAnswer) {
  const calls: (readonly YardQuestion[])[] = [];
  let nowMs = 0;
  const yard = makeYardAsker({
    fetchAnswers: async (questions) => {
      calls.push(questions);
      return questions.map(answer);
    },
    wait: () => new Promise((resolve) => setTimeout(resolve, 1)),
    nowMs: () => nowMs,
  });
  const run = async (name: string, given: Parameters<typeof runYardFormula>[1]) => {
    const formula = askingFormulas.find((one) => one.name === name);
    if (!formula) throw new Error(`No formula ${name}.`);
    const result = await runYardFormula(formula, given, habits, yard);
    return result.ok ? result.rows : result.fault;
  };
  return { calls, run, later: (ms: number) => (nowMs += ms) };
}

test('two hundred cells, each its own formula, are one call; the same tag is asked once', async () => {
  const shop = asking((question) => (question.about === 'tag' ? `free ${question.tag}` : 0));
  const tags = Array.from({ length: 200 }, (_, index) => `JB-${index % 150}`);
  const results = await Promise.all(tags.map((tag) => shop.run('STATUS', [tag])));
  expect(results[7]).toEqual([['free JB-7']]);
  expect(shop.calls.map((questions) => questions.length)).toEqual([150]);
});

test('a recalculation within the minute asks nothing; after it, again', async () => {
  const shop = asking(() => 'free');
  await shop.run('STATUS', ['JB-1']);
  shop.later(59_999);
  await shop.run('STATUS', ['JB-1']);
  expect(shop.calls).toHaveLength(1);
  shop.later(1);
  await shop.run('STATUS', ['JB-1']);
  expect(shop.calls).toHaveLength(2);
});

test('a yard out of reach is said in words, and asked again at the next recalculation', async () => {
  let tries = 0;
  const yard = makeYardAsker({
    fetchAnswers: async () => {
      tries += 1;
      if (tries === 1) throw new Error('no network');
      return ['free'];
    },
    wait: async () => undefined,
    nowMs: () => 0,
  });
  expect(await yard.ask({ about: 'tag', tag: 'JB-1' })).toEqual(NO_ANSWER);
  expect(await yard.ask({ about: 'tag', tag: 'JB-1' })).toBe('free');
});

test('a column of tags with a blank row; a wood that is none is not asked', async () => {
  const shop = asking(() => 'free');
  expect(await shop.run('STATUS', [[['JB-1'], [''], ['JB-2']]])).toEqual([['free'], [''], ['free']]);
  expect(await shop.run('FREE', ['oak'])).toMatchObject([[{ fault: expect.stringContaining('several woods') }]]);
  expect(shop.calls.flat()).toHaveLength(2);
});

test('free board feet: what no job holds, by the call that a board reaches', () => {
  const board = (species: string, thickness: number, held: StockBoard['held'] = []): StockBoard => ({
    species,
    lengthNm: 96 * IN,
    widthNm: 6 * IN,
    thicknessNm: Math.round(thickness * IN),
    state: 'in-stock',
    held,
  });
  const boards = [
    board('white-oak', 2),
    // 2 1/16 in rough is 8/4 too; half of it is held, in two runs that touch.
    board('white-oak', 2, [
      { fromNm: 0, toNm: 24 * IN },
      { fromNm: 24 * IN, toNm: 48 * IN },
    ]),
    board('white-oak', 1),
    { ...board('white-oak', 2), state: 'cut-up' as const },
  ];
  const free = (species: string, thickness: number | null): YardQuestion => ({
    about: 'free',
    species,
    thicknessNm: thickness === null ? null : thickness * IN,
  });
  const questions = [free('white-oak', 2), free('white-oak', null), free('hard-maple', 2)];
  // 96 × 6 × 2 / 144 = 8 bf for a whole board.
  expect(answersTo(questions, [], freeByWood(boards))).toEqual([12, 16, 0]);
  expect(needsOf(questions)).toEqual({ tags: [], boards: true });
});
