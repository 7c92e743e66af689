/** The frame of a screen's parts: headings that take the focus when a view opens, folds, empty states. */
import { untracked, useSignalEffect } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { useCore } from '../panel.ts';
import { Button } from './button.tsx';

/** A view inside a tab, with the way back; its tab, pressed again, leads back too. Its heading takes the focus, so that a keyboard user starts at its top. */
export function View(props: {
  readonly title: ComponentChildren;
  readonly back: string;
  readonly onBack: () => void;
  readonly children: ComponentChildren;
}) {
  const heading = useRef<HTMLHeadingElement>(null);
  const frame = useRef<HTMLElement>(null);
  const back = useRef(props.onBack);
  back.current = props.onBack;
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    frame.current?.closest('.heartside')?.scrollIntoView({ block: 'start' });
    const element = frame.current;
    const leave = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || event.defaultPrevented) return;
      event.preventDefault();
      event.stopPropagation();
      back.current();
    };
    element?.addEventListener('keydown', leave);
    return () => element?.removeEventListener('keydown', leave);
  }, []);
  const { shell } = useCore();
  const pressedBefore = useRef(shell.homes.value);
  useSignalEffect(() => {
    if (shell.homes.value !== pressedBefore.current) untracked(() => back.current());
  });
  return (
    <section class="view" ref={frame}>
      <Button kind="quiet" onPress={props.onBack}>
        <span aria-hidden="true">‹ </span>
        {props.back}
      </Button>
      <h2 ref={heading} tabIndex={-1}>
        {props.title}
      </h2>
      {props.children}
    </section>
  );
}

export function Section(props: {
  readonly title: string;
  readonly beside?: ComponentChildren;
  readonly children: ComponentChildren;
}) {
  return (
    <section class="section">
      <div class="section-head">
        <h3>{props.title}</h3>
        {props.beside}
      </div>
      {props.children}
    </section>
  );
}

/** Shut until wanted: forms and assumptions that would crowd the panel. */
export function Fold(props: {
  readonly title: ComponentChildren;
  readonly children: ComponentChildren;
  readonly open?: boolean;
}) {
  return (
    <details class="fold" open={props.open}>
      <summary>{props.title}</summary>
      <div class="fold-body">{props.children}</div>
    </details>
  );
}

/** Nothing here yet: what belongs here and how it comes in. */
export function Empty(props: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <div class="empty">
      <p class="empty-title">{props.title}</p>
      {props.children}
    </div>
  );
}

export interface Fact {
  readonly name: string;
  readonly value: ComponentChildren;
}

export function Facts(props: { readonly facts: readonly Fact[] }) {
  return (
    <dl class="facts">
      {props.facts.map((fact) => (
        <div key={fact.name}>
          <dt>{fact.name}</dt>
          <dd>{fact.value}</dd>
        </div>
      ))}
    </dl>
  );
}

export function MoreButton(props: {
  readonly pages: { readonly next: { readonly value: string | null }; more(): Promise<boolean> };
}) {
  return props.pages.next.value === null ? null : <Button onPress={() => void props.pages.more()}>Show more</Button>;
}

/** A note in the run of the page: something to know, not something wrong. */
export function Remark(props: { readonly children: ComponentChildren; readonly strong?: boolean }) {
  return <div class={`remark${props.strong === true ? ' strong' : ''}`}>{props.children}</div>;
}
