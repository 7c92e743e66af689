/** Keys and links, for the owner: who has one, when it was last used; making, renewing, taking back. */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { FeedList, Role } from '../../../worker/contract/key.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { type Option, SelectField, TextField } from '../parts/field.tsx';
import { Fold, Remark, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useOnce } from '../parts/use-once.ts';
import { type Key, type KeysState, makeKeys } from '../state/keys.ts';
import { momentText } from '../words/measure.ts';

const roles: readonly Option<Role>[] = [
  { value: 'hand', label: 'Hand: stock, jobs and the saw' },
  { value: 'viewer', label: 'Viewer: looks only' },
  { value: 'owner', label: 'Owner: everything, keys too' },
];
const lists: readonly Option<FeedList>[] = [
  { value: 'stock', label: 'The stock' },
  { value: 'held', label: 'Who holds what' },
  { value: 'cut-list', label: 'One job’s cut list' },
];
const ends = ['', '30', '90', '365'].map((value) => ({
  value,
  label: value === '' ? 'Until I take it back' : `${value} days`,
}));
const what: Readonly<Record<Key['role'], string>> = {
  owner: 'owner',
  hand: 'hand',
  viewer: 'viewer',
  feed: 'link',
  link: 'link code',
};

export function Keys() {
  const { api, shell, job } = usePanel();
  const keys = useMemo(() => makeKeys(api, shell), [api, shell]);
  useOnce(() => {
    void keys.load();
    if (job.jobs.items.value === null) void job.load();
  });
  const all = keys.keys.value;
  const ended = all.filter((key) => !key.works);
  return (
    <Section title="Keys and links">
      <Made keys={keys} />
      <Code keys={keys} />
      <TaskStatus task={keys.task} />
      <ul class="plain-list">
        {all
          .filter((key) => key.works)
          .map((key) => (
            <KeyRow key={key.id} of={key} keys={keys} />
          ))}
      </ul>
      <Fold title="Connect a sidebar with a code">
        <LinkCodeForm keys={keys} />
      </Fold>
      <Fold title="Give somebody a key">
        <KeyForm keys={keys} />
      </Fold>
      <Fold title="Link for another spreadsheet">
        <FeedForm keys={keys} />
      </Fold>
      {ended.length === 0 ? null : (
        <Fold title="Ended lately">
          <ul class="plain-list">
            {ended.map((key) => (
              <li key={key.id}>
                {key.label}, {key.revokedAtMs === null ? 'ran out' : 'taken back'}
              </li>
            ))}
          </ul>
        </Fold>
      )}
    </Section>
  );
}

function Made(props: { readonly keys: KeysState }) {
  const made = props.keys.made.value;
  const field = useRef<HTMLInputElement>(null);
  // Straight to what has to be copied, for the hand and for the ear.
  useEffect(() => {
    if (made !== null) field.current?.focus();
  }, [made]);
  if (made === null) return null;
  return (
    <Remark strong>
      <div class="field">
        <label for="new-secret">
          {made.key.feed === null ? 'The key of' : 'The link for'} {made.key.label}
        </label>
        <input
          id="new-secret"
          ref={field}
          type="text"
          readOnly
          value={made.secret}
          aria-describedby="new-secret-hint"
          onFocus={(event) => event.currentTarget.select()}
        />
        <p class="hint" id="new-secret-hint">
          Copy it now: it is not shown again. Whoever has it can use it.
        </p>
      </div>
      <Button onPress={() => props.keys.putAway()}>I have it</Button>
    </Remark>
  );
}

function KeyRow(props: { readonly of: Key; readonly keys: KeysState }) {
  const { of, keys } = props;
  const { shell } = usePanel();
  const today = shell.today();
  const used = of.lastUsedAtMs === null ? 'never used' : `last used ${momentText(of.lastUsedAtMs, today)}`;
  return (
    <li>
      <strong>{of.label}</strong> · {what[of.role]}
      {of.yours ? ', the one in use here' : ''}
      <p class="hint">
        {used}
        {of.expiresAtMs === null ? '' : `; works until ${momentText(of.expiresAtMs, today)}`}
      </p>
      <div class="row">
        {of.role === 'link' ? null : (
          <ConfirmButton
            kind="quiet"
            name={`Renew ${of.label}`}
            task={keys.task}
            ask="Make a new secret? The one before works one more day."
            yes="Renew"
            onPress={() => void keys.renew(of)}
          >
            Renew
          </ConfirmButton>
        )}
        <ConfirmButton
          kind="quiet"
          name={`Take back ${of.label}`}
          task={keys.task}
          ask={`“${of.label}” stops working at once.`}
          yes="Take back"
          onPress={() => void keys.revoke(of)}
        >
          Take back
        </ConfirmButton>
      </div>
    </li>
  );
}

