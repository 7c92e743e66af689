/** What of a job still has to come from the saw and lies in no plan: what the next plan is for. */
import type { JobWithParts } from '../../../worker/contract/job.ts';
import { Section } from '../parts/section.tsx';
import { toCutOf } from '../words/standing.ts';
import { layerName, layersOfKind } from '../words/trade.ts';

/** "2 × Long rail, ply 1", staves of one part together. */
export function wantedLines({ parts }: Pick<JobWithParts, 'parts'>): string[] {
  return parts.flatMap((part) => {
    const pieces = toCutOf(part).filter(({ state }) => state === 'wanted');
    if (pieces.length === 0) return [];
    if (part.lamination === null) return [`${pieces.length} × ${part.label}`];
    if (part.lamination.kind === 'staves')
      return [`${pieces.length} × ${part.label}${layersOfKind(0, pieces.length, part)}`];
    const layers = [...new Set(pieces.map(({ element }) => element ?? 0))].sort((a, b) => a - b);
    return layers.map(
      (layer) =>
        `${pieces.filter(({ element }) => element === layer).length} × ${part.label}, ${layerName(layer, part)}`,
    );
  });
}

export function StillToCut(props: { readonly job: JobWithParts }) {
  const lines = wantedLines(props.job);
  if (lines.length === 0)
    return (
      <p>
        Everything on the cut list is cut or planned. A piece that fails in its rest is wanted again, and stands here
        then.
      </p>
    );
  return (
    <Section title="Still to cut, in no plan yet">
      <ul class="plain-list">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Section>
  );
}
