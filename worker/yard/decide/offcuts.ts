/** Offcuts that came out of a board: boards of their own, with their parent's wood, and the runs that others held of it. */
import type { Board, Defect } from '../../contract/board.ts';
import { limits } from '../../contract/limits.ts';
import type { Change } from '../../contract/movement.ts';
import type { Layout, RectNm } from '../../contract/plan.ts';
import type { Conflict, Fault } from '../../contract/problem.ts';
import type { OffcutDraft } from '../../contract/session.ts';
import { volumeNm3 } from '../../wood/unit.ts';
import { changed, created, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type YardReader, yardSettings } from '../state.ts';
import { tagFold } from '../tag.ts';
import { tape } from '../words.ts';
import { defectFaults, defectsWithin } from './defects.ts';
import { heldConflict } from './holds.ts';

export interface OffcutOut {
  /** Null: made from the parent's tag. */
  readonly tag: string | null;
  readonly lengthNm: number;
  readonly widthNm: number;
  readonly thicknessNm: number;
  readonly place: string;
  readonly defects: readonly Defect[];
  readonly note: string;
  /** Where on the parent it lay, if it was cut as planned. */
  readonly rect: RectNm | null;
}

export function plannedOffcuts(
  board: Board,
  layout: Layout,
  tags: readonly string[],
  place: string,
): readonly OffcutOut[] {
  return layout.offcuts.map((rect, at) => ({
    tag: tags[at] ?? null,
    lengthNm: rect.toNm - rect.fromNm,
    widthNm: rect.rightNm - rect.leftNm,
    thicknessNm: board.thicknessNm,
    place: place || board.place,
    defects: defectsWithin(board.defects, rect),
    note: '',
    rect,
  }));
}

export function measuredOffcuts(board: Board, drafts: readonly OffcutDraft[]): readonly OffcutOut[] {
  return drafts.map((draft) => ({ ...draft, thicknessNm: draft.thicknessNm ?? board.thicknessNm, rect: null }));
}

export function offcutFaults(
  state: YardReader,
  board: Board,
  offcuts: readonly OffcutOut[],
  pointer: string,
): readonly Fault[] {
  const settings = yardSettings(state);
  return offcuts.flatMap((offcut, at): Fault[] => {
    const fits =
      offcut.lengthNm <= board.lengthNm && offcut.widthNm <= board.widthNm && offcut.thicknessNm <= board.thicknessNm;
    const wrong = defectFaults(offcut.defects, offcut, settings, { pointer: `${pointer}/offcuts/${at}/defects` });
    if (fits) return [...wrong];
    const read = [offcut.lengthNm, offcut.widthNm, offcut.thicknessNm].map((nm) => tape(nm, settings)).join(' × ');
    return [
      {
        pointer: `${pointer}/offcuts/${at}`,
        field: 'lengthNm',
        read,
        help: `it is larger than ${board.tag}, which it came from`,
      },
      ...wrong,
    ];
  });
}

/** Tags given out in one reconciliation, and those of boards that it cuts up, which are free again. */
export interface TagBook {
  readonly taken: Set<string>;
  readonly freed: Set<string>;
}

function isFree(state: YardReader, book: TagBook, tag: string): boolean {
  if (book.taken.has(tagFold(tag))) return false;
  return state.boardsByTag(tag).every((board) => board.state !== 'in-stock' || book.freed.has(board.id));
}

/** Q-7-1, Q-7-2 …: the first that no board ever bore, so that an old sticker cannot be mistaken for it. */
function tagFromParent(state: YardReader, book: TagBook, parentTag: string): string {
  for (let no = 1; ; no++) {
    const ending = `-${no}`;
    const tag = parentTag.slice(0, limits.tagChars - ending.length) + ending;
    if (!book.taken.has(tagFold(tag)) && state.boardsByTag(tag).length === 0) return tag;
  }
}

