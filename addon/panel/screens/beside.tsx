/** Plans that are held or begun beside the one in front, such as a ply that failed planned anew while the rest is at the saw. */
import type { Plan } from '../../../worker/contract/plan.ts';
import { pieceName } from '../../../worker/wood/piece-name.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { Fold, Section } from '../parts/section.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { count } from '../words/measure.ts';
import { doneBoards, LayoutCard } from './plan.tsx';

const piecesNamed = 3;

/** "JB-104 (Long rail 1, ply 3)"; of many pieces the first are named. */
export function boardWithPieces({ tag, pieces }: Plan['layouts'][number]): string {
  const names = pieces.map(pieceName);
  const named = names.length > piecesNamed + 1 ? names.slice(0, piecesNamed) : names;
  const more = names.length - named.length;
  return `${tag} (${named.join('; ')}${more === 0 ? '' : ` and ${more} more`})`;
}

export function PlansBeside() {
  const { cuts } = usePanel();
  const plans = cuts.beside.value;
  return (
    <>
      {plans.map((plan) => (
        <PlanBeside key={plan.id} plan={plan} />
      ))}
    </>
  );
}

function PlanBeside(props: { readonly plan: Plan }) {
  const { cuts, job } = usePanel();
  const { plan } = props;
  const doneIds = doneBoards(plan, job.job.value);
  const left = plan.layouts.filter(({ boardId }) => !doneIds.has(boardId));
  if (left.length === 0) return null;
  const held = plan.state === 'reserved';
  const tags = left.map(({ tag }) => tag).join(', ');
  return (
    <Section title={held ? 'Also planned and held' : 'Also begun, and left to cut'}>
      <p>
        <Unbroken text={`${left.map(boardWithPieces).join(', ')}.`} />
      </p>
      <Fold title={`How ${left.length === 1 ? tags : count(left.length, 'board')} will be cut`}>
        {left.map((layout) => (
          <LayoutCard key={layout.boardId} layout={layout} />
        ))}
      </Fold>
      {held ? (
        <Button
          task={cuts.writing}
          off={cuts.planning.busy.value}
          name={`Cut it now, in a session of its own: ${tags}`}
          onPress={() => void cuts.cutNow(plan)}
        >
          Cut it now, in a session of its own
        </Button>
      ) : null}
      <Button
        kind="quiet"
        task={cuts.reading}
        off={cuts.planning.busy.value || cuts.writing.busy.value}
        name={`Show this plan: ${tags}`}
        onPress={() => void cuts.bring(plan)}
      >
        Show this plan
      </Button>
    </Section>
  );
}
