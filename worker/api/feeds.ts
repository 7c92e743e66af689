/** Feed links: GET /feeds/{token}.csv, for the import function of a spreadsheet, which can send no header. */
import type { Asker, FeedAnswer, QuestionAnswer, YardDoor } from '../yard/command.ts';
import { csvRow } from './csv.ts';
import { feedHeads, feedRows } from './feed-rows.ts';
import { peppersIn, readFeedToken } from './key.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import { askerOf, type Ctx, type Deps, type Env } from './serve.ts';

const PAGE_ROWS = 1_000;

const noLink = (instance: string) =>
  problemResponse(
    'not-found',
    'This link shows nothing: it was taken back, has run out, or was not copied whole.',
    instance,
  );

export function serveFeed<E extends Env>(deps: Deps<E>) {
  return async function serveFeedRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    const token = /^(\S+)\.csv$/.exec(c.req.param('file') ?? '')?.[1] ?? '';
    c.set('seen', { route: 'readFeed' });
    const read = await readFeedToken(token, peppersIn(c.env));
    if (!read) return noLink(instance);
    c.set('seen', { route: 'readFeed', yard: read.yardId, key: read.keyId });
    const limiter = deps.limiter?.(c.env);
    if (limiter && !(await limiter.allow('read', `${read.yardId} ${read.keyId}`))) {
      return refusalResponse(
        { why: 'too-many-requests', detail: 'This link is read too often. Wait a little.' },
        instance,
      );
    }
    const door = deps.door(c.env, read.yardId);
    return feedResponse(door, askerOf(read, 'feed'), instance);
  };
}

async function feedResponse(door: YardDoor, asker: Asker, instance: string): Promise<Response> {
  const parts: string[] = [];
  let after: string | null = null;
  do {
    const result: QuestionAnswer<'feed'> = await door.ask(asker, 'feed', {
      page: { after, limit: PAGE_ROWS },
    });
    if (!result.ok || !result.answer) return noLink(instance);
    const answer: FeedAnswer = result.answer;
    if (parts.length === 0) parts.push(csvRow(feedHeads(answer)));
    parts.push(...feedRows(answer).map(csvRow));
    after = answer.list === 'cut-list' ? null : answer.page.next;
  } while (after !== null);
  return new Response(parts.join(''), {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': 'inline; filename="heartside.csv"',
      'cache-control': 'no-store',
      'x-robots-tag': 'noindex',
    },
  });
}
