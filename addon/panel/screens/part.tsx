/** One part of the cut list: what it asks for, and each of its pieces. */

import type { JobWithParts, Piece } from '../../../worker/contract/job.ts';
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { BoardSize } from '../parts/measure.tsx';
import { Facts, Section, View } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { percentText, speciesText } from '../words/measure.ts';
import { toCutOf } from '../words/standing.ts';
import { facesWords, grainWords, layerWords, pieceWords, useWords } from '../words/trade.ts';

export function Part(props: { readonly job: JobWithParts; readonly partKey: string; readonly onBack: () => void }) {
  const { job: state, shell, offcuts } = usePanel();
  const measure = useMeasure();
  const part = props.job.parts.find((one) => one.key === props.partKey);
  if (part === undefined) return null;
  const { lamination } = part;
  const [next] = toCutOf(part);
  const facts = [
    { name: 'Finished', value: <BoardSize size={part} system={part.measuredIn} /> },
    { name: 'Quantity', value: part.quantity },
    { name: 'Species', value: speciesText(part.species) },
    { name: 'Used', value: useWords[part.use] },
    { name: 'Faces', value: facesWords[part.faces] },
  ];
  if (part.grain !== 'unknown') facts.push({ name: 'Grain', value: grainWords[part.grain] });
  if (part.moisturePercentMax !== null)
    facts.push({ name: 'Moisture', value: `at most ${percentText(part.moisturePercentMax)}` });
  if (lamination !== null) {
    facts.push({
      name: 'Glued up',
      value:
        lamination.kind === 'staves'
          ? `${lamination.count} staves`
          : lamination.plies
              .map((ply) => `${measure.length(ply.thicknessNm)} × ${measure.length(ply.widthNm)}`)
              .join(', '),
    });
  }
  if (part.shapeNote !== '') facts.push({ name: 'Note', value: part.shapeNote });
  return (
    <View title={part.label} back={props.job.name} onBack={props.onBack}>
      <Facts facts={facts} />
      {next === undefined ? null : (
        <Button
          onPress={() => {
            offcuts.asking.value = 'homes';
            shell.tab.value = 'Offcuts';
            const { element } = next;
            void offcuts.askHomes(
              { jobId: props.job.id, partKey: part.key, element },
              part.label + layerWords(element, part),
            );
          }}
        >
          Best board for it
        </Button>
      )}
      <Section title="Pieces">
        <ul class="plain-list">
          {part.pieces.map((piece) => (
            <li key={`${piece.no} ${piece.element} ${piece.attempt}`} class="row spread">
              <span>
                no. {piece.no}
                {layerWords(piece.element, part)}
                {piece.attempt > 1 ? `, try ${piece.attempt}` : ''}: <strong>{pieceWords[piece.state]}</strong>{' '}
                <span class="hint">{detail(piece, shell.today())}</span>
              </span>
              {piece.state === 'planned' || piece.state === 'roughed' ? (
                <Button
                  kind="quiet"
                  task={state.writing}
                  onPress={() =>
                    void state.move(
                      [{ partKey: part.key, no: piece.no, element: piece.element, to: 'wanted', why: '' }],
                      `${part.label} no. ${piece.no} is wanted again.`,
                    )
                  }
                >
                  Want it again
                </Button>
              ) : null}
            </li>
          ))}
        </ul>
        <TaskStatus task={state.writing} />
      </Section>
    </View>
  );
}

function detail(piece: Piece, today: string): string {
  if (piece.state === 'failed') return piece.why;
  if (piece.state === 'roughed' && piece.restingUntil !== null)
    return `rests until ${dayTextBeside(piece.restingUntil, today)}`;
  return '';
}