/** Its share of the parent's cost, by volume, rounded down. */
function costShare(board: Board, offcut: OffcutOut): number | null {
  if (board.costMinor === null) return null;
  return Number((BigInt(board.costMinor) * volumeNm3(offcut)) / volumeNm3(board));
}

export interface TaggedOffcut extends OffcutOut {
  readonly id: string;
  readonly tag: string;
}

export function tagOffcuts(
  state: YardReader,
  board: Board,
  offcuts: readonly OffcutOut[],
  book: TagBook,
  occasion: Occasion,
  pointer: string,
): { readonly offcuts: readonly TaggedOffcut[]; readonly faults: readonly Fault[] } {
  const faults: Fault[] = [];
  const tagged = offcuts.map((offcut, at): TaggedOffcut => {
    if (offcut.tag !== null && !isFree(state, book, offcut.tag)) {
      const help = 'a board in stock bears this tag, or it stands twice here; choose a free one';
      faults.push({ pointer: `${pointer}/offcuts/${at}/tag`, field: 'tag', read: offcut.tag, help });
    }
    const tag = offcut.tag ?? tagFromParent(state, book, board.tag);
    book.taken.add(tagFold(tag));
    return { ...offcut, tag, id: occasion.newId('bd') };
  });
  return { offcuts: tagged, faults };
}

export function offcutBoards(board: Board, offcuts: readonly TaggedOffcut[], sessionId: string): readonly Change[] {
  return offcuts.map((offcut) =>
    created('board', offcut.id, {
      id: offcut.id,
      tag: offcut.tag,
      species: board.species,
      lengthNm: offcut.lengthNm,
      widthNm: offcut.widthNm,
      thicknessNm: offcut.thicknessNm,
      thicknessCall: board.thicknessCall,
      grain: board.grain,
      grade: board.grade,
      defects: [...offcut.defects],
      warp: null,
      readings: board.readings,
      place: offcut.place,
      costMinor: costShare(board, offcut),
      delivery: board.delivery,
      receivedOn: board.receivedOn,
      measuredIn: board.measuredIn,
      note: offcut.note,
      state: 'in-stock',
      origin: { kind: 'offcut', parentId: board.id, sessionId },
    }),
  );
}

/**
 * The plan's own hold ends with the board. A run that anyone else holds must live on in an offcut: where it lay, if the
 * board was cut as planned, or else in one that is long enough.
 */
export function movedHolds(
  state: YardReader,
  board: Board,
  offcuts: readonly TaggedOffcut[],
  planId: string,
  jobId: string,
): { readonly changes: readonly Change[]; readonly conflicts: readonly Conflict[] } {
  const changes: Change[] = [];
  const conflicts: Conflict[] = [];
  const usedNm = new Map<string, number>();
  for (const held of state.reservationsOnBoard(board.id)) {
    if (held.planId === planId) {
      changes.push(removed('reservation', held.id, held));
      continue;
    }
    const longNm = held.toNm - held.fromNm;
    const home = offcuts.find((offcut) => {
      if (offcut.rect === null) return offcut.lengthNm - (usedNm.get(offcut.id) ?? 0) >= longNm;
      const { fromNm, toNm, leftNm, rightNm } = offcut.rect;
      return fromNm <= held.fromNm && toNm >= held.toNm && leftNm === 0 && rightNm === board.widthNm;
    });
    if (home) {
      const fromNm = home.rect ? held.fromNm - home.rect.fromNm : (usedNm.get(home.id) ?? 0);
      usedNm.set(home.id, fromNm + longNm);
      changes.push(...changed('reservation', held.id, held, { boardId: home.id, fromNm, toNm: fromNm + longNm }));
    } else if (held.jobId === jobId && held.planId === null) changes.push(removed('reservation', held.id, held));
    else {
      const wayOut = `enter an offcut of at least ${tape(longNm, yardSettings(state))} for it, or release that run first`;
      conflicts.push(heldConflict(state, board, held, wayOut));
    }
  }
  return { changes, conflicts };
}
