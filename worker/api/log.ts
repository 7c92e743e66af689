/**
 * One JSON line a request. It names the route and never the address asked for, because a feed link carries its secret in
 * its address; whatever else may hold a secret is scrubbed of everything that has the form of one.
 */
export interface RequestLine {
  readonly level: 'info' | 'error';
  readonly at: string;
  /** The same as in the answer's x-request-id and in the problem's instance. */
  readonly request: string;
  readonly route: string;
  readonly method: string;
  readonly status: number;
  /** Until the answer began, milliseconds. Deployed, the clock stands still while code runs: waiting is measured, not working. */
  readonly ms: number;
  /** Which yard and key (its id, not its secret), where one was given. */
  readonly yard?: string;
  readonly key?: string;
  /** Short name of the problem answered with: "board-held". */
  readonly problem?: string;
}

export interface ErrorLine {
  readonly level: 'error';
  readonly at: string;
  readonly request: string;
  readonly route: string;
  readonly error: string;
  readonly message: string;
  readonly stack: string;
}

export type Log = (line: RequestLine | ErrorLine) => void;

const keyOrToken = /y[kf]_[0-9a-z]+_[0-9a-z]+(_[0-9a-z]+)?/gi;
const bearer = /Bearer\s+\S+/gi;

/** The text without keys, tokens or authorization headers, and no longer than a log line should be. */
export function scrubbed(text: string): string {
  return text.replaceAll(bearer, 'Bearer [taken out]').replaceAll(keyOrToken, '[taken out]').slice(0, 4_000);
}

export function errorLine(error: unknown, request: string, route: string, atMs: number): ErrorLine {
  const known = error instanceof Error ? error : new Error(String(error));
  return {
    level: 'error',
    at: new Date(atMs).toISOString(),
    request,
    route,
    error: known.name,
    message: scrubbed(known.message),
    stack: scrubbed(known.stack ?? ''),
  };
}

export const consoleLog: Log = (line) => {
  const text = JSON.stringify(line);
  if (line.level === 'error') console.error(text);
  else console.log(text);
};
