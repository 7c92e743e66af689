/**
 * Answers with their entity tag (RFC 9110, section 8.8.3). What is shown of a thing also tells what others do with it: who
 * holds a board stands with the board, and changes without its version. So the tag of what is read names both, the
 * version of the thing and the digest of the whole answer: "s12-3f…". If-None-Match compares all of it. If-Match, which
 * guards an edit, reads the version alone: a board that somebody held meanwhile may still be given another place.
 */
import { fingerprintOf } from './key.ts';

const DIGEST_CHARS = 20;

const versionIn = (answer: unknown): number | null =>
  typeof answer === 'object' && answer !== null && 'version' in answer && typeof answer.version === 'number'
    ? answer.version
    : null;

/** Weakly compared, as section 13.1.2 asks of If-None-Match. */
function names(header: string | undefined, tag: string): boolean {
  if (header === undefined) return false;
  return header.trim() === '*' || header.split(',').some((one) => one.trim().replace(/^W\//, '') === tag);
}

/** What was read, tagged, or 304 where the reader has it already; what was written, with its version alone. */
export async function jsonResponse(
  answer: unknown,
  status: 200 | 201,
  method: string,
  ifNoneMatch: string | undefined,
): Promise<Response> {
  const text = JSON.stringify(answer);
  const version = versionIn(answer);
  const headers: Record<string, string> = { 'content-type': 'application/json', 'cache-control': 'no-store' };
  const isRead = method === 'GET' || method === 'HEAD';
  if (!isRead) {
    if (version !== null) headers.etag = `"s${version}"`;
    return new Response(text, { status, headers });
  }
  const digest = (await fingerprintOf(text)).slice(0, DIGEST_CHARS);
  const etag = version === null ? `"${digest}"` : `"s${version}-${digest}"`;
  if (names(ifNoneMatch, etag))
    return new Response(null, { status: 304, headers: { etag, 'cache-control': 'no-store' } });
  return new Response(text, { status, headers: { ...headers, etag } });
}
