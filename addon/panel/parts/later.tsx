/** What is fetched when it is first wanted, so that the panel opens with little to load. */
import { type Signal, signal } from '@preact/signals';
import type { ComponentChildren, FunctionComponent } from 'preact';
import { Button } from './button.tsx';
import { useOnce } from './use-once.ts';

export interface Fetched<T> {
  readonly loaded: Signal<T | null>;
  readonly failed: Signal<boolean>;
  /** Fetches it, once: ahead of time, so that it opens at once and without a connection, or again after a failure. */
  fetch(): void;
}

export function fetched<T>(load: () => Promise<T>): Fetched<T> {
  const loaded = signal<T | null>(null);
  const failed = signal(false);
  let coming = false;
  return {
    loaded,
    failed,
    fetch() {
      if (coming || loaded.value !== null) return;
      coming = true;
      failed.value = false;
      load()
        .then(
          (value) => {
            loaded.value = value;
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

/** A screen in a box, because what is fetched is not a screen itself but what draws it. */
export type Later = Fetched<{ readonly Screen: FunctionComponent }>;

export const later = (load: () => Promise<FunctionComponent>): Later => fetched(async () => ({ Screen: await load() }));

export function LaterScreen(props: { readonly of: Later }) {
  return <WhenFetched of={props.of}>{({ Screen }) => <Screen />}</WhenFetched>;
}

export function WhenFetched<T>(props: {
  readonly of: Fetched<T>;
  readonly children: (loaded: T) => ComponentChildren;
}) {
  const { of } = props;
  useOnce(() => of.fetch());
  const loaded = of.loaded.value;
  if (loaded !== null) return <>{props.children(loaded)}</>;
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
