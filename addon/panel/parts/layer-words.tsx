/** Which layer of a part, called ply or stave where the open job's cut list knows the part. */
import { usePanel } from '../panel.ts';
import { layersOfKind, layerWords } from '../words/trade.ts';

export function LayerWords(props: { readonly of: { readonly partKey: string; readonly element: number | null } }) {
  const { partKey, element } = props.of;
  const parts = usePanel().job.job.value?.parts;
  return (
    <>
      {layerWords(
        element,
        parts?.find((part) => part.key === partKey),
      )}
    </>
  );
}

/** Which layers so many pieces of a part are: of one ply, or staves, which are all alike. */
export function LayersWords(props: {
  readonly of: { readonly partKey: string; readonly element: number | null; readonly count: number };
}) {
  const { partKey, element, count } = props.of;
  const part = usePanel().job.job.value?.parts.find((one) => one.key === partKey);
  return <>{layersOfKind(element, count, part)}</>;
}
