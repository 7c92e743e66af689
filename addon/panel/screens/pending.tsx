/** What was written down and is not with the yard yet: always in sight while there is any. */
import { useCore } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { tooOld, type Waiting } from '../state/outbox.ts';
import { count, momentText } from '../words/measure.ts';

export function PendingNote() {
  const { outbox } = useCore();
  const waiting = outbox.waiting.value;
  if (waiting.length === 0) return null;
  const refused = waiting.some((thing) => thing.refused !== null);
  return (
    <details class={`note pending${refused ? ' trouble' : ''}`} open={refused}>
      <summary>{count(waiting.length, 'thing')} not with the yard yet</summary>
      <ul class="plain-list">
        {waiting.map((thing) => (
          <li key={thing.id}>
            <Thing thing={thing} />
          </li>
        ))}
      </ul>
      <Button off={outbox.sending.value} onPress={() => void outbox.send()}>
        Send now
      </Button>
    </details>
  );
}

function Thing(props: { readonly thing: Waiting }) {
  const { outbox, shell } = useCore();
  const { thing } = props;
  const old = tooOld(thing, shell.nowMs());
  return (
    <>
      {thing.what}
      <br />
      <span class="hint">
        {thing.path === undefined ? 'Written down' : 'Begun'} {momentText(thing.atMs, shell.today())}
        {thing.path === undefined ? '' : '; the yard has not said yet whether it is done'}
      </span>
      {thing.refused === null ? null : (
        <p>
          The yard did not take it: {thing.refused.detail} Nothing was changed. Put right what stands in the way and
          send it again, or drop it and write it down anew.
        </p>
      )}
      {old ? (
        <p>This is so old that the yard may have it already. Look in the journal before you send it again.</p>
      ) : null}
      <div class="row">
        {thing.refused !== null || old ? (
          <Button name={`Send again: ${thing.what}`} onPress={() => void outbox.sendAgain(thing.id)}>
            Send again
          </Button>
        ) : null}
        <ConfirmButton
          kind="quiet"
          name={`Drop: ${thing.what}`}
          ask="Drop it? If it did not reach the yard, the yard will never hear of it."
          yes="Drop it"
          onPress={() => void outbox.drop(thing.id)}
        >
          Drop
        </ConfirmButton>
      </div>
    </>
  );
}
