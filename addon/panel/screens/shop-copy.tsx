/** The owner's care for the whole yard: a copy of it as one file, a check of every rule, and the way back from a copy. */
import { signal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { Finding } from '../../../worker/contract/doctor.ts';
import type { YardApi } from '../api.ts';
import { usePanel } from '../panel.ts';
import { Button } from '../parts/button.tsx';
import { download } from '../parts/download.ts';
import { Section } from '../parts/section.tsx';
import { TaskStatus } from '../parts/task-status.tsx';
import { makeTask, taken } from '../state/task.ts';
import { count } from '../words/measure.ts';

const FINDINGS_SHOWN = 10;

export function makeYardCare(api: YardApi) {
  const task = makeTask();
  /** Of the last check; null before one. */
  const found = signal<{ readonly movements: number; readonly findings: readonly Finding[] } | null>(null);

  return {
    task,
    found,
    save: (keep: (text: string) => void) =>
      task.run('Fetching the whole yard', async (stop) => taken(await api.call('exportYard', { stop }), keep)),
    check: () =>
      task.run('Checking every movement', async (stop) => {
        const findings: Finding[] = [];
        let movements = 0;
        let after: string | null = null;
        for (;;) {
          let next: string | null = null;
          const trouble = await taken(
            await api.call('checkYard', after === null ? { stop } : { stop, query: { after } }),
            (part) => {
              findings.push(...part.findings);
              movements += part.looked.movements;
              next = part.next;
            },
          );
          if (trouble !== null) return trouble;
          if (next === null) break;
          after = next;
        }
        found.value = { movements, findings };
        return null;
      }),
    restore: (file: string) =>
      task.run('Restoring the yard', async () => taken(await api.call('restoreYard', { file }), () => {})),
  };
}

/** "juniper-bend 2026-11-20.ndjson": what a shop finds again among its files. */
export function copyName(yard: string, atMs: number): string {
  const plain = yard.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, '-');
  return `${plain} ${new Date(atMs).toISOString().slice(0, 10)}.ndjson`;
}

export function YardCare() {
  const { api, shell, yard } = usePanel();
  const care = useMemo(() => makeYardCare(api), [api]);
  const facts = yard.facts.value;
  const found = care.found.value;
  if (facts === null || !facts.you.scopes.includes('admin')) return null;
  return (
    <Section title="A copy of the yard">
      <p class="hint">One file with every movement and no keys. Keep it where this computer is not.</p>
      <div class="row">
        <Button
          task={care.task}
          onPress={() =>
            void care.save((text) => download(text, copyName(facts.name, shell.nowMs()), 'application/x-ndjson'))
          }
        >
          Save a copy
        </Button>
        <Button task={care.task} onPress={() => void care.check()}>
          Check the yard
        </Button>
      </div>
      {facts.boards.inStock > 0 || facts.openJobs > 0 ? null : (
        <label class="field">
          Restore a copy into this new yard
          <input
            type="file"
            accept=".ndjson"
            onChange={async (event) => {
              const [file] = event.currentTarget.files ?? [];
              if (file && (await care.restore(await file.text()))) shell.changed();
            }}
          />
        </label>
      )}
      <TaskStatus task={care.task} />
      {found === null ? null : (
        <div role="status">
          <p>
            {count(found.movements, 'movement')} checked:{' '}
            {found.findings.length === 0 ? 'all is sound.' : `${count(found.findings.length, 'fault')}.`}
          </p>
          <ul>
            {found.findings.slice(0, FINDINGS_SHOWN).map((one) => (
              <li key={one.what + one.words}>
                {one.what}: {one.words}
              </li>
            ))}
          </ul>
          {found.findings.length === 0 ? null : (
            <p>Stop writing, save a copy, and restore the last good copy into a new yard.</p>
          )}
        </div>
      )}
    </Section>
  );
}
