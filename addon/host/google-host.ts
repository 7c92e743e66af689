/**
 * Google Sheets as a SheetHost: every method is one call to the script of the file. Writes go one after another; of two
 * readings of the selection only the younger counts, whichever answers first.
 */
import { deviceSettings } from './device-settings.ts';
import { googleFault } from './google-faults.ts';
import type { CallName, ReadBlock, Reply, ScriptCalls, WriteAnswer } from './google-wire.ts';
import { type Area, type Block, HostError, hostCommands, type SheetHost, type WriteResult } from './host.ts';
import { localeOf } from './locale-of.ts';
import { revisionOf } from './revision.ts';
import { writeTokens } from './write-tokens.ts';

/** The part of `google.script` that a sidebar is given and we use. */
export interface GoogleScript {
  readonly run: ScriptRunner;
  readonly host: { readonly editor: { focus(): void } };
}

export interface ScriptRunner {
  withSuccessHandler(handler: (answer: string) => void): ScriptRunner;
  withFailureHandler(handler: (fault: { readonly message?: string }) => void): ScriptRunner;
  heartHost(request: string): void;
  /** The part of the sidebar that it does not open with, as a script element. */
  heartRest(): void;
}

export interface GoogleHostParts {
  readonly script: GoogleScript;
  /** Calls back when the sidebar gets the keyboard again; the sheet never tells what is selected by itself. */
  readonly onReturn: (listener: () => void) => () => void;
}

export function googleHost({ script, onReturn }: GoogleHostParts): SheetHost {
  const device = deviceSettings(() => '');
  const tokens = writeTokens(device);
  let seq = 0;
  let youngestReading = 0;
  let lastWrite: Promise<unknown> = Promise.resolve();

  function ask<N extends CallName>(call: N, ...given: Parameters<ScriptCalls[N]>): Promise<ReturnType<ScriptCalls[N]>> {
    seq += 1;
    const asked = seq;
    return new Promise((resolve, reject) => {
      script.run
        .withSuccessHandler((text) => {
          const reply = replyOf(text);
          if (!reply || reply.seq !== asked) reject(faultFrom(''));
          else if (reply.ok) resolve(reply.value as ReturnType<ScriptCalls[N]>);
          else reject(new HostError(reply.code, reply.help));
        })
        .withFailureHandler((fault) => reject(faultFrom(fault.message ?? '')))
        .heartHost(JSON.stringify({ seq: asked, call, given }));
    });
  }

  /** After the write before it, whether that went well or not. */
  function inTurn<T>(write: () => Promise<T>): Promise<T> {
    const done = lastWrite.then(write, write);
    lastWrite = done.catch(() => undefined);
    return done;
  }

  function resultOf(answer: WriteAnswer): WriteResult {
    return { written: answer.written, clashes: answer.clashes, undoToken: tokens.keep(answer.journal) };
  }

  async function readSelection(options: Parameters<SheetHost['readSelection']>[0]): Promise<Block> {
    youngestReading += 1;
    const reading = youngestReading;
    const read = await ask('readSelection', options.expand, options.rowCountMax);
    if (reading !== youngestReading) throw new HostError('gone', 'The selection changed meanwhile. Read it again.');
    return blockOf(read);
  }

  return {
    async capabilities() {
      return { host: 'google', pushesSelection: false, undoesNatively: false, notes: true };
    },
    readSelection,
    readArea: async (area) => blockOf(await ask('readArea', area)),
    listSheets: () => ask('listSheets'),
    planWrite: (plan) => ask('planWrite', plan),
    write: (plan, over) => inTurn(async () => resultOf(await ask('write', plan, over))),
    undo: (undoToken) =>
      inTurn(async () => {
        const answer = await ask('undo', tokens.find(undoToken));
        if (answer.written > 0) tokens.forget(undoToken);
        return resultOf(answer);
      }),
    addSheet: (name, rows) => inTurn(() => ask('addSheet', name, rows)),
    async reveal(area) {
      await ask('reveal', area);
    },
    onSelection: (listener) => onReturn(() => void tellSelection(listener)),
    onCommand(listener) {
      let stopped = false;
      // A fault here is no news: whatever the user does next will say it.
      ask('picked').then(
        (picked) => {
          const command = hostCommands.find((one) => one === picked);
          if (command !== undefined && !stopped) listener(command);
        },
        () => undefined,
      );
      return () => {
        stopped = true;
      };
    },
    settings: {
      async forgetFile() {
        await ask('forgetFile');
      },
      async get(key, scope) {
        return scope === 'device' ? device.get(key) : ask('getSetting', key, scope);
      },
      async set(key, value, scope) {
        if (scope === 'device') device.set(key, value);
        else await ask('setSetting', key, value, scope);
      },
    },
    async focusSheet() {
      script.host.editor.focus();
    },
    async showPage(title, html) {
      await ask('showPage', title, html);
    },
  };

  /** A fault here is no news: whatever the user does next will say it. */
  async function tellSelection(listener: (area: Area) => void): Promise<void> {
    const area = await ask('selected').catch(() => null);
    if (area) listener(area);
  }
}

function blockOf(read: ReadBlock): Block {
  const { localeTag, ...block } = read;
  return { ...block, locale: localeOf(localeTag), revision: revisionOf(read.cells) };
}

function faultFrom(message: string): HostError {
  const { code, help } = googleFault(message);
  return new HostError(code, help);
}

function replyOf(text: string): Reply | null {
  try {
    const reply: Reply = JSON.parse(text);
    return reply;
  } catch {
    return null;
  }
}
