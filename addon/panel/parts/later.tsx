/** A screen that is fetched when it is first wanted, so that the panel opens with little to load. */
import { type Signal, signal } from '@preact/signals';
import type { FunctionComponent } from 'preact';
import { Button } from './button.tsx';
import { useOnce } from './use-once.ts';

export interface Later {
  readonly screen: Signal<FunctionComponent | null>;
  readonly failed: Signal<boolean>;
  /** Fetches the screen, once: ahead of time, so that it opens at once and without a connection, or again after a failure. */
  fetch(): void;
}

export function later(load: () => Promise<FunctionComponent>): Later {
  const screen = signal<FunctionComponent | null>(null);
  const failed = signal(false);
  let coming = false;
  return {
    screen,
    failed,
    fetch() {
      if (coming || screen.value !== null) return;
      coming = true;
      failed.value = false;
      load()
        .then(
          (loaded) => {
            screen.value = loaded;
          },
          () => {
            failed.value = true;
          },
        )
        .finally(() => {
          coming = false;
        });
    },
  };
}

export function LaterScreen(props: { readonly of: Later }) {
  const { of } = props;
  useOnce(() => of.fetch());
  const Screen = of.screen.value;
  if (Screen !== null) return <Screen />;
  if (!of.failed.value) return <p aria-busy="true">One moment…</p>;
  return (
    <div role="alert">
      <p>This part of the panel could not be fetched. Look at the connection.</p>
      <Button kind="plain" onPress={() => of.fetch()}>
        Try again
      </Button>
    </div>
  );
}
