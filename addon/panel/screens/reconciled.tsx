/** After the saw: where the wood went, which offcuts there are now, what is wanted again. */
import { usePanel } from '../panel.ts';
import { Balance } from '../parts/balance.tsx';
import { Button } from '../parts/button.tsx';
import { LayersWords } from '../parts/layer-words.tsx';
import { BoardSize } from '../parts/measure.tsx';
import { Fold, Remark, Section, View } from '../parts/section.tsx';
import { Unbroken } from '../parts/unbroken.tsx';
import type { Reconciled as Answer } from '../state/cuts.ts';
import { accountOf, sumOfAccounts } from '../state/wood-account.ts';
import { count } from '../words/measure.ts';

export function Reconciled(props: { readonly answer: Answer; readonly onBack: () => void }) {
  const { stock, shell, cuts } = usePanel();
  const { answer } = props;
  const planAgain = () => {
    props.onBack();
    const now = cuts.plan.value;
    void (now?.state === 'done' ? cuts.makePlan(now.jobId, 'normal') : cuts.replan());
  };
  const accounts = answer.balances.map((balance) => ({ tag: balance.tag, account: accountOf(balance) }));
  return (
    <View title="Written down" back="Cuts" onBack={props.onBack}>
      <p>
        {answer.session.state === 'closed'
          ? 'The session is closed.'
          : `${count(answer.session.boardIds.length - answer.session.doneBoardIds.length, 'board')} still to write down.`}
      </p>
      {answer.notes.map((note) => (
        <Remark key={note}>
          <Unbroken text={note} />
        </Remark>
      ))}
      {answer.wantedAgain.length === 0 ? null : (
        <Section
          title="Wanted again"
          beside={
            <Button kind="quiet" task={cuts.planning} onPress={planAgain}>
              Plan again
            </Button>
          }
        >
          <ul class="plain-list">
            {answer.wantedAgain.map((one) => (
              <li key={`${one.partKey} ${one.element}`}>
                {one.count} × {one.label}
                <LayersWords of={one} />
              </li>
            ))}
          </ul>
        </Section>
      )}
      {answer.offcuts.length === 0 ? null : (
        <Section title="Offcuts in the stock now">
          <ul class="plain-list">
            {answer.offcuts.map((offcut) => (
              <li key={offcut.id}>
                <button
                  type="button"
                  class="cell-link"
                  onClick={() => {
                    shell.tab.value = 'Stock';
                    void stock.open(offcut.id);
                  }}
                >
                  {offcut.tag}
                </button>
                {offcut.size === undefined ? null : (
                  <span class="hint">
                    {' '}
                    <BoardSize size={offcut.size} />
                  </span>
                )}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {accounts.length === 0 ? null : (
        <Section title="Where the wood went">
          {accounts.length === 1 ? null : (
            <Balance account={sumOfAccounts(accounts.map((one) => one.account))} of={`${accounts.length} boards`} />
          )}
          {accounts.map((one) =>
            accounts.length === 1 ? (
              <Balance key={one.tag} account={one.account} of={one.tag} />
            ) : (
              <Fold key={one.tag} title={one.tag}>
                <Balance account={one.account} of={one.tag} />
              </Fold>
            ),
          )}
        </Section>
      )}
      <Button kind="primary" onPress={props.onBack}>
        Done
      </Button>
    </View>
  );
}
