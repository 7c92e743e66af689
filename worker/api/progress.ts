/**
 * Work that tells how far it is: one JSON object a line, each sent before the work goes on. The last line holds the answer
 * or the problem. When nobody listens any more, the next line throws and so ends the work.
 */
import type { HonoRequest } from 'hono';
import { consoleLog, errorLine } from './log.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import type { Outcome } from './serve.ts';

export const LINES_TYPE = 'application/x-ndjson';

export const wantsLines = (request: HonoRequest): boolean => (request.header('accept') ?? '').includes(LINES_TYPE);

export class ProgressLines {
  /** The response, as soon as the first line is there: until then a refusal can still be one with its own status. */
  readonly begun: Promise<Response>;
  #begin: (response: Response) => void = () => {};
  /** The reader went away. */
  #isGone = false;
  #writer: WritableStreamDefaultWriter<Uint8Array> | null = null;

  constructor() {
    this.begun = new Promise((resolve) => {
      this.#begin = resolve;
    });
  }

  async write(line: unknown): Promise<void> {
    const bytes = new TextEncoder().encode(`${JSON.stringify(line)}\n`);
    if (!this.#writer) {
      const pipe = new TransformStream<Uint8Array, Uint8Array>();
      this.#writer = pipe.writable.getWriter();
      this.#begin(
        new Response(pipe.readable, { headers: { 'content-type': LINES_TYPE, 'cache-control': 'no-store' } }),
      );
    }
    await this.#writer.write(bytes).catch((thrown: unknown) => {
      this.#isGone = true;
      throw thrown;
    });
  }

  /** Sends how the work ended. The status was sent long ago, so a problem is a line too. */
  async endWith(work: Promise<Outcome<unknown>>, instance: string): Promise<void> {
    try {
      const outcome = await work;
      await this.write(
        outcome.ok ? { answer: outcome.value } : { problem: await refusalResponse(outcome.refusal, instance).json() },
      );
      await this.#writer?.close();
    } catch (thrown) {
      // Stopping is the reader's right; anything else is a fault of ours, told as any other.
      if (this.#isGone) return;
      consoleLog(errorLine(thrown, instance, 'progress', Date.now()));
      const detail = `Nothing was changed. Try again; if it stays, tell us this number: ${instance}`;
      await this.write({ problem: await problemResponse('internal', detail, instance).json() });
      await this.#writer?.close();
    }
  }
}
