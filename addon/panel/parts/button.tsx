/** Buttons. A busy button stays focusable (aria-disabled), so that a keyboard user does not lose the place. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Task } from '../state/task.ts';

export interface ButtonProps {
  readonly children: ComponentChildren;
  readonly onPress: () => void;
  /** primary: the one thing this screen is for. plain: anything else. quiet: beside text. */
  readonly kind?: 'primary' | 'plain' | 'quiet';
  readonly task?: Task;
  readonly off?: boolean;
  /** Longer name for a screen reader, where the words alone would not tell which. */
  readonly name?: string;
  readonly pressed?: boolean;
  readonly expanded?: boolean;
}

export function Button(props: ButtonProps) {
  const busy = props.task?.busy.value === true;
  const off = props.off === true || busy;
  return (
    <button
      type="button"
      class={`button ${props.kind ?? 'plain'}`}
      aria-disabled={off ? 'true' : undefined}
      aria-label={props.name}
      aria-pressed={props.pressed}
      aria-expanded={props.expanded}
      onClick={() => {
        if (!off) props.onPress();
      }}
    >
      {props.children}
    </button>
  );
}

/** A button that asks first, in place, and says what will happen. */
export function ConfirmButton(props: ButtonProps & { readonly ask: string; readonly yes: string }) {
  const [asking, setAsking] = useState(false);
  const yes = useRef<HTMLFieldSetElement>(null);
  const back = useRef<HTMLSpanElement>(null);
  const asked = useRef(false);
  useEffect(() => {
    if (asking) yes.current?.querySelector('button')?.focus();
    else if (asked.current) back.current?.querySelector('button')?.focus();
    asked.current = asking;
  }, [asking]);
  if (!asking) {
    const { ask: _ask, yes: _yes, ...button } = props;
    return (
      <span class="confirm-closed" ref={back}>
        <Button {...button} onPress={() => setAsking(true)} />
      </span>
    );
  }
  return (
    <fieldset
      class="confirm"
      ref={yes}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        setAsking(false);
      }}
    >
      <legend>{props.ask}</legend>
      <div class="row">
        <Button
          kind="primary"
          onPress={() => {
            setAsking(false);
            props.onPress();
          }}
        >
          {props.yes}
        </Button>
        <Button kind="quiet" onPress={() => setAsking(false)}>
          Keep as it is
        </Button>
      </div>
    </fieldset>
  );
}
