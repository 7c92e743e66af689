/** The printable page of a cutting session: one card a board, cautions once. One file, no scripts, nothing fetched. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout } from '../../contract/plan.ts';
import type { Session } from '../../contract/session.ts';
import type { Settings } from '../../contract/settings.ts';
import { cutCard } from './card.ts';
import { cautions } from './cautions.ts';
import { nothing } from './html.ts';
import { paper } from './paper.ts';

export interface CutCards {
  readonly session: Pick<Session, 'openedAtMs' | 'doneBoardIds'>;
  readonly layouts: readonly Layout[];
  readonly boards: readonly Board[];
  readonly job: JobWithParts;
  readonly settings: Settings;
}

/** The whole page as HTML. Boards of an earlier phase come first. */
export function cutCardsPage({ session, layouts, boards, job, settings }: CutCards): string {
  const boardById = new Map(boards.map((board) => [board.id, board]));
  const inOrder = layouts.toSorted((a, b) => a.phase - b.phase);
  // How demanding parts are, as the phases of this session: the first one that is cut is phase 1.
  const phases = [...new Set(inOrder.map((layout) => layout.phase))];
  const cards = inOrder.map((layout, index) =>
    cutCard({
      layout,
      board: boardById.get(layout.boardId) ?? null,
      job,
      settings,
      phaseNo: phases.indexOf(layout.phase) + 1,
      sessionDay: new Date(session.openedAtMs).toISOString().slice(0, 10),
      no: index + 1,
      of: inOrder.length,
      foot: index === 0 ? cautions : nothing,
      isDone: session.doneBoardIds.includes(layout.boardId),
    }),
  );
  const boardsInWords = `${inOrder.length} ${inOrder.length === 1 ? 'board' : 'boards'}`;
  const onScreen =
    inOrder.length === 0
      ? 'No boards are left to cut in this session.'
      : `Cut cards for ${job.name}: ${boardsInWords}. Print this page from the browser.`;
  return paper(`Cut cards: ${job.name}`, onScreen, cards);
}
