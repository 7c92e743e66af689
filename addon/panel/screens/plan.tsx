/** A cut plan: how good it is and how sure, each board drawn with its cuts in order, what found no place and why. */
import type { JobWithParts } from '../../../worker/contract/job.ts';
import type { Layout, Plan } from '../../../worker/contract/plan.ts';
import type { Takeoff } from '../../../worker/contract/takeoff.ts';
import { usePanel } from '../panel.ts';
import { Drawing } from '../parts/drawing.tsx';
import { LayersWords } from '../parts/layer-words.tsx';
import { Fold, Remark, Section } from '../parts/section.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { woodCostText } from '../words/cost.ts';
import { count, type Measure, percentText } from '../words/measure.ts';

/** Boards of a plan at the saw on which no piece is planned any more: cut, written off or released. */
export function doneBoards(plan: Plan, job: JobWithParts | null): ReadonlySet<string> {
  if (plan.state !== 'cutting' || job === null || job.id !== plan.jobId) return new Set();
  const planned = job.parts.flatMap((part) =>
    part.pieces.filter((piece) => piece.state === 'planned' && piece.planId === plan.id),
  );
  const open = new Set(planned.map((piece) => piece.boardId));
  return new Set(plan.layouts.map(({ boardId }) => boardId).filter((boardId) => !open.has(boardId)));
}

/**
 * "2 of 11 boards": those that pieces came out of; and the tags of those on which nothing is planned any more though none
 * did, such as one that was released or written off.
 */
export function cutAndNot(plan: Plan, done: readonly Layout[], job: JobWithParts | null) {
  const cutIds = new Set(
    (job?.parts ?? []).flatMap((part) => part.pieces).flatMap((one) => (one.state === 'planned' ? [] : [one.boardId])),
  );
  const cutCount = done.filter(({ boardId }) => cutIds.has(boardId)).length;
  return {
    cutCount,
    cut: `${cutCount} of ${count(plan.layouts.length, 'board')}`,
    notCut: done.filter(({ boardId }) => !cutIds.has(boardId)).map(({ tag }) => tag),
  };
}

/** doneIds: boards that nothing is planned on any more; they stand folded under what is left. */
export function PlanView(props: { readonly plan: Plan; readonly doneIds?: ReadonlySet<string> }) {
  const { job } = usePanel();
  const { plan, doneIds } = props;
  const left = plan.layouts.filter(({ boardId }) => doneIds?.has(boardId) !== true);
  const done = plan.layouts.filter(({ boardId }) => doneIds?.has(boardId) === true);
  const { cutCount, cut, notCut } = cutAndNot(plan, done, job.job.value);
  const all = [...new Set(plan.layouts.map((layout) => layout.phase))].sort((a, b) => a - b);
  const phases = all.filter((phase) => left.some((layout) => layout.phase === phase));
  return (
    <>
      {done.length === 0 ? null : (
        <p>
          {cutCount === 0 ? null : (
            <>
              <strong>{cut}</strong> {cutCount === 1 ? 'is' : 'are'} cut.{' '}
            </>
          )}
          {notCut.length === 0 ? null : <Unbroken text={`Nothing more is planned on ${notCut.join(', ')}. `} />}
          <Unbroken text={`Left: ${left.map(({ tag }) => tag).join(', ')}.`} />
        </p>
      )}
      {done.length === 0 ? <PlanFigures plan={plan} /> : null}
      {done.length > 0 || plan.unplaced.length === 0 ? null : <UnplacedList plan={plan} />}
      {phases.map((phase) => (
        <Section key={phase} title={all.length === 1 ? 'Boards' : phaseTitle(all.indexOf(phase))}>
          {left
            .filter((layout) => layout.phase === phase)
            .map((layout) => (
              <LayoutCard key={layout.boardId} layout={layout} />
            ))}
        </Section>
      ))}
      {done.length === 0 ? null : (
        <Fold
          title={`${notCut.length === 0 ? 'Cut already' : 'No longer to cut'}, and the plan as it was: ${count(done.length, 'board')}`}
        >
          <PlanFigures plan={plan} />
          {plan.unplaced.length === 0 ? null : <UnplacedList plan={plan} />}
          {done.map((layout) => (
            <LayoutCard key={layout.boardId} layout={layout} />
          ))}
        </Fold>
      )}
    </>
  );
}

