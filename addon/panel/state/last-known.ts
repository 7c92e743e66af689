/**
 * Keeps what the yard last answered to each reading on this device, and gives it again while the yard cannot be reached.
 * What was used longest ago makes room for the new.
 */
import type { RouteName } from '../../../worker/contract/routes.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { CallInput, CallResult, YardApi } from '../api.ts';
import type { DeviceTexts } from './device-texts.ts';
import type { Reach } from './reach.ts';

/** What a person looks at in the shop; the journal and arithmetic are for the desk. */
const KEPT: ReadonlySet<RouteName> = new Set<RouteName>([
  'readYard',
  'listBoards',
  'readBoard',
  'drawBoard',
  'listJobs',
  'readJob',
  'takeoffJob',
  'listPlans',
  'readPlan',
  'listReservations',
  'listSessions',
  'readSession',
  'readCutCards',
]);

/** Browsers give a page some five million characters; the bench keeps its workbook beside this. */
const CHARS_MAX = 1_500_000;

interface Entry {
  readonly name: string;
  readonly atMs: number;
  readonly chars: number;
}

export function withLastKnown(
  api: YardApi,
  texts: DeviceTexts,
  reach: Reach,
  nowMs: () => number,
): YardApi & { forget(): Promise<void> } {
  const indexName = 'seen';
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = turn.then(work, work);
    turn = done.catch(() => undefined);
    return done;
  };

  async function index(): Promise<Entry[]> {
    const text = await texts.get(indexName);
    try {
      const entries: Entry[] = text === null ? [] : JSON.parse(text);
      return Array.isArray(entries) ? entries : [];
    } catch {
      return [];
    }
  }

  async function keep(name: string, answer: unknown): Promise<void> {
    const text = JSON.stringify(answer);
    const entries = (await index()).filter((entry) => entry.name !== name);
    entries.push({ name, atMs: nowMs(), chars: text.length });
    let room = CHARS_MAX - entries.reduce((sum, entry) => sum + entry.chars, 0);
    while (room < 0 && entries.length > 0) {
      const oldest = entries.shift();
      room += oldest?.chars ?? 0;
      if (oldest !== undefined && oldest.name !== name) await texts.set(oldest.name, null);
    }
    if (entries.at(-1)?.name === name) await texts.set(name, text);
    await texts.set(indexName, JSON.stringify(entries));
  }

  async function recalled<N extends RouteName>(name: string): Promise<{ answer: Answer<N>; atMs: number } | null> {
    const entry = (await index()).find((one) => one.name === name);
    const text = entry === undefined ? null : await texts.get(name);
    if (entry === undefined || text === null) return null;
    return { answer: JSON.parse(text), atMs: entry.atMs };
  }

  return {
    name: api.name,
    async followPlan(input, onProgress, stop) {
      const result = await api.followPlan(input, onProgress, stop);
      if (result !== null && !result.ok && 'offline' in result) reach.missed(null);
      else reach.found();
      return result;
    },
    async call<N extends RouteName>(route: N, input: CallInput<N> = {}): Promise<CallResult<N>> {
      const result = await api.call(route, input);
      const silent = !result.ok && ('offline' in result || result.problem.status >= 502);
      if (!silent) reach.found();
      if (!KEPT.has(route)) {
        if (silent) reach.missed(null);
        return result;
      }
      const name = `seen ${route} ${JSON.stringify([input.path ?? {}, input.query ?? {}])}`;
      if (result.ok) void inTurn(() => keep(name, result.answer)).catch(() => undefined);
      if (!silent) return result;
      const kept = await inTurn(() => recalled<N>(name)).catch(() => null);
      reach.missed(kept?.atMs ?? null);
      return kept === null ? result : { ok: true, answer: kept.answer };
    },
    forget: () =>
      inTurn(async () => {
        for (const entry of await index()) await texts.set(entry.name, null);
        await texts.set(indexName, null);
      }),
  };
}
