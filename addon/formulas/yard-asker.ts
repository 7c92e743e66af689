/**
 * Asks the yard for many cells at once: questions gather for a tenth of a second, go out as one call, and the answers
 * are kept for a minute. A hundred cells that recalculate cost one call, and the same cells again cost none.
 */
import type { Fault, YardQuestion } from './formula.ts';

export type YardAnswer = number | string | Fault;

export interface YardAsker {
  ask(question: YardQuestion): Promise<YardAnswer>;
}

export interface AskerParts {
  /** One call for all the questions; one answer each, in their order. */
  readonly fetchAnswers: (questions: readonly YardQuestion[]) => Promise<readonly YardAnswer[]>;
  readonly wait: (ms: number) => Promise<void>;
  readonly nowMs: () => number;
}

export const GATHER_MS = 100;
export const KEPT_MS = 60_000;
const KEPT_COUNT_MAX = 20_000;
export const NO_ANSWER: Fault = { fault: 'the yard did not answer; check the connection and recalculate' };

export function makeYardAsker(parts: AskerParts): YardAsker {
  const kept = new Map<string, { readonly answer: Promise<YardAnswer>; readonly untilMs: number }>();
  let gathering: { question: YardQuestion; key: string; resolve: (answer: YardAnswer) => void }[] = [];

  async function sendLater(): Promise<void> {
    await parts.wait(GATHER_MS);
    const sent = gathering;
    gathering = [];
    const answers = await parts.fetchAnswers(sent.map(({ question }) => question)).catch(() => null);
    sent.forEach(({ key, resolve }, index) => {
      const answer = answers?.[index] ?? NO_ANSWER;
      // A fault may pass; the next recalculation asks again.
      if (typeof answer === 'object') kept.delete(key);
      resolve(answer);
    });
  }

  return {
    ask(question) {
      const key = JSON.stringify(question);
      const nowMs = parts.nowMs();
      const found = kept.get(key);
      if (found && found.untilMs > nowMs) return found.answer;
      if (kept.size >= KEPT_COUNT_MAX) kept.clear();
      const answer = new Promise<YardAnswer>((resolve) => {
        gathering.push({ question, key, resolve });
      });
      kept.set(key, { answer, untilMs: nowMs + KEPT_MS });
      if (gathering.length === 1) void sendLater();
      return answer;
    },
  };
}
