/** The printable page of a cutting session: one card a board, cautions once. One file, no scripts, nothing fetched. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout } from '../../contract/plan.ts';
import type { Session } from '../../contract/session.ts';
import type { Settings } from '../../contract/settings.ts';
import { sharedSettings } from '../../planner/saw-shared.ts';
import { dayOfMs } from '../../wood/day.ts';
import { cutCard } from './card.ts';
import { cautions } from './cautions.ts';
import { html, type Markup, nothing } from './html.ts';
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
      sessionDay: dayOfMs(session.openedAtMs),
      no: index + 1,
      of: inOrder.length,
      head: index === 0 ? sharedFences(inOrder, settings) : nothing,
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

/** For all boards of the session, on the first card. */
function sharedFences(layouts: readonly Layout[], settings: Settings): Markup {
  const rows = sharedSettings(layouts, settings);
  if (rows.length === 0) return nothing;
  const phases = [...new Set(rows.map(({ phase }) => phase))];
  const each = phases.map((phase, at) => {
    const ofPhase = rows.filter((row) => row.phase === phase);
    const name = phases.length === 1 ? '' : at === 0 ? 'first ' : 'after the rest ';
    const isLast = at === phases.length - 1;
    return html`${name}${ofPhase.map(
      ({ setting, tags }, no) =>
        html`<span class="one">${setting}: ${tags.join(', ')}${isLast && no === ofPhase.length - 1 ? '.' : ';'}</span> `,
    )}`;
  });
  return html`<p class="shared"><strong>One setting for several boards</strong>, before the fence is moved: ${each}</p>`;
}
