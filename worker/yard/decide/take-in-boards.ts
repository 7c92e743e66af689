/** Boards coming in. A faulty row never costs a good one, unless the user wants all or nothing. */
import type { Board } from '../../contract/board.ts';
import type { Change } from '../../contract/movement.ts';
import type { Fault } from '../../contract/problem.ts';
import { created } from '../change.ts';
import type { BoardRow, Occasion } from '../command.ts';
import { type CommandOf, type Decision, moved, refused } from '../decision.ts';
import { liveBoardByTag, type YardReader, yardSettings } from '../state.ts';
import { tagFold } from '../tag.ts';
import { counted, listed } from '../words.ts';
import { defectFaults } from './defects.ts';
import { readingsToCome } from './readings.ts';

/** The rows of the request that took each tag, so that the second to ask is told which was first. */
type RowByTag = Map<string, number>;

function tagFaults(state: YardReader, { row, draft }: BoardRow, rowByTag: RowByTag): readonly Fault[] {
  const fault = (help: string): Fault => ({ pointer: `/boards/${row}/tag`, row, field: 'tag', read: draft.tag, help });
  const firstRow = rowByTag.get(tagFold(draft.tag));
  if (firstRow !== undefined)
    return [fault(`the same tag stands in row ${firstRow + 1} of this list; give one a new tag`)];
  const present = liveBoardByTag(state, draft.tag);
  return present
    ? [fault(`a board in stock bears this tag already; is it the same board? if not, give it a new tag`)]
    : [];
}

export function takeInBoards(state: YardReader, command: CommandOf<'take-in-boards'>, occasion: Occasion): Decision {
  const settings = yardSettings(state);
  const faults: Fault[] = [...command.faults];
  const rowByTag: RowByTag = new Map();
  const taken: { row: number; id: string; tag: string }[] = [];
  const changes: Change[] = [];
  let clashes = 0;
  for (const boardRow of command.rows) {
    const { row, draft, isOffcut } = boardRow;
    const clash = tagFaults(state, boardRow, rowByTag);
    const wrong = [
      ...clash,
      ...defectFaults(draft.defects, draft, settings, { pointer: `/boards/${row}/defects`, row }),
      ...readingsToCome(draft.readings, occasion.atMs, { pointer: `/boards/${row}/readings`, row }),
    ];
    clashes += clash.length;
    if (wrong.length > 0) {
      faults.push(...wrong);
      continue;
    }
    rowByTag.set(tagFold(draft.tag), row);
    const id = occasion.newId('bd');
    taken.push({ row, id, tag: draft.tag });
    const origin: Board['origin'] = isOffcut
      ? { kind: 'offcut', parentId: null, sessionId: null }
      : { kind: 'received' };
    changes.push(created('board', id, { ...draft, id, state: 'in-stock', origin }));
  }
  if (taken.length === 0 || (command.allOrNothing && faults.length > 0)) {
    const onlyTags = clashes > 0 && clashes === faults.length;
    const detail = `${counted(faults.length, 'fault')} in the list; no board was taken in.`;
    return refused(onlyTags ? 'tag-taken' : 'invalid-input', detail, { faults });
  }
  const tags = listed(taken.map((board) => board.tag));
  const summary = `Took in ${counted(taken.length, 'board')}: ${tags}`;
  return moved({ kind: 'boards-received', summary, changes }, { taken, faults });
}
