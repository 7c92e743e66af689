/**
 * One yard over one database, whatever runs it. A command is: who asks, was it answered before, decide, fold, append,
 * remember; all in one synchronous transaction. There is no await anywhere, because waiting would let another request in.
 */
import { settings as settingsSchema } from '../contract/settings.ts';
import { apply } from './apply.ts';
import { isRestoring, RESTORING, restorePart } from './archive.ts';
import { answerQuestion } from './ask/answer.ts';
import { created } from './change.ts';
import type {
  Asker,
  Command,
  CommandAnswer,
  KeyCommand,
  NewKey,
  Occasion,
  QuestionAnswer,
  QuestionName,
  Questions,
  Receipt,
  RestoreAnswer,
  YardDoor,
} from './command.ts';
import { decide } from './decide/decide.ts';
import type { Decision } from './decision.ts';
import { KeptThings } from './kept-things.ts';
import { carryOutKeys, isKeyCommand, type KeyOccasion } from './key-commands.ts';
import { addKey, admit, KnownKeys, keyRow, WRONG_KEY } from './keys.ts';
import { forgetOldReceipts, type Remembered, recall, remember } from './receipts.ts';
import { migrate, raiseSchema, schemaVersion } from './schema.ts';
import { shownAfter } from './shown.ts';
import type { NotAsync, Sql } from './sql.ts';
import { SqlState } from './sql-state.ts';
import { YARD } from './state.ts';

export type FoundingInput = Parameters<YardDoor['found']>[0];
export type NewId = Occasion['newId'];

/** Old answers are looked for this often, not with every write. */
const FORGET_EVERY_MS = 60_000;

export class YardCore {
  readonly #sql: Sql;
  readonly #newId: NewId;
  readonly #nowMs: () => number;
  #founded: boolean;
  readonly #keys: KnownKeys;
  /** What was read once stays true while only this object writes, until something is taken back: then it is read anew. */
  #restoring: boolean | null = null;
  #seq: number | null = null;
  readonly #kept = new KeptThings();
  #forgotAtMs = Number.NEGATIVE_INFINITY;

