/** The whole yard as one file, out and in; both as streams, so that its size does not matter to the memory here. */
import { ARCHIVE_NAME, ARCHIVE_TYPE, type Restored } from '../../contract/archive.ts';
import { crc32, crcText } from '../../contract/checksum.ts';
import { limits } from '../../contract/limits.ts';
import { type Call, good, type Handler, type Outcome, refuse, Streamed } from '../serve.ts';

const exportYard: Handler<'exportYard'> = async (call) => {
  const head = await call.ask('archive-head', { upToSeq: call.query.upTo });
  if (!head.ok) return head;
  if (!head.value) return refuse('not-found', 'There is no such yard.');
  const { text, movements } = head.value;
  return good(new Streamed(ARCHIVE_TYPE, ARCHIVE_NAME, archiveStream(call, text, movements)));
};

/** Asks for a page when the one before is taken. A yard that refuses on the way breaks the stream off, before its end line. */
function archiveStream(call: Call<'exportYard'>, head: string, movements: number): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let lastSeq = 0;
  let crc = 0;
  return new ReadableStream<Uint8Array>({
    start: (sink) => sink.enqueue(encoder.encode(head)),
    async pull(sink) {
      if (lastSeq >= movements) {
        sink.enqueue(encoder.encode(`${JSON.stringify({ end: { movements, crc32: crcText(crc) } })}\n`));
        sink.close();
        return;
      }
      const ask = { afterSeq: lastSeq, upToSeq: movements, chars: limits.archivePageChars };
      const page = await call.ask('archive-page', ask);
      if (!page.ok || !page.value || page.value.lastSeq === lastSeq) {
        throw new Error(`the yard gave no movement after ${lastSeq}`);
      }
      lastSeq = page.value.lastSeq;
      const bytes = encoder.encode(page.value.text);
      crc = crc32(bytes, crc);
      sink.enqueue(bytes);
    },
  });
}

const tooLong = (line: number) =>
  refuse(
    'too-large',
    `Line ${line} is longer than ${limits.archiveLineChars} characters; no line of a yard's file is.`,
  );

/** Reads line by line and hands the yard a part at a time. What went in before a fault stays: sending the file again goes on from there. */
const restoreYard: Handler<'restoreYard'> = async (call) => {
  const decoder = new TextDecoder();
  let rest = '';
  let lines: string[] = [];
  let chars = 0;
  let firstLine = 1;
  let last: Outcome<Restored> | null = null;

  async function handIn(): Promise<void> {
    last = await call.restore(firstLine, lines);
    firstLine += lines.length;
    lines = [];
    chars = 0;
  }
  async function take(text: string): Promise<void> {
    const pieces = (rest + text).split('\n');
    rest = pieces.pop() ?? '';
    for (const piece of pieces) {
      lines.push(piece.replace(/\r$/, ''));
      chars += piece.length;
      if (chars >= limits.archivePageChars || lines.length >= limits.archivePageLines) await handIn();
      if (last?.ok === false) return;
    }
  }

  const reader = call.stream?.getReader();
  while (reader) {
    const { done, value } = await reader.read();
    await take(done ? decoder.decode() : decoder.decode(value, { stream: true }));
    if (last !== null && !(last as Outcome<Restored>).ok) break;
    if (rest.length > limits.archiveLineChars) {
      await reader.cancel();
      return tooLong(firstLine + lines.length);
    }
    if (done) break;
  }
  if (last !== null && !(last as Outcome<Restored>).ok) {
    await reader?.cancel();
    return last;
  }
  if (rest.trim() !== '') lines.push(rest);
  if (lines.length > 0) await handIn();
  return last ?? refuse('bad-request', `Send the yard's file as the body, as it came from GET /v1/yard/archive.`);
};

const checkYard: Handler<'checkYard'> = async (call) => {
  const page = await call.ask('doctor', { after: call.query.after ?? null });
  if (!page.ok) return page;
  return page.value ? good(page.value) : refuse('not-found', 'There is no such yard.');
};

export const archiveHandlers = { exportYard, restoreYard, checkYard };
