/** The yard's door over node:sqlite: the same rules and the same SQL as the Durable Object, without its runtime. */
import type {
  Asker,
  Command,
  KeyCommand,
  NewKey,
  QuestionName,
  Questions,
  Receipt,
  YardDoor,
} from '../../worker/yard/command.ts';
import { type FoundingInput, type NewId, YardCore } from '../../worker/yard/yard-core.ts';
import { NodeSql } from './node-sql.ts';

/** Ids in order, so that a test's answers are the same each time. */
export function countedIds(): NewId {
  let count = 0;
  return (prefix) => {
    count += 1;
    return `${prefix}_${count.toString(36).padStart(12, '0')}`;
  };
}

export class NodeYard implements YardDoor {
  readonly sql: NodeSql;
  readonly core: YardCore;
  readonly #now: () => number;

  constructor(options: { path?: string; sql?: NodeSql; newId?: NewId; now?: () => number } = {}) {
    this.sql = options.sql ?? new NodeSql(options.path);
    this.#now = options.now ?? Date.now;
    this.core = new YardCore(this.sql, options.newId ?? countedIds(), this.#now);
  }

  async found(input: FoundingInput) {
    return this.core.found(input, this.#now());
  }

  async giveOwnerKey(key: NewKey) {
    return this.core.giveOwnerKey(key, this.#now());
  }

  async command(
    asker: Asker,
    receipt: Receipt,
    command: Command | KeyCommand,
    occasion: { atMs: number; today: string },
  ) {
    return this.core.command(asker, receipt, command, occasion);
  }

  async restore(asker: Asker, firstLine: number, lines: readonly string[]) {
    return this.core.restore(asker, firstLine, lines);
  }

  async ask<N extends QuestionName>(asker: Asker, name: N, ask: Questions[N]['ask']) {
    return this.core.ask(asker, name, ask);
  }
}
