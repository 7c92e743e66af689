/**
 * Writing beside the rows of the sheet: what will be written is shown first, what stands in the way is told, and the
 * last write can be taken back. The sheet is the user's: formulas and foreign cells are never written over unasked.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Clash, SheetHost, WritePlan } from '../../host/host.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task } from './task.ts';

export interface Pending {
  readonly plan: WritePlan;
  readonly clashes: readonly Clash[];
  /** What the write is for, in words: "Takeoff beside 26 rows". */
  readonly what: string;
}

export interface LastWrite {
  readonly what: string;
  readonly undoToken: string;
  readonly atMs: number;
}

export interface WriteBack {
  readonly pending: ReadonlySignal<Pending | null>;
  readonly last: ReadonlySignal<LastWrite | null>;
  readonly task: Task;
  /** Looks what the write would run into, and shows it. */
  preview(what: string, make: () => Promise<WritePlan | { readonly told: string }>): Promise<boolean>;
  write(over: readonly string[]): Promise<boolean>;
  cancel(): void;
  undo(): Promise<boolean>;
}

export function makeWriteBack(host: SheetHost, shell: Shell): WriteBack {
  const pending = signal<Pending | null>(null);
  const last = signal<LastWrite | null>(null);
  const task = makeTask();
  return {
    pending,
    last,
    task,
    preview: (what, make) =>
      task.run('Looking at the sheet', async () => {
        pending.value = null;
        const plan = await make();
        if ('told' in plan) return { kind: 'told', help: plan.told };
        if (plan.cells.length === 0) return { kind: 'told', help: 'The sheet already shows this. Nothing to write.' };
        pending.value = { plan, clashes: await host.planWrite(plan), what };
        return null;
      }),
    write: (over) =>
      task.run('Writing into the sheet', async () => {
        const now = pending.value;
        if (now === null) return null;
        const result = await host.write(now.plan, over);
        pending.value = null;
        if (result.undoToken !== null)
          last.value = { what: now.what, undoToken: result.undoToken, atMs: shell.nowMs() };
        const left = result.clashes.length;
        shell.say(`${result.written} cells written${left === 0 ? '' : `, ${left} left as they were`}.`);
        return null;
      }),
    cancel() {
      pending.value = null;
      task.clear();
    },
    undo: () =>
      task.run('Taking the last write back', async () => {
        const now = last.value;
        if (now === null) return null;
        const result = await host.undo(now.undoToken);
        last.value = null;
        const left = result.clashes.length;
        shell.say(`Taken back: ${now.what}.${left === 0 ? '' : ` ${left} cells were changed since and stay.`}`);
        return null;
      }),
  };
}
