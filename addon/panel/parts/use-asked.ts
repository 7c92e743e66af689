/** One question to the yard that a form or a view asks for itself: its answer, its task, and the way to ask. */
import { type ReadonlySignal, signal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { RouteName } from '../../../worker/contract/routes.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { CallInput } from '../api.ts';
import { useCore } from '../panel.ts';
import { makeTask, type Task, taken } from '../state/task.ts';

export interface Asked<N extends RouteName> {
  /** The last answer that came; it stays while a new one is on its way. */
  readonly answer: ReadonlySignal<Answer<N> | null>;
  readonly task: Task;
  ask(input: CallInput<N>): Promise<boolean>;
}

export function useAsked<N extends RouteName>(name: N, saying: string): Asked<N> {
  const { api } = useCore();
  return useMemo(() => {
    const answer = signal<Answer<N> | null>(null);
    const task = makeTask();
    const ask = (input: CallInput<N>) =>
      task.run(saying, async (stop) =>
        taken(await api.call(name, { ...input, stop }), (given) => {
          answer.value = given;
        }),
      );
    return { answer, task, ask };
  }, [api, name, saying]);
}
