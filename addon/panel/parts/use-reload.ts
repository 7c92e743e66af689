/** Loads when a screen comes in front, and again whenever the yard was changed from here. */
import { untracked, useSignalEffect } from '@preact/signals';
import { useCore } from '../panel.ts';

/** `after` is read inside the watch: what changes there loads again too. */
export function useReload(load: () => unknown, after?: () => unknown): void {
  const { shell } = useCore();
  useSignalEffect(() => {
    void shell.changes.value;
    after?.();
    untracked(() => void load());
  });
}
