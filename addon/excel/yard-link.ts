/** Asks the connected yard for the formulas of the sheet, with the connection that the pane keeps for this user. */
import type { Query } from '../../worker/contract/wire.ts';
import type { YardQuestion } from '../formulas/formula.ts';
import { answersTo, freeByWood, needsOf, type StockBoard, type TagStatus } from '../formulas/yard-answers.ts';
import { makeYardAsker, NO_ANSWER, type YardAnswer, type YardAsker } from '../formulas/yard-asker.ts';
import type { SheetHost } from '../host/host.ts';
import type { CallResult, YardApi } from '../panel/api.ts';
import { pageClient } from '../panel/client.ts';
import { CONNECTION_KEPT_AS, connectionOf } from '../panel/state/connections.ts';

export function yardLink(host: SheetHost): YardAsker {
  return makeYardAsker({
    fetchAnswers: (questions) => fetchAnswers(host, questions),
    wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
    nowMs: () => Date.now(),
  });
}

async function fetchAnswers(host: SheetHost, questions: readonly YardQuestion[]): Promise<readonly YardAnswer[]> {
  const kept = await host.settings.get(CONNECTION_KEPT_AS, 'user');
  const connection = kept === null ? null : connectionOf(kept);
  if (!connection)
    return questions.map(() => ({ fault: 'open Heartside beside the sheet and connect it to the yard' }));
  const api = pageClient(connection.address, connection.key);
  const { tags, boards } = needsOf(questions);
  const [statuses, stock] = await Promise.all([statusesOf(api, tags), boards ? stockOf(api) : []]);
  if (statuses === null || stock === null) return questions.map(() => NO_ANSWER);
  return answersTo(questions, statuses, freeByWood(stock));
}

async function statusesOf(api: YardApi, tags: readonly string[]): Promise<readonly TagStatus[] | null> {
  if (tags.length === 0) return [];
  const result = await api.call('boardStatus', { body: { tags: [...tags] } });
  return result.ok ? result.answer.rows : null;
}

/** 5,000 boards in stock; a yard of one person holds fewer. */
const PAGES_MAX = 25;
const PAGE_BOARDS = 200;

async function stockOf(api: YardApi): Promise<readonly StockBoard[] | null> {
  const boards: StockBoard[] = [];
  let after: string | null = null;
  for (let page = 0; page < PAGES_MAX; page += 1) {
    const query: Query<'listBoards'> = { state: 'in-stock', limit: PAGE_BOARDS, ...(after === null ? {} : { after }) };
    const result: CallResult<'listBoards'> = await api.call('listBoards', { query });
    if (!result.ok) return null;
    boards.push(...result.answer.items);
    after = result.answer.next;
    if (after === null) return boards;
  }
  return null;
}
