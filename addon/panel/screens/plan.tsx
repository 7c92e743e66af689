/** A cut plan: how good it is and how sure, each board drawn with its cuts in order, what found no place and why. */
import type { Layout, Plan } from '../../../worker/contract/plan.ts';
import { usePanel } from '../panel.ts';
import { Drawing } from '../parts/drawing.tsx';
import { LayerWords } from '../parts/layer-words.tsx';
import { Fold, Remark, Section } from '../parts/section.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import { count, percentText } from '../words/measure.ts';

export function PlanView(props: { readonly plan: Plan }) {
  const { plan } = props;
  const phases = [...new Set(plan.layouts.map((layout) => layout.phase))].sort((a, b) => a - b);
  return (
    <>
      <div class="form">
        <p>
          <strong>
            {plan.placedCount} of {count(plan.wantedCount, 'blank')}
          </strong>{' '}
          from {count(plan.layouts.length, 'board')}, yield {percentText(plan.yieldPercent)}.
        </p>
        <p>
          {plan.gapPercent <= 0 ? (
            <>No plan for these pieces opens less stock: proven.</>
          ) : (
            <>At most {percentText(plan.gapPercent)} more stock than the best possible plan.</>
          )}{' '}
          <span class="hint">{plan.boundIs}</span>
        </p>
        {plan.changes.length === 0 ? null : (
          <ul class="plain-list">
            {plan.changes.map((change) => (
              <li key={change}>{change}</li>
            ))}
          </ul>
        )}
        {plan.notes.length === 0 ? null : (
          <Fold title="How it was planned">
            <ul class="plain-list">
              {plan.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </Fold>
        )}
      </div>
      {plan.unplaced.length === 0 ? null : <UnplacedList plan={plan} />}
      {phases.map((phase, index) => (
        <Section key={phase} title={phases.length === 1 ? 'Boards' : phaseTitle(index)}>
          {plan.layouts
            .filter((layout) => layout.phase === phase)
            .map((layout) => (
              <LayoutCard key={layout.boardId} layout={layout} />
            ))}
        </Section>
      ))}
    </>
  );
}

function phaseTitle(index: number): string {
  if (index === 0) return 'First: hardest to replace';
  return index === 1 ? 'Then, once those have rested' : 'After that';
}

function UnplacedList(props: { readonly plan: Plan }) {
  const { stock, shell } = usePanel();
  return (
    <Section title="No place found">
      <ul class="plain-list">
        {props.plan.unplaced.map((one) => (
          <li key={`${one.partKey} ${one.element}`}>
            <strong>
              {one.count} × {one.label}
              <LayerWords of={one} />
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
        <Remark key={warning}>{warning}</Remark>
      ))}
      {layout.reserves.map(({ words }) => (
        <Remark key={words}>{words}</Remark>
      ))}
      <Fold title={count(layout.cuts.length, 'cut')}>
        <ol class="numbered">
          {layout.cuts.map((cut) => (
            <li key={cut.no}>
              <span class="no">{cut.no}</span>
              <span>{cut.words}</span>
            </li>
          ))}
        </ol>
      </Fold>
    </div>
  );
}