  /** Touches nothing of a yard that was never founded. */
  constructor(sql: Sql, newId: NewId, nowMs: () => number = () => Date.now()) {
    this.#sql = sql;
    this.#newId = newId;
    this.#nowMs = nowMs;
    this.#keys = new KnownKeys(sql);
    this.#founded = schemaVersion(sql) > 0;
    if (this.#founded) migrate(sql);
  }

  /** False when the yard is there already; nothing changes then. */
  found(input: FoundingInput, atMs: number): { readonly founded: boolean } {
    if (this.#founded) return { founded: false };
    const state = new SqlState(this.#sql);
    this.#sql.once(() => {
      raiseSchema(this.#sql);
      addKey(this.#sql, input.key, atMs);
      this.#sql.run('INSERT INTO identity (yard_id) VALUES (?)', input.yardId);
      const yard = { yardId: input.yardId, name: input.name, settings: settingsSchema.parse({}) };
      apply(state, {
        seq: 1,
        atMs,
        by: input.key.label,
        kind: 'yard-founded',
        jobId: null,
        summary: `Founded the yard ${input.name}`,
        changes: [created('settings', YARD, yard)],
        balances: [],
        undoes: null,
      });
      return null;
    });
    this.#founded = true;
    return { founded: true };
  }

  /** An owner's key from who runs the service. False when the yard is none, or a key of this id is there already. */
  giveOwnerKey(key: NewKey, atMs: number): { readonly given: boolean } {
    if (!this.#founded) return { given: false };
    return this.#once(() => {
      if (keyRow(this.#sql, key.keyId)) return { given: false };
      const occasion = { atMs, askedWith: '' };
      const decision = carryOutKeys(this.#sql, { do: 'make-key', key }, occasion);
      this.#keys.forget();
      if (decision.ok) this.#keep(this.#state(), decision, { atMs, by: 'the service' });
      return { given: decision.ok };
    });
  }

  command(
    asker: Asker,
    receipt: Receipt,
    command: Command | KeyCommand,
    occasion: { readonly atMs: number; readonly today: string },
  ): CommandAnswer {
    if (!this.#founded) return { ok: false, refusal: WRONG_KEY, replayed: false };
    return this.#once((): CommandAnswer => {
      const admitted = admit(this.#keys, asker, occasion.atMs);
      if ('refusal' in admitted) return { ok: false, refusal: admitted.refusal, replayed: false };
      if (this.#isRestoring()) return { ok: false, refusal: RESTORING, replayed: false };
      const { keyId, label } = admitted.key;
      this.#forgetOldReceipts(occasion.atMs);
      const before = recall(this.#sql, keyId, receipt);
      if (before) return before;
      const answer = isKeyCommand(command)
        ? this.#carryOutKeys(command, { atMs: occasion.atMs, by: label, askedWith: keyId })
        : this.#carryOut(command, { ...occasion, by: label, newId: this.#newId });
      remember(this.#sql, keyId, receipt, answer, occasion.atMs);
      return { ...answer, replayed: false };
    });
  }

  #state(): SqlState {
    return new SqlState(this.#sql, this.#seq, this.#kept);
  }

  /** All or nothing, and after nothing no memory either: it may be of what was taken back. */
  #once<T>(body: () => NotAsync<T>): T {
    try {
      return this.#sql.once(body);
    } catch (cause) {
      this.#forget();
      throw cause;
    }
  }

  #forget(): void {
    this.#restoring = null;
    this.#seq = null;
    this.#keys.forget();
    this.#kept.forget();
  }

  #isRestoring(): boolean {
    this.#restoring ??= isRestoring(this.#sql);
    return this.#restoring;
  }

  #forgetOldReceipts(atMs: number): void {
    if (Math.abs(atMs - this.#forgotAtMs) < FORGET_EVERY_MS) return;
    const isMore = forgetOldReceipts(this.#sql, atMs);
    this.#forgotAtMs = isMore ? Number.NEGATIVE_INFINITY : atMs;
  }

  #carryOut(command: Command, occasion: Occasion): Remembered {
    const state = this.#state();
    const decision = decide(state, command, occasion);
    if (!decision.ok) return decision;
    const kept = this.#keep(state, decision, occasion);
    if (!kept.ok) return kept;
    return { ok: true, told: { ...kept.told, shown: shownAfter(this.#sql, state, command, kept.told) } };
  }

  #carryOutKeys(command: KeyCommand, occasion: KeyOccasion & { readonly by: string }): Remembered {
    const decision = carryOutKeys(this.#sql, command, occasion);
    this.#keys.forget();
    return decision.ok ? this.#keep(this.#state(), decision, occasion) : decision;
  }

  #keep(
    state: SqlState,
    decision: Extract<Decision, { readonly ok: true }>,
    { atMs, by }: { readonly atMs: number; readonly by: string },
  ): Remembered {
    const seq = state.seq() + 1;
    apply(state, {
      seq,
      atMs,
      by,
      ...decision.movement,
      changes: [...decision.movement.changes],
      balances: [...decision.movement.balances],
    });
    this.#seq = seq;
    return { ok: true, told: { seq, ...decision.told } };
  }

  restore(asker: Asker, firstLine: number, lines: readonly string[]): RestoreAnswer {
    if (!this.#founded) return { ok: false, refusal: WRONG_KEY };
    const admitted = admit(this.#keys, { ...asker, scope: 'admin' }, this.#nowMs());
    if ('refusal' in admitted) return { ok: false, refusal: admitted.refusal };
    this.#forget();
    return restorePart(this.#sql, firstLine, lines);
  }

  ask<N extends QuestionName>(asker: Asker, name: N, ask: Questions[N]['ask']): QuestionAnswer<N> {
    if (!this.#founded) return { ok: false, refusal: WRONG_KEY };
    const atMs = this.#nowMs();
    const admitted = admit(this.#keys, asker, atMs);
    if ('refusal' in admitted) return { ok: false, refusal: admitted.refusal };
    return answerQuestion(this.#sql, { key: admitted.key, atMs }, name, ask);
  }
}