const daysOf = (end: string) => (end === '' ? null : Number(end));

/** Address and code together in one field to copy, and the code large, to be read out or typed over. */
function Code(props: { readonly keys: KeysState }) {
  const { shell } = usePanel();
  const code = props.keys.code.value;
  if (code === null) return null;
  const line = `${code.address} ${code.code}`;
  return (
    <Remark strong>
      <p>
        Code for {code.key.label}: <strong class="link-code">{code.code}</strong>
      </p>
      <div class="field">
        <label for="new-link">Address and code, to copy</label>
        <input
          id="new-link"
          type="text"
          readOnly
          value={line}
          aria-describedby="new-link-hint"
          onFocus={(event) => event.currentTarget.select()}
        />
        <p class="hint" id="new-link-hint">
          Paste it into the first field of the other sidebar. It works once, until{' '}
          {momentText(code.endsAtMs, shell.today())}.
        </p>
      </div>
      <Button onPress={() => props.keys.putAway()}>Done</Button>
    </Remark>
  );
}

function LinkCodeForm(props: { readonly keys: KeysState }) {
  const [label, setLabel] = useState('');
  const [role, setRole] = useState<Role>('hand');
  const make = async () => {
    if (await props.keys.makeLinkCode({ label, role })) setLabel('');
  };
  return (
    <>
      <p class="hint">Eight characters to type instead of a key to paste. It works once, for ten minutes.</p>
      <TextField label="Who connects, or where" value={label} onInput={setLabel} placeholder="Ann, or bench tablet" />
      <SelectField label="May" value={role} options={roles} onPick={setRole} />
      <Button task={props.keys.task} off={label.trim() === ''} onPress={() => void make()}>
        Make the code
      </Button>
    </>
  );
}

function KeyForm(props: { readonly keys: KeysState }) {
  const [label, setLabel] = useState('');
  const [role, setRole] = useState<Role>('hand');
  const [end, setEnd] = useState('');
  const make = async () => {
    if (await props.keys.makeKey({ label, role, days: daysOf(end) })) setLabel('');
  };
  return (
    <>
      <TextField label="Whose, or where" value={label} onInput={setLabel} placeholder="Ann, or bench tablet" />
      <SelectField label="May" value={role} options={roles} onPick={setRole} />
      <SelectField label="Works" value={end} options={ends} onPick={setEnd} />
      <Button task={props.keys.task} off={label.trim() === ''} onPress={() => void make()}>
        Make the key
      </Button>
    </>
  );
}

function FeedForm(props: { readonly keys: KeysState }) {
  const jobs = usePanel().job.jobs.items.value ?? [];
  const [label, setLabel] = useState('');
  const [list, setList] = useState<FeedList>('stock');
  const [picked, setPicked] = useState('');
  const jobId = list === 'cut-list' ? picked || (jobs[0]?.id ?? '') : null;
  const make = async () => {
    if (await props.keys.makeFeed({ label, list, jobId })) setLabel('');
  };
  return (
    <>
      <p class="hint">For =IMPORTDATA("…") or a web query: reads this one list, changes nothing.</p>
      <TextField label="What for" value={label} onInput={setLabel} placeholder="Price sheet" />
      <SelectField label="Shows" value={list} options={lists} onPick={setList} />
      {jobId === null ? null : (
        <SelectField
          label="Job"
          value={jobId}
          options={jobs.map((job) => ({ value: job.id, label: job.name }))}
          onPick={setPicked}
        />
      )}
      <Button task={props.keys.task} off={label.trim() === '' || jobId === ''} onPress={() => void make()}>
        Make the link
      </Button>
    </>
  );
}
