/** A yard in another process: the calls of a client, and the checks that its journal and its state agree. */
import { peppersIn, type ReadKey, readKey } from '../../worker/api/key.ts';
import { boardDraft } from '../../worker/contract/board.ts';
import type { Finding } from '../../worker/contract/doctor.ts';
import type { Movement } from '../../worker/contract/movement.ts';
import type { ReservationView } from '../../worker/contract/session.ts';
import type {
  Asker,
  Command,
  CommandAnswer,
  QuestionAnswer,
  QuestionName,
  Questions,
  Told,
} from '../../worker/yard/command.ts';
import { replay } from '../../worker/yard/replay.ts';
import { sameValue } from '../../worker/yard/same-value.ts';
import { ADMIN_KEY, KEY_PEPPER } from './raw-workerd.ts';
import type { YardCall } from './yard-call.ts';

export const INCH = 25_400_000;
const occasion = { atMs: Date.parse('2026-03-02T09:00:00Z'), today: '2026-03-02' };

export class FarYard {
  readonly #url: string;
  readonly #key: string;
  readonly #yardId: string;
  readonly #owner: Asker;
  #writes = 0;

  private constructor(url: string, key: string, read: ReadKey) {
    this.#url = url;
    this.#key = key;
    this.#yardId = read.yardId;
    this.#owner = { keyId: read.keyId, digest: read.digest, scope: 'admin' };
  }

  /** A new yard of the service at this address. */
  static async found(url: string): Promise<FarYard> {
    const response = await fetch(`${url}/v1/yards`, {
      method: 'POST',
      headers: { authorization: `Bearer ${ADMIN_KEY}`, 'content-type': 'application/json' },
      body: JSON.stringify({ name: 'Oak yard' }),
    });
    const { key } = (await response.json()) as { key: string };
    const read = await readKey(`Bearer ${key}`, peppersIn({ KEY_PEPPER }));
    if (!read) throw new Error('the service gave a key that it does not know');
    return new FarYard(url, key, read);
  }

  /** A write as any client sends it. */
  async post(
    path: string,
    body: unknown,
    { key = this.newKey(), signal = null }: { readonly key?: string; readonly signal?: AbortSignal | null } = {},
  ): Promise<{ readonly status: number; readonly body: unknown }> {
    const response = await fetch(`${this.#url}${path}`, {
      method: 'POST',
      signal,
      headers: {
        authorization: `Bearer ${this.#key}`,
        'content-type': 'application/json',
        'idempotency-key': key,
      },
      body: JSON.stringify(body),
    });
    return { status: response.status, body: await response.json() };
  }

  /** As any client reads: a file comes as it is made. */
  get(path: string): Promise<Response> {
    return fetch(`${this.#url}${path}`, { headers: { authorization: `Bearer ${this.#key}` } });
  }

  /** As any client sets a thing. */
  async put(path: string, body: unknown): Promise<Response> {
    return fetch(`${this.#url}${path}`, {
      method: 'PUT',
      headers: {
        authorization: `Bearer ${this.#key}`,
        'content-type': 'application/json',
        'idempotency-key': this.newKey(),
      },
      body: JSON.stringify(body),
    });
  }

