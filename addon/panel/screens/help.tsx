/** Help: what was changed in this file and how it is left alone, the keyboard, what this is, and what to send to whoever helps. */
import { useEffect, useState } from 'preact/hooks';
import type { Capabilities } from '../../host/host.ts';
import { usePanel } from '../panel.ts';
import { Button, ConfirmButton } from '../parts/button.tsx';
import { CopyButton } from '../parts/copy.tsx';
import { download } from '../parts/download.ts';
import { CheckField } from '../parts/field.tsx';
import { Fold, Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { useOnce } from '../parts/use-once.ts';
import { aboutLine, diagnosticsOf } from '../state/diagnostics.ts';
import { count, momentText } from '../words/measure.ts';

export function Help() {
  const { host } = usePanel();
  const [capabilities, setCapabilities] = useState<Capabilities | null>(null);
  useEffect(() => {
    void host.capabilities().then(setCapabilities);
  }, [host]);
  return (
    <>
      <h2>Help</h2>
      <ol class="steps">
        <li>Select one cell of your list. Stock reads boards in, Job reads a cut list; look at how it was read.</li>
        <li>Take off, plan the cuts, hold the boards, print the cards.</li>
        <li>Write down what came out. The journal turns round whatever was wrong.</li>
      </ol>
      <ThisFile />
      <Section title="Keyboard">
        <dl class="facts keys">
          <div>
            <dt>F6</dt>
            <dd>
              {capabilities?.host === 'bench'
                ? 'sheet and sidebar, to and fro'
                : 'to the sidebar and back, as the program has it'}
            </dd>
          </div>
          <div>
            <dt>← →</dt>
            <dd>between the tabs</dd>
          </div>
          <div>
            <dt>Esc</dt>
            <dd>out of a view, or of a question</dd>
          </div>
        </dl>
      </Section>
      <Section title="Formulas">{capabilities === null ? null : <p>{formulaWords[capabilities.host]}</p>}</Section>
      <Section title="Taking it away">
        <p>
          Nothing of yours goes when Heartside is removed. Columns of ours are headed Yard ref, Board feet, gross, Rough
          size, Status, Held by, Ready on and Short; their headings say so in a note. Gross is what to have or buy:
          rough blanks at the called thickness, with the shop’s waste. Delete them like any column; without Yard ref,
          parts are known again by their name and sizes.
        </p>
      </Section>
      <Section title="About">
        {capabilities === null ? null : <p>{aboutLine(capabilities)}</p>}
        <p class="hint">
          It reads the cells you point it at, writes only after showing what, and speaks with your own yard and nobody
          else.
        </p>
        <Diagnostics />
      </Section>
    </>
  );
}

const formulaWords: Readonly<Record<Capabilities['host'], string>> = {
  google: 'Extensions, Heartside, Formulas lists them. Give ranges rather than one formula a cell.',
  excel: 'Type =HEART. in a cell to see them. If one says #NAME? or #BUSY!, open this pane, then Ctrl+Alt+Shift+F9.',
  bench:
    'In Google Sheets and Excel the add-in brings formulas such as board feet and moisture; the bench’s grid has none.',
  file: 'A file has no formulas of ours.',
};

const SHOWN = 8;

function ThisFile() {
  const { writeBack, shell } = usePanel();
  const { log } = writeBack;
  useOnce(() => void log.load().catch(() => undefined));
  const entries = log.entries.value;
  const columns = [...new Set(entries.flatMap((entry) => entry.columns.map((one) => `${one} (${entry.sheet})`)))];
  return (
    <Section title="This file">
      <CheckField
        label="Read only: never write into this file"
        on={log.readOnly.value}
        onChange={(on) => void log.setReadOnly(on)}
      />
      <OpensWithFile />
      {entries.length === 0 ? (
        <p class="hint">Heartside has written nothing into this file yet.</p>
      ) : (
        <>
          <p>What we changed here:</p>
          <ul class="plain-list" aria-label="What we changed here">
            {entries.slice(0, SHOWN).map((entry) => (
              <li key={`${entry.atMs} ${entry.what}`}>
                {entry.what}
                <p class="hint">
                  {momentText(entry.atMs, shell.today())}, {count(entry.cells, 'cell')} on “{entry.sheet}”
                  {entry.columns.length === 0 ? '' : `: ${entry.columns.join(', ')}`}
                  {entry.undone ? '; taken back' : ''}
                </p>
              </li>
            ))}
          </ul>
          {columns.length === 0 ? null : <p class="hint">Columns of ours: {columns.join(', ')}.</p>}
          <Button task={writeBack.task} onPress={() => void writeBack.undo()}>
            Undo last write
          </Button>
          <TaskStatus task={writeBack.task} />
        </>
      )}
      <ConfirmButton
        kind="quiet"
        ask="Forget how this file’s columns were read, which columns are ours and what was written? The cells stay as they are; formulas that ask the yard must be allowed anew."
        yes="Forget this file"
        onPress={() =>
          void log.forgetFile().then(() => shell.say('This file is forgotten. Its cells stay as they are.'))
        }
      >
        Forget this file
      </ConfirmButton>
    </Section>
  );
}

/** Only on the user's word: whoever gets the file and has Heartside sees it open too. */
function OpensWithFile() {
  const { host, shell } = usePanel();
  const { opensWithFile } = host;
  const [on, setOn] = useState<boolean | null>(null);
  // A file that can't be asked just now offers nothing.
  useOnce(() => void opensWithFile?.get().then(setOn, () => undefined));
  if (!opensWithFile || on === null) return null;
  const change = async (next: boolean) => {
    const fault: unknown = await opensWithFile.set(next).then(
      () => null,
      (thrown: unknown) => thrown,
    );
    if (fault instanceof Error) {
      shell.say(fault.message);
      return;
    }
    setOn(next);
    shell.say(
      next ? 'Heartside opens with this file, once the file is saved.' : 'Heartside stays shut with this file.',
    );
  };
  return <CheckField label="Open Heartside with this file" on={on} onChange={(next) => void change(next)} />;
}

function Diagnostics() {
  const panel = usePanel();
  const [text, setText] = useState('');
  const gather = async () => setText(await diagnosticsOf(panel, navigator.userAgent));
  if (text === '') return <Button onPress={() => void gather()}>Gather diagnostics</Button>;
  return (
    <>
      <p class="hint">Versions, what this program can do and what failed lately. No key and nothing from your cells.</p>
      <div class="row">
        <Button onPress={() => download(text, 'heartside-diagnostics.json', 'application/json')}>Save as a file</Button>
        <CopyButton text={text}>Copy</CopyButton>
      </div>
      <Fold title="See what is in it">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long text that scrolls must be reachable by keyboard */}
        <pre class="diagnostics" tabIndex={0}>
          {text}
        </pre>
      </Fold>
    </>
  );
}
