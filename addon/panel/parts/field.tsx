/** Fields with their labels, hints and faults tied together for the eye and for a screen reader. */
import type { ComponentChildren, JSX, LooseInputHTMLAttributes } from 'preact';
import { useId } from 'preact/hooks';

interface Labelled {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault?: string | null | undefined;
}

function Wrapped(props: Labelled & { readonly id: string; readonly children: ComponentChildren }) {
  return (
    <div class={`field${props.fault ? ' at-fault' : ''}`}>
      <label for={props.id}>{props.label}</label>
      {props.children}
      {props.hint === undefined ? null : (
        <p class="hint" id={`${props.id}-hint`}>
          {props.hint}
        </p>
      )}
      {props.fault ? (
        <p class="fault" id={`${props.id}-fault`}>
          {props.fault}
        </p>
      ) : null}
    </div>
  );
}

function describedBy(id: string, props: Labelled): string | undefined {
  const names = [props.hint === undefined ? '' : `${id}-hint`, props.fault ? `${id}-fault` : ''].filter(Boolean);
  return names.length === 0 ? undefined : names.join(' ');
}

export interface TextFieldProps extends Labelled {
  readonly value: string;
  readonly onInput: (value: string) => void;
  readonly type?: 'text' | 'search' | 'date' | 'password' | 'url';
  readonly numeric?: boolean;
  readonly placeholder?: string;
  readonly onEnter?: () => void;
}

export function TextField(props: TextFieldProps) {
  const id = useId();
  const shared: LooseInputHTMLAttributes = {
    id,
    autocomplete: 'off',
    spellcheck: false,
    inputMode: props.numeric === true ? 'decimal' : undefined,
    value: props.value,
    placeholder: props.placeholder,
    'aria-invalid': props.fault ? 'true' : undefined,
    'aria-describedby': describedBy(id, props),
    onInput: (event) => props.onInput(event.currentTarget.value),
    onKeyDown: (event) => {
      if (event.key === 'Enter') props.onEnter?.();
    },
  };
  const { type: _type, role: _role, ...rest } = shared;
  return (
    <Wrapped id={id} label={props.label} hint={props.hint} fault={props.fault}>
      {inputOf(props.type ?? 'text', rest)}
    </Wrapped>
  );
}

/** Each kind of input has a type of its own in JSX, because each takes other roles. */
function inputOf(
  type: NonNullable<TextFieldProps['type']>,
  rest: Omit<LooseInputHTMLAttributes, 'type' | 'role'>,
): JSX.Element {
  switch (type) {
    case 'text':
      return <input type="text" {...rest} />;
    case 'search':
      return <input type="search" {...rest} />;
    case 'date':
      return <input type="date" {...rest} />;
    case 'password':
      return <input type="password" {...rest} />;
    case 'url':
      return <input type="url" {...rest} />;
  }
}

export interface Option<T extends string> {
  readonly value: T;
  readonly label: string;
}

export function SelectField<T extends string>(
  props: Labelled & {
    readonly value: T;
    readonly options: readonly Option<T>[];
    readonly onPick: (value: T) => void;
  },
) {
  const id = useId();
  return (
    <Wrapped id={id} label={props.label} hint={props.hint} fault={props.fault}>
      <select
        id={id}
        value={props.value}
        aria-describedby={describedBy(id, props)}
        onChange={(event) => {
          const found = props.options.find((option) => option.value === event.currentTarget.value);
          if (found) props.onPick(found.value);
        }}
      >
        {props.options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Wrapped>
  );
}

export function CheckField(props: {
  readonly label: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
  readonly hint?: string;
}) {
  const id = useId();
  return (
    <div class="check-field">
      <input
        id={id}
        type="checkbox"
        checked={props.on}
        aria-describedby={props.hint === undefined ? undefined : `${id}-hint`}
        onChange={(event) => props.onChange(event.currentTarget.checked)}
      />
      <label for={id}>{props.label}</label>
      {props.hint === undefined ? null : (
        <p class="hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
    </div>
  );
}

/** A few choices, all in sight. */
export function ChoiceField<T extends string>(props: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly Option<T>[];
  readonly onPick: (value: T) => void;
}) {
  const id = useId();
  return (
    <fieldset class="choice">
      <legend>{props.label}</legend>
      <div class="choices">
        {props.options.map((option) => (
          <label key={option.value} class={option.value === props.value ? 'chosen' : ''}>
            <input
              type="radio"
              name={id}
              value={option.value}
              checked={option.value === props.value}
              onChange={() => props.onPick(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
