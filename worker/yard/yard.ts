/** The Durable Object: one a yard. It holds no state of its own between calls, so an eviction loses nothing. */
import { DurableObject } from 'cloudflare:workers';
import type {
  Asker,
  Command,
  CommandAnswer,
  KeyCommand,
  NewKey,
  QuestionAnswer,
  QuestionName,
  Questions,
  Receipt,
  RestoreAnswer,
  YardDoor,
} from './command.ts';
import { newId } from './new-id.ts';
import { DurableSql } from './sql-durable.ts';
import { WriteGroups } from './write-groups.ts';
import { type FoundingInput, YardCore } from './yard-core.ts';

/**
 * The binding as this code uses it. The platform's own type of a stub turns every answer with free-form fields into
 * never, so the door is named here instead.
 */
export interface YardNamespace {
  getByName(yardId: string): YardDoor;
}

export class Yard extends DurableObject implements YardDoor {
  readonly #core: YardCore;
  readonly #writes: WriteGroups;

  constructor(ctx: DurableObjectState, env: Cloudflare.Env) {
    super(ctx, env);
    this.#core = new YardCore(new DurableSql(ctx.storage), newId);
    this.#writes = new WriteGroups(() => ctx.storage.sync());
  }

  async found(input: FoundingInput): Promise<{ readonly founded: boolean }> {
    return this.#core.found(input, Date.now());
  }

  async giveOwnerKey(key: NewKey): Promise<{ readonly given: boolean }> {
    return this.#core.giveOwnerKey(key, Date.now());
  }

  async command(
    asker: Asker,
    receipt: Receipt,
    command: Command | KeyCommand,
    occasion: { readonly atMs: number; readonly today: string },
  ): Promise<CommandAnswer> {
    return this.#writes.run(() => this.#core.command(asker, receipt, command, occasion));
  }

  async restore(asker: Asker, firstLine: number, lines: readonly string[]): Promise<RestoreAnswer> {
    return this.#core.restore(asker, firstLine, lines);
  }

  async ask<N extends QuestionName>(asker: Asker, name: N, ask: Questions[N]['ask']): Promise<QuestionAnswer<N>> {
    return this.#core.ask(asker, name, ask);
  }
}
