/** A size as the tape shows it, with the words that a screen reader should say instead of marks and slashes. */
import type { Size } from '../../../worker/wood/unit.ts';
import { Unbroken } from './unbroken.tsx';
import { useMeasure } from './use-measure.ts';

export function Length(props: { readonly nm: number; readonly system?: 'in' | 'mm' }) {
  const measure = useMeasure();
  return <Spoken shown={measure.length(props.nm, props.system)} words={measure.spoken(props.nm, props.system)} />;
}

export function BoardSize(props: { readonly size: Size; readonly system?: 'in' | 'mm' }) {
  const measure = useMeasure();
  return <Spoken shown={measure.size(props.size, props.system)} words={measure.sizeSpoken(props.size, props.system)} />;
}

function Spoken(props: { readonly shown: string; readonly words: string }) {
  return (
    <span class="figure">
      <span aria-hidden="true">
        <Unbroken text={props.shown} />
      </span>
      <span class="only-spoken">{props.words}</span>
    </span>
  );
}