function PlanFigures(props: { readonly plan: Plan }) {
  const { job } = usePanel();
  const measure = useMeasure();
  const { plan } = props;
  return (
    <div class="form">
      <p>
        <strong>
          {plan.placedCount} of {count(plan.wantedCount, 'blank')}
        </strong>{' '}
        from {count(plan.layouts.length, 'board')}
        {plan.cost === null ? '' : woodCostText(plan.cost, plan.layouts.length, measure)}, yield{' '}
        {percentText(plan.yieldPercent)}.
      </p>
      <p>
        {plan.gapPercent <= 0 ? (
          plan.boundIs
        ) : (
          <>
            At most {percentText(plan.gapPercent)} more stock than the best possible plan.{' '}
            <span class="hint">{plan.boundIs}</span>
          </>
        )}
      </p>
      {job.takeoff.value !== null && isNarrowerThanTakenOff(plan, job.takeoff.value) ? (
        <p class="hint">
          Narrower than in the takeoff: blanks are sized for each board as dry as it is, the takeoff for the wettest
          allowed.
        </p>
      ) : null}
      {besideTakeoffText(plan, job.takeoff.value, measure) === null ? null : (
        <p class="hint">{besideTakeoffText(plan, job.takeoff.value, measure)}</p>
      )}
      {plan.changes.length === 0 ? null : (
        <>
          {/* Sessions end and boards are cut after a plan is made: what was so then may not be so now. */}
          {plan.state === 'draft' ? null : <p class="hint">When it was planned:</p>}
          <ul class="plain-list">
            {plan.changes.map((change) => (
              <li key={change}>
                <Unbroken text={change} />
              </li>
            ))}
          </ul>
        </>
      )}
      {plan.notes.length === 0 ? null : (
        <Fold title="How it was planned">
          <ul class="plain-list">
            {plan.notes.map((note) => (
              <li key={note}>
                <Unbroken text={note} />
              </li>
            ))}
          </ul>
        </Fold>
      )}
    </div>
  );
}

/**
 * What the boards cost, set beside the money of the takeoff in front; null where that is of another job, or where one of
 * them has no price. A plan of the rest of a list is not set beside the takeoff of all of it.
 */
export function besideTakeoffText(
  plan: Pick<Plan, 'jobId' | 'cost' | 'continues'>,
  takeoff: Takeoff | null,
  measure: Measure,
): string | null {
  if (takeoff?.jobId !== plan.jobId || plan.continues !== null) return null;
  const gross = takeoff.total.costMinor;
  if (gross === null || plan.cost === null || plan.cost.minor === 0) return null;
  return `These boards, whole, cost ${measure.money(plan.cost.minor)} with what is left of them; the takeoff reckons ${measure.money(gross)} for its gross wood at the shop’s prices.`;
}

/** Whether some blank of the plan is cut narrower than the takeoff in front says. */
export function isNarrowerThanTakenOff(plan: Pick<Plan, 'jobId' | 'layouts'>, takeoff: Takeoff): boolean {
  if (takeoff.jobId !== plan.jobId) return false;
  const rows = new Map(takeoff.rows.map((row) => [row.key, row.blanks]));
  return plan.layouts.some(({ pieces }) =>
    pieces.some(({ partKey, element, what, leftNm, rightNm }) => {
      const blanks = rows.get(partKey) ?? [];
      // Layers of one size stand under the first of them: of those not named the narrowest is taken.
      const named = blanks.filter((one) => one.element === element);
      const alike = named.length > 0 ? named : blanks.filter((one) => one.what === what);
      return alike.length > 0 && rightNm - leftNm < Math.min(...alike.map(({ rough }) => rough.widthNm));
    }),
  );
}

function phaseTitle(index: number): string {
  if (index === 0) return 'First: hardest to replace';
  return index === 1 ? 'Then, once those have rested' : 'After that';
}

function UnplacedList(props: { readonly plan: Plan }) {
  const { stock, shell } = usePanel();
  return (
    <Section title={props.plan.state === 'draft' ? 'No place found' : 'When it was planned: no place found'}>
      <ul class="plain-list">
        {props.plan.unplaced.map((one) => (
          <li key={`${one.partKey} ${one.element}`}>
            <strong>
              {one.count} × {one.label}
              <LayersWords of={one} />
            </strong>
            <br />
            <Unbroken text={one.why} />
            {one.nearest === null ? null : (
              <>
                {' '}
                Nearest:{' '}
                <button
                  type="button"
                  class="cell-link"
                  onClick={() => {
                    if (one.nearest === null) return;
                    shell.tab.value = 'Stock';
                    void stock.open(one.nearest.boardId);
                  }}
                >
                  {one.nearest.tag}
                </button>
                <Unbroken text={`, ${one.nearest.failsBy.join(', ')}.`} />
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}

export function LayoutCard(props: { readonly layout: Layout }) {
  const { layout } = props;
  return (
    <div class="card">
      <div class="card-head">
        <h4>{layout.tag}</h4>
        <span class="hint">yield {percentText(layout.yieldPercent)}</span>
      </div>
      <Drawing drawing={layout.drawing} />
      {layout.warnings.map((warning) => (
        <Remark key={warning}>
          <Unbroken text={warning} />
        </Remark>
      ))}
      {layout.reserves.map(({ words }) => (
        <Remark key={words}>
          <Unbroken text={words} />
        </Remark>
      ))}
      <Fold title={count(layout.cuts.length, 'cut')}>
        <ol class="numbered">
          {layout.cuts.map((cut) => (
            <li key={cut.no}>
              <span class="no">{cut.no}</span>
              <span>
                <Unbroken text={cut.words} />
              </span>
            </li>
          ))}
        </ol>
      </Fold>
    </div>
  );
}
