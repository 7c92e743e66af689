/** Shop: the yard that this sidebar speaks to, the shop's own figures, and what was written into this sheet. */
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { CheckField } from '../parts/field.tsx';
import { Facts, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import type { Connections } from '../state/connections.ts';
import { count, percentText } from '../words/measure.ts';
import { OtherYards } from './connect.tsx';
import { YardCare } from './shop-copy.tsx';
import { Figures } from './shop-figures.tsx';
import { Keys } from './shop-keys.tsx';
import { Prices } from './shop-prices.tsx';
import { OwnWoods } from './shop-woods.tsx';

export function Shop() {
  const { yard, sheetStatus, connection, connections } = usePanel();
  const facts = yard.facts.value;
  return (
    <>
      <h2>Shop</h2>
      <TaskStatus task={yard.task} />
      {facts === null ? null : (
        <>
          <Facts
            facts={[
              { name: 'Yard', value: facts.name },
              ...(connection === null ? [] : [{ name: 'Address', value: connection.address }]),
              { name: 'You are', value: facts.you.label },
              { name: 'May', value: facts.you.scopes.map((scope) => mayWords[scope] ?? scope).join(', ') },
              { name: 'Stock', value: `${count(facts.boards.inStock, 'board')}, ${facts.boards.held} held` },
              { name: 'Jobs', value: `${facts.openJobs} open` },
            ]}
          />
          <Section title="The shop’s figures">
            <FiguresNow />
            <Figures key={facts.seq} settings={facts.settings} mayChange={facts.you.scopes.includes('admin')} />
            {facts.you.scopes.includes('admin') ? <Prices settings={facts.settings} /> : null}
          </Section>
          <OwnWoods />
          {facts.you.scopes.includes('admin') ? <Keys /> : null}
        </>
      )}
      <YardCare />
      <Section title="This sheet">
        <Button task={sheetStatus.task} onPress={() => void sheetStatus.refresh()}>
          Refresh the status
        </Button>
        <TaskStatus task={sheetStatus.task} />
        <CheckField
          label="Refresh by itself when the sidebar opens on this file"
          on={sheetStatus.byItself.value}
          onChange={(on) => void sheetStatus.setByItself(on)}
        />
        <p class="hint">What was written into this file, and which columns are ours, stands under Help.</p>
      </Section>
      {connections === null ? null : <Yards connections={connections} />}
    </>
  );
}

function Yards(props: { readonly connections: Connections }) {
  const { disconnect, outbox } = usePanel();
  const { connections } = props;
  const front = connections.inFront.value;
  const waits = outbox.waiting.value.length;
  return (
    <Section title="Yards">
      {front === null ? null : <p class="hint">This sidebar speaks with {front.address}.</p>}
      <div class="row">
        <OtherYards connections={connections} />
        <Button onPress={() => connections.another()}>Connect another yard</Button>
      </div>
      <ConfirmButton
        ask={
          waits === 0
            ? 'Forget the address, the key and what this device last knew of this yard? The yard keeps everything.'
            : `${count(waits, 'thing')} did not reach the yard yet and will wait here until this key is entered again. Forget the address and the key?`
        }
        yes="Sign out"
        onPress={() => void disconnect()}
      >
        Sign out
      </ConfirmButton>
    </Section>
  );
}

const mayWords: Readonly<Record<string, string>> = {
  read: 'look',
  stock: 'change the stock',
  plan: 'plan jobs',
  hold: 'hold and cut',
  admin: 'change the shop’s figures and give out keys',
};

function FiguresNow() {
  const { yard } = usePanel();
  const measure = useMeasure();
  const settings = yard.facts.value?.settings;
  if (settings === undefined) return null;
  return (
    <Facts
      facts={[
        {
          name: 'Kerf',
          value: `rip ${measure.length(settings.kerf.ripNm)}, crosscut ${measure.length(settings.kerf.crosscutNm)}`,
        },
        { name: 'Dries to', value: percentText(settings.targetMoisturePercent) },
        {
          name: 'Offcuts',
          value: `kept from ${measure.length(settings.offcutMin.lengthNm)} × ${measure.length(settings.offcutMin.widthNm)}`,
        },
        {
          name: 'Rest',
          value: `${settings.restDays.critical}, ${settings.restDays.visible}, ${settings.restDays.hidden} days for critical, visible and hidden parts`,
        },
        { name: 'Cure', value: `${settings.cureHours} hours` },
      ]}
    />
  );
}
