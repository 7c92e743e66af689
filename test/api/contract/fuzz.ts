/** Sends requests made from the document to a service, whatever it runs on, and collects what breaks the contract. */
import fc from 'fast-check';
import { type Answer, faultOf } from './check-answer.ts';
import { operations } from './document.ts';
import type { Pool } from './from-schema.ts';
import { type Credentials, type Request, requestsOf } from './requests.ts';

export interface FuzzBench {
  readonly credentials: Credentials;
  readonly pool: Pool;
  readonly secrets: readonly string[];
  readonly send: (request: Request) => Promise<Answer>;
  /** Whether the yard was changed since this was last asked. */
  readonly isChanged: () => Promise<boolean>;
  /** What was logged since it was last asked; empty where the log is out of reach. */
  readonly takeLog: () => readonly string[];
}

export interface FuzzRun {
  readonly requests: number;
  readonly seed: number;
  /** A yard grows under valid requests; a new one keeps each request quick. */
  readonly requestsPerYard: number;
  readonly open: () => Promise<FuzzBench>;
}

export interface FuzzResult {
  readonly faults: readonly string[];
  readonly counts: Readonly<Record<Request['kind'], number>>;
  readonly done: number;
  /** Operations that answered no request with success. */
  readonly never: readonly string[];
  readonly words: string;
}

const show = ({ operation, kind, path, headers, body }: Request) =>
  `${kind} ${operation.name} ${operation.method} ${path.slice(0, 200)} ${JSON.stringify(headers)} ${(body ?? '').slice(0, 400)}`;

export async function fuzz({ requests, seed, requestsPerYard, open }: FuzzRun): Promise<FuzzResult> {
  const faults: string[] = [];
  const counts = { valid: 0, near: 0, hostile: 0 };
  const byStatus = new Map<number, number>();
  const succeeded = new Set<string>();
  let refusals = 0;
  let done = 0;
  for (let round = 0; done < requests && faults.length < 20; round++) {
    const bench = await open();
    const any = fc.oneof(...operations.map((operation) => requestsOf(operation, bench.pool, bench.credentials)));
    const count = Math.min(requestsPerYard, requests - done);
    const log: string[] = [];
    for (const request of fc.sample(any, { numRuns: count, seed: seed + round })) {
      const { operation, kind } = request;
      const answer = await bench.send(request);
      done += 1;
      counts[kind] += 1;
      byStatus.set(answer.status, (byStatus.get(answer.status) ?? 0) + 1);
      log.push(...bench.takeLog());
      const stack = answer.status >= 500 ? (log.findLast((line) => line.includes('"stack"')) ?? '') : '';
      const fault = faultOf(operation, answer);
      if (fault) faults.push(`${fault}\n    ${show(request)}\n    ${stack}`);
      if (answer.status < 400) succeeded.add(operation.name);
      const hasChanged = await bench.isChanged();
      if (answer.status < 400) continue;
      refusals += 1;
      if (hasChanged) faults.push(`${answer.status} changed the yard\n    ${show(request)}`);
    }
    const leaked = log.filter((line) => bench.secrets.some((secret) => line.includes(secret)));
    faults.push(...leaked.map((line) => `a secret in the log: ${line}`));
  }
  const never = operations.map(({ name }) => name).filter((name) => !succeeded.has(name));
  const statuses = JSON.stringify(Object.fromEntries([...byStatus].sort()));
  const words = `${done} requests (${JSON.stringify(counts)}), ${refusals} refused, by status ${statuses}, never successful: ${never.join(', ') || 'none'}`;
  return { faults, counts, done, never, words };
}

/** The part of a key or of a feed's file that nobody else may see. */
export const secretIn = (text: string) =>
  text
    .replace(/\.csv$/, '')
    .split('_')
    .at(-1) ?? '';
