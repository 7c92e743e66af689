/** The first screen where the page brings no yard of its own: address and key, what the key is for, where it is kept. */
import { useEffect, useState } from 'preact/hooks';
import { useCore } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { fetched, WhenFetched } from '../parts/later.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import type { Connections } from '../state/connections.ts';
import { VERSION } from '../version.ts';

const trial = fetched(() => import('./trial.tsx'));

export function Connect(props: { readonly connections: Connections }) {
  const [address, setAddress] = useState('');
  const [secret, setSecret] = useState('');
  const [trying, setTrying] = useState(false);
  const { host } = useCore();
  const { connections } = props;
  const connect = () => void connections.connect(address, secret);
  const asks = connections.now.value.kind === 'none';
  // While a kept connection is looked for, what the menu asked for is left to the panel that may open.
  useEffect(
    () => (asks ? host.onCommand((command) => setTrying(command === 'use-selection')) : undefined),
    [host, asks],
  );
  if (trying) {
    return (
      <div class="heartside">
        <div class="screen">
          <WhenFetched of={trial}>{({ Trial }) => <Trial onBack={() => setTrying(false)} />}</WhenFetched>
        </div>
      </div>
    );
  }
  return (
    <div class="heartside">
      <div class="screen connect">
        <h1>Heartside</h1>
        {connections.now.value.kind === 'looking' ? null : (
          <>
            <p>Connect this sidebar to your yard: the place that keeps your boards, jobs and journal.</p>
            <OtherYards connections={connections} />
            <TextField
              label="Address of the yard"
              hint="Address and code may be pasted here together."
              type="url"
              value={address}
              onInput={setAddress}
              placeholder="https://"
              onEnter={connect}
            />
            <TextField
              label="Link code, or key"
              type="password"
              value={secret}
              onInput={setSecret}
              hint="The owner makes a code under Shop, Keys and links. What it is changed for stays with your own settings, never in the sheet."
              onEnter={connect}
            />
            <Button kind="primary" task={connections.task} onPress={connect}>
              Connect
            </Button>
            <TaskStatus task={connections.task} />
            <p>Or look first: select a cell of your list, and see what Heartside reads from it.</p>
            <Button onPress={() => setTrying(true)}>Read my sheet without a yard</Button>
            <p class="hint">
              It reads only what you point it at, and writes nothing before it has shown you. Version {VERSION}.
            </p>
          </>
        )}
      </div>
    </div>
  );
}

/** Yards connected before and not in front, each a press away. */
export function OtherYards(props: { readonly connections: Connections }) {
  const { connections } = props;
  const front = connections.now.value.kind === 'connected' ? connections.inFront.value : null;
  return (
    <>
      {connections.yards.value
        .filter((yard) => yard.key !== front?.key)
        .map((yard) => (
          <Button key={yard.key} onPress={() => void connections.choose(yard)}>
            Open {yard.name}
          </Button>
        ))}
    </>
  );
}