  async #call<T>(call: YardCall): Promise<T> {
    const response = await fetch(`${this.#url}/`, { method: 'POST', body: JSON.stringify(call) });
    if (!response.ok) throw new Error(`the yard answered ${response.status}: ${await response.text()}`);
    return (await response.json()) as T;
  }

  /** As a client sends it. */
  get key(): string {
    return this.#key;
  }

  get yardId(): string {
    return this.#yardId;
  }

  newKey(): string {
    this.#writes += 1;
    return `write-${String(this.#writes).padStart(8, '0')}`;
  }

  send(command: Command, idempotencyKey = this.newKey()): Promise<CommandAnswer> {
    const receipt = { idempotencyKey, fingerprint: JSON.stringify(command) };
    return this.#call({ call: 'command', yardId: this.#yardId, asker: this.#owner, receipt, command, occasion });
  }

  /** All at once, in this order; the same key twice is the same write sent again. */
  sendAll(
    writes: readonly { readonly command: Command; readonly key: string }[],
    at: { readonly atMs: number; readonly today: string },
  ): Promise<readonly CommandAnswer[]> {
    const calls = writes.map(({ command, key }) => {
      const receipt = { idempotencyKey: key, fingerprint: JSON.stringify(command) };
      return { call: 'command' as const, yardId: this.#yardId, asker: this.#owner, receipt, command, occasion: at };
    });
    return this.#call({ call: 'burst', calls });
  }

  async tell(command: Command): Promise<Told> {
    const answer = await this.send(command);
    if (!answer.ok) throw new Error(answer.refusal.detail);
    return answer.told;
  }

  async ask<N extends QuestionName>(name: N, ask: Questions[N]['ask']): Promise<NonNullable<Questions[N]['answer']>> {
    const answer = await this.#call<QuestionAnswer<N>>({
      call: 'ask',
      yardId: this.#yardId,
      asker: this.#owner,
      name,
      ask,
    });
    if (!answer.ok || answer.answer === null) throw new Error(`no answer to ${name}`);
    return answer.answer as NonNullable<Questions[N]['answer']>;
  }

  takeIn(tags: readonly string[]): Promise<Told> {
    return this.tell(takingIn(tags));
  }

  async job(name: string): Promise<string> {
    return (await this.tell({ do: 'open-job', draft: { name, dueOn: null, note: '' } })).jobId ?? '';
  }

  /** The movements after this one, oldest first. */
  async journal(afterSeq = 0): Promise<readonly Movement[]> {
    const movements: Movement[] = [];
    for (;;) {
      const page = await this.ask('journal', { afterSeq: movements.at(-1)?.seq ?? afterSeq, limit: 500 });
      if (page.length === 0) return movements;
      movements.push(...page);
    }
  }

  /** The doctor's whole round. */
  async checkUp(): Promise<readonly Finding[]> {
    const findings: Finding[] = [];
    let after: string | null = null;
    do {
      const part: Questions['doctor']['answer'] = await this.ask('doctor', { after });
      findings.push(...part.findings);
      after = part.next;
    } while (after !== null);
    return findings;
  }

  async reservations(): Promise<readonly ReservationView[]> {
    const found: ReservationView[] = [];
    let after: string | null = null;
    do {
      const page: Questions['reservations']['answer'] = await this.ask('reservations', { page: { after, limit: 200 } });
      found.push(...page.items);
      after = page.next;
    } while (after !== null);
    return found;
  }

  /** What is wrong between journal and state; empty when the journal alone gives every board and every hold. */
  async faults(): Promise<readonly string[]> {
    const journal = await this.journal();
    const faults = journal.flatMap((movement, at) => (movement.seq === at + 1 ? [] : [`gap before ${movement.seq}`]));
    const replayed = replay(journal);
    const { boards } = await this.ask('snapshot', { jobIds: [], boards: { which: 'all' } });
    for (const { held: _held, ...board } of boards) {
      if (!sameValue(board, replayed.get('board', board.id)))
        faults.push(`board ${board.tag} is not as its journal says`);
    }
    if (boards.length !== replayed.ids('board').length) faults.push('boards are missing');
    const reservations = await this.reservations();
    for (const { tag, jobName: _name, whole: _whole, ...held } of reservations) {
      if (!sameValue(held, replayed.get('reservation', held.id))) faults.push(`a hold of ${tag} is not in the journal`);
    }
    if (reservations.length !== replayed.ids('reservation').length) faults.push('holds are missing');
    for (const [at, one] of reservations.entries()) {
      const next = reservations[at + 1];
      if (next?.boardId === one.boardId && next.fromNm < one.toNm) faults.push(`${one.tag} is held twice`);
    }
    return faults;
  }
}

export function takingIn(tags: readonly string[]): Command {
  const rows = tags.map((tag, row) => ({
    row,
    draft: boardDraft.parse({ tag, species: 'cherry', lengthNm: 96 * INCH, widthNm: 6 * INCH, thicknessNm: INCH }),
  }));
  return { do: 'take-in-boards', rows, allOrNothing: true, faults: [] };
}
