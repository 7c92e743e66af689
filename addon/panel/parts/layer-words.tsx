/** Which layer of a part, called ply or stave where the open job's cut list knows the part. */
import { usePanel } from '../panel.ts';
import { layerWords } from '../words/trade.ts';

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
