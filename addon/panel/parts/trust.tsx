/** How far an answer's figures may be trusted: what is from memory or mere practice at once, the documents behind a fold. */
import type { Source } from '../../../worker/contract/wood-figure.ts';
import { Fold } from './section.tsx';

/** Figures that stand in no document. */
const WEAK: readonly Source['flag'][] = ['from-memory', 'common-practice', 'own'];

export function Trust(props: { readonly sources: readonly Source[]; readonly notes: readonly string[] }) {
  const { sources, notes } = props;
  const weak = sources.filter(({ flag }) => WEAK.includes(flag));
  return (
    <>
      {notes.map((note) => (
        <p key={note} class="hint">
          {note}
        </p>
      ))}
      {weak.length === 0 ? null : (
        <p class="hint">Without a source: {weak.map(({ of, words }) => `${of} (${words})`).join('; ')}.</p>
      )}
      {sources.length > weak.length ? (
        <Fold title="Where the figures come from">
          <ul class="plain-list">
            {sources
              .filter((source) => !weak.includes(source))
              .map(({ of, words, document }) => (
                <li key={of}>
                  {of}: {words}
                  {document === null ? null : `, ${document}`}
                </li>
              ))}
          </ul>
        </Fold>
      ) : null}
    </>
  );
}
