/** Copies a text; where the browser does not let a page inside another copy, the text stands in a field to be taken by hand. */
import { useState } from 'preact/hooks';
import { Button } from './button.tsx';

export function CopyButton(props: { readonly text: string; readonly children: string }) {
  const [state, setState] = useState<'idle' | 'copied' | 'by-hand'>('idle');
  const copy = () => {
    const copying = navigator.clipboard?.writeText(props.text) ?? Promise.reject(new Error('no clipboard'));
    copying.then(
      () => setState('copied'),
      () => setState('by-hand'),
    );
  };
  return (
    <>
      <Button kind="quiet" onPress={copy}>
        {state === 'copied' ? 'Copied' : props.children}
      </Button>
      {state === 'by-hand' ? (
        <textarea
          class="by-hand"
          readOnly
          aria-label="Text to copy"
          rows={4}
          value={props.text}
          onFocus={(event) => event.currentTarget.select()}
        />
      ) : null}
    </>
  );
}
