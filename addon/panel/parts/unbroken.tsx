/** A text whose sizes and tags stay in one line. Spans and not special blanks, so that it is found and copied as it reads. */
import { stretchesOf } from '../../../worker/wood/unbroken.ts';

export function Unbroken(props: { readonly text: string }) {
  return (
    <>
      {stretchesOf(props.text).map(({ text, whole }, index) =>
        whole ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: the stretches of a text have no other name
          <span key={index} class="unbroken">
            {text}
          </span>
        ) : (
          text
        ),
      )}
    </>
  );
}
