/** What we changed in a file: logged, taken back after a reopening, never while it is read only; and what the panel tells of itself. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { DeviceSettings } from '../../addon/host/device-settings.ts';
import { writeTokens } from '../../addon/host/write-tokens.ts';
import type { Panel } from '../../addon/panel/panel.ts';
import { diagnosticsOf } from '../../addon/panel/state/diagnostics.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeTask, troublesSoFar } from '../../addon/panel/state/task.ts';
import { makeWriteBack } from '../../addon/panel/state/write-back.ts';
import { VERSION } from '../../addon/panel/version.ts';
import { tableKind } from '../../addon/sheet/table-kind.ts';
import { blockOf } from '../sheet/block.ts';
import { fakeHost } from './fake-host.ts';

const cells = [{ row: 1, column: 1, value: 'held' }];

function bench(
  host = fakeHost([
    ['Tag', 'Status'],
    ['A1', null],
  ]),
) {
  const writeBack = makeWriteBack(
    host,
    makeShell(() => Date.parse('2026-11-20T10:00:00Z')),
  );
  return { host, writeBack };
}

describe('the log of a file', () => {
  test('names what was written and is there for the next sidebar, which can take it back', async () => {
    const { host, writeBack } = bench();
    await writeBack.previewCells('Status of A1', 'Sheet 1', cells);
    expect(await writeBack.write([])).toBe(true);
    const next = makeWriteBack(
      host,
      makeShell(() => 0),
    );
    await next.log.load();
    expect(next.log.entries.value).toMatchObject([{ what: 'Status of A1', sheet: 'Sheet 1', cells: 1, undone: false }]);
    expect(await next.undo()).toBe(true);
    expect(next.log.entries.value[0]?.undone).toBe(true);
    expect(await next.undo()).toBe(false);
  });

  test('read only: nothing is looked at for writing, and nothing written', async () => {
    const { writeBack } = bench();
    await writeBack.log.setReadOnly(true);
    expect(await writeBack.previewCells('Status of A1', 'Sheet 1', cells)).toBe(false);
    expect(writeBack.task.trouble.value).toMatchObject({ help: expect.stringContaining('read only') });
    expect(await writeBack.writeUnlessClash('x', async () => ({ told: 'must not be asked' }))).toBe(false);
    expect(writeBack.pending.value).toBeNull();
    await writeBack.log.setReadOnly(false);
    expect(await writeBack.previewCells('Status of A1', 'Sheet 1', cells)).toBe(true);
  });

  test('is forgotten with all else that was kept of the file, and nothing of the user’s', async () => {
    const { host, writeBack } = bench();
    await host.settings.set('yard-connection', 'kept', 'user');
    await writeBack.previewCells('Status of A1', 'Sheet 1', cells);
    await writeBack.write([]);
    await writeBack.log.forgetFile();
    expect(writeBack.log.entries.value).toEqual([]);
    expect(await host.settings.get('writes', 'file')).toBeNull();
    expect(await host.settings.get('yard-connection', 'user')).toBe('kept');
  });
});

describe('the journal of the last write', () => {
  const journal = {
    sheet: 'Boards',
    cells: [{ before: { row: 1, column: 1, formula: null, value: null, format: null }, textAfter: 'held' }],
    headings: [],
  };
  const device = (): DeviceSettings => {
    const kept = new Map<string, string>();
    return {
      get: (key) => kept.get(key) ?? null,
      set: (key, value) => void (value === null ? kept.delete(key) : kept.set(key, value)),
    };
  };

  test('outlives the sidebar on its device, and is given out once', () => {
    const here = device();
    const token = writeTokens(here).keep(journal) ?? '';
    const reopened = writeTokens(here);
    expect(reopened.find(token)).toEqual(journal);
    reopened.forget(token);
    expect(() => writeTokens(here).find(token)).toThrow('can no longer be undone');
    expect(() => writeTokens(device()).find(token)).toThrow('can no longer be undone');
  });

  test('a device without room keeps it as long as the page', () => {
    const full: DeviceSettings = {
      get: () => null,
      set() {
        throw new Error('QuotaExceededError');
      },
    };
    const tokens = writeTokens(full);
    expect(tokens.find(tokens.keep(journal) ?? '')).toEqual(journal);
  });
});

test('waiting can be stopped; what comes afterwards changes nothing on the screen', async () => {
  const task = makeTask();
  let arrive = () => {};
  const run = task.run('Asking the yard', () => new Promise((done) => (arrive = () => done(null))));
  expect(task.busy.value).toBe(true);
  task.stop();
  expect([task.busy.value, task.trouble.value]).toMatchObject([
    false,
    { help: expect.stringContaining('stopped waiting') },
  ]);
  arrive();
  expect(await run).toBe(false);
  expect(task.trouble.value).toMatchObject({ kind: 'told' });
});

test('diagnostics name host, versions and the last troubles, and hold no key and no path of a link', async () => {
  const task = makeTask();
  const instance = 'rq_0123';
  await task.run('Reading the stock', async () => ({
    kind: 'problem',
    problem: { type: '/problems/busy', title: 'Busy', status: 503, detail: 'yk_secret in a detail', instance },
  }));
  const host = fakeHost([[]]);
  const shell = makeShell(() => 0);
  const panel = {
    host,
    shell,
    yard: { facts: { value: null } },
    outbox: { waiting: { value: [{ route: 'readMoisture', atMs: 0, refused: null, body: { note: 'yk_body' } }] } },
    reach: { unreached: { value: null } },
    connections: { inFront: { value: { address: 'https://yard.example.com/yard/abc', key: 'yk_key', name: 'Oak' } } },
    connection: null,
    writeBack: makeWriteBack(host, shell),
  } as unknown as Panel;
  const text = await diagnosticsOf(panel, 'a browser');
  expect(JSON.parse(text)).toMatchObject({
    sidebar: { version: VERSION },
    yard: { origin: 'https://yard.example.com' },
    troubles: expect.arrayContaining([
      expect.objectContaining({ doing: 'Reading the stock', what: `busy 503 ${instance}` }),
    ]),
  });
  expect(text).not.toMatch(/yk_|\/yard\//);
  expect(troublesSoFar().length).toBeLessThanOrEqual(20);
});

test('the version is that of the package', () => {
  expect(VERSION).toBe(JSON.parse(readFileSync('package.json', 'utf8')).version);
});

test('a list is told from the other kind by its columns', () => {
  expect(
    tableKind(
      blockOf([
        ['Part', 'Qty', 'L', 'W', 'T', 'Wood'],
        ['Leg', 4, 28, 2, 2, 'ash'],
      ]),
    ),
  ).toBe('parts');
  expect(
    tableKind(
      blockOf([
        ['Tag', 'Wood', 'L', 'W', 'T'],
        ['A1', 'ash', 96, 8, 1],
      ]),
    ),
  ).toBe('boards');
  expect(
    tableKind(
      blockOf([
        ['a', 'b'],
        [1, 2],
      ]),
    ),
  ).toBeNull();
});
