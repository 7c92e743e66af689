/** One board's outcome at the saw: its pieces, its offcuts, its end, and its wood balance. */
import type { Board } from '../../contract/board.ts';
import { limits } from '../../contract/limits.ts';
import type { Change } from '../../contract/movement.ts';
import type { Layout, Plan } from '../../contract/plan.ts';
import type { Fault } from '../../contract/problem.ts';
import type { BoardOutcome, OffcutMade, Session, WoodBalance } from '../../contract/session.ts';
import type { Settings } from '../../contract/settings.ts';
import { volumeNm3 } from '../../wood/unit.ts';
import { changed, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type Refused, refused } from '../decision.ts';
import { type YardReader, yardSettings } from '../state.ts';
import { listed } from '../words.ts';
import { countedPieces, enterPieces, type PiecesOut, plannedFaults, plannedPieces } from './came-out.ts';
import { defectFaults } from './defects.ts';
import { heldConflict, jobName } from './holds.ts';
import {
  measuredOffcuts,
  movedHolds,
  type OffcutOut,
  offcutBoards,
  offcutFaults,
  plannedOffcuts,
  type TagBook,
  type TaggedOffcut,
  tagOffcuts,
} from './offcuts.ts';
import type { PartsAtWork } from './parts-at-work.ts';
import { notedReserves, reserveHolds, withReservesWhole } from './reserve-strips.ts';
import { closeBalance, plannedKerfNm3, writeOffBalance } from './wood-balance.ts';

export interface Work {
  readonly state: YardReader;
  readonly occasion: Occasion;
  readonly plan: Plan;
  readonly session: Session;
  readonly parts: PartsAtWork;
  readonly book: TagBook;
  readonly restDays: Settings['restDays'];
  readonly allowExtra: boolean;
}

export interface Entry {
  readonly tag: string;
  /** It was left as it is: nothing came out of it. */
  readonly isUntouched?: true;
  /** What ends (holds, the board itself) is folded before what begins, so that tags and runs are free again. */
  readonly ends: readonly Change[];
  readonly begins: readonly Change[];
  readonly balance: WoodBalance | null;
  readonly offcuts: readonly OffcutMade[];
  readonly good: number;
  readonly failed: number;
  readonly notes: readonly string[];
}

function untouched(board: Board, why: string): Entry {
  const notes = [
    `${board.tag} was not cut${why ? `: ${why}` : ''}; it stays held with its pieces planned. Go to the saw with it another time, or drop the plan.`,
  ];
  return {
    tag: board.tag,
    isUntouched: true,
    ends: [],
    begins: [],
    balance: null,
    offcuts: [],
    good: 0,
    failed: 0,
    notes,
  };
}

function writtenOff(work: Work, board: Board, why: string): Entry | Refused {
  const { state, plan, session } = work;
  const holds = state.reservationsOnBoard(board.id);
  const foreign = holds.filter((held) => held.planId !== plan.id && held.jobId !== session.jobId);
  if (foreign.length > 0) {
    return refused(
      'board-held',
      `Another job holds a run of ${board.tag}. Release it before the board is written off.`,
      {
        conflicts: foreign.map((held) => heldConflict(state, board, held, 'release that run first')),
      },
    );
  }
  const ends = [
    ...holds.map((held) => removed('reservation', held.id, held)),
    ...changed('board', board.id, board, { state: 'written-off' }),
  ];
  const notes = [`${board.tag} is written off: ${why}.`];
  return { tag: board.tag, ends, begins: [], balance: writeOffBalance(board), offcuts: [], good: 0, failed: 0, notes };
}

/** A board that was cut, told in one way whether it went as planned or was counted and measured. */
interface CutFacts {
  readonly pieces: readonly PiecesOut[];
  readonly offcuts: readonly OffcutOut[];
  readonly kerfNm3: bigint | null;
  readonly scrapNm3: bigint | null;
  readonly defectsFound: Board['defects'];
  readonly note: string;
  readonly faults: readonly Fault[];
}

/** Cut as planned, its reserve strips kept whole. */
function reserveKept(work: Work, board: Board, layout: Layout, place: string, pointer: string): Entry | Refused {
  if (layout.reserves.length === 0)
    return refused('invalid-input', `${board.tag} has no strip that is kept as a reserve.`, {
      faults: [{ pointer: `${pointer}/as`, field: 'as', read: 'reserve-kept', help: 'take it as planned' }],
    });
  const whole = withReservesWhole(layout);
  const offcuts = notedReserves(
    layout,
    plannedOffcuts(board, whole, [], place),
    jobName(work.state, work.session.jobId),
  );
  const facts: CutFacts = {
    pieces: plannedPieces(whole),
    offcuts,
    kerfNm3: null,
    scrapNm3: null,
    defectsFound: [],
    note: '',
    faults: plannedFaults(whole, work.parts, pointer),
  };
  const holds = (tagged: readonly TaggedOffcut[]) => reserveHolds(layout, tagged, work.session.jobId, work.occasion);
  const entry = cut(work, board, whole, facts, pointer, holds);
  if ('refusal' in entry) return entry;
  const tags = entry.offcuts.slice(entry.offcuts.length - layout.reserves.length).map(({ tag }) => tag);
  const parts = [...new Set(layout.reserves.flatMap(({ standsFor }) => standsFor.map(({ label }) => label)))];
  const note = `${listed(tags)}: the reserve for ${listed(parts)}, held for this job. Once those have passed, plan again.`;
  return { ...entry, notes: [...entry.notes, note] };
}

function factsOf(
  work: Work,
  board: Board,
  layout: Layout,
  outcome: Extract<BoardOutcome, { as: 'planned' | 'cut' }>,
  pointer: string,
): CutFacts {
  if (outcome.as === 'planned') {
    const tags = outcome.tags ?? [];
    const help = `the plan leaves ${layout.offcuts.length} offcuts of ${board.tag}; give no more tags than that`;
    return {
      pieces: plannedPieces(layout),
      offcuts: plannedOffcuts(board, layout, tags, outcome.place),
      kerfNm3: null,
      scrapNm3: null,
      defectsFound: [],
      note: '',
      faults: [
        ...(tags.length > layout.offcuts.length ? [{ pointer: `${pointer}/tags`, field: 'tags', help }] : []),
        ...plannedFaults(layout, work.parts, pointer),
      ],
    };
  }
  const settings = yardSettings(work.state);
  const counted = countedPieces(outcome, work.plan, layout, work.parts, pointer);
  const offcuts = measuredOffcuts(board, outcome.offcuts);
  return {
    pieces: counted.pieces,
    offcuts,
    kerfNm3: outcome.kerfNm3 === undefined ? null : BigInt(outcome.kerfNm3),
    scrapNm3: outcome.scrapNm3 === undefined ? null : BigInt(outcome.scrapNm3),
    defectsFound: outcome.defectsFound,
    note: outcome.note,
    faults: [
      ...counted.faults,
      ...offcutFaults(work.state, board, offcuts, pointer),
      ...defectFaults(outcome.defectsFound, board, settings, { pointer: `${pointer}/defectsFound` }),
    ],
  };
}

function volumeOf(pieces: readonly PiecesOut[], board: Board, which: 'good' | 'failed'): bigint {
  return pieces.reduce(
    (sum, piece) => sum + BigInt(piece[which]) * volumeNm3({ ...piece, thicknessNm: board.thicknessNm }),
    0n,
  );
}

/** heldAfter: what begins to be held of its offcuts. */
function cut(
  work: Work,
  board: Board,
  layout: Layout,
  facts: CutFacts,
  pointer: string,
  heldAfter: (tagged: readonly TaggedOffcut[]) => readonly Change[] = () => [],
): Entry | Refused {
  const { state, occasion, plan, session } = work;
  if (facts.faults.length > 0) {
    return refused('invalid-input', `What came out of ${board.tag} is not clear.`, { faults: facts.faults });
  }
  const plannedNm3 = plannedKerfNm3(layout, board.thicknessNm);
  const closed = closeBalance(
    board,
    {
      partsNm3: volumeOf(facts.pieces, board, 'good'),
      failedNm3: volumeOf(facts.pieces, board, 'failed'),
      offcuts: facts.offcuts,
      kerfNm3: facts.kerfNm3,
      scrapNm3: facts.scrapNm3,
    },
    plannedNm3,
  );
  if ('ok' in closed) return closed;
  const tagged = tagOffcuts(state, board, facts.offcuts, work.book, occasion, pointer);
  if (tagged.faults.length > 0) {
    return refused('tag-taken', `An offcut of ${board.tag} needs another tag.`, { faults: tagged.faults });
  }
  const holds = movedHolds(state, board, tagged.offcuts, plan.id, session.jobId);
  if (holds.conflicts.length > 0) {
    const detail = `Another job holds a run of ${board.tag}, and no offcut is left that could be it.`;
    return refused('board-held', detail, { conflicts: holds.conflicts });
  }
  const beyond = enterPieces(
    work.parts,
    facts.pieces,
    { planId: plan.id, boardId: board.id, sessionId: session.id },
    { today: occasion.today, restDays: work.restDays, allowExtra: work.allowExtra },
  );
  if (beyond.length > 0) {
    const detail = `More is cut from ${board.tag} than is wanted: ${listed(beyond)}. Check the count, or take them as spares.`;
    return refused('more-cut-than-wanted', detail);
  }
  const fewerCuts = facts.kerfNm3 === null && BigInt(closed.balance.kerfNm3) < plannedNm3;
  const defects = [...board.defects, ...facts.defectsFound].slice(0, limits.defectsPerBoard);
  const isGone = (change: Change) => change.now === null;
  return {
    tag: board.tag,
    ends: [
      ...holds.changes.filter(isGone),
      ...changed('board', board.id, board, { state: 'cut-up', defects, ...(facts.note ? { note: facts.note } : {}) }),
    ],
    begins: [
      ...offcutBoards(board, tagged.offcuts, session.id),
      ...holds.changes.filter((change) => !isGone(change)),
      ...heldAfter(tagged.offcuts),
    ],
    balance: closed.balance,
    offcuts: tagged.offcuts.map(({ id, tag, lengthNm, widthNm, thicknessNm }) => ({
      id,
      tag,
      size: { lengthNm, widthNm, thicknessNm },
    })),
    good: facts.pieces.reduce((sum, piece) => sum + piece.good, 0),
    failed: facts.pieces.reduce((sum, piece) => sum + piece.failed, 0),
    notes: fewerCuts ? [`${board.tag}: less is left for the blade than planned, so all of that counts as kerf.`] : [],
  };
}

export function enterBoard(
  work: Work,
  board: Board,
  layout: Layout,
  outcome: BoardOutcome,
  pointer: string,
): Entry | Refused {
  switch (outcome.as) {
    case 'untouched':
      return untouched(board, outcome.why);
    case 'written-off':
      return writtenOff(work, board, outcome.why);
    case 'reserve-kept':
      return reserveKept(work, board, layout, outcome.place, pointer);
    case 'planned':
    case 'cut':
      return cut(work, board, layout, factsOf(work, board, layout, outcome, pointer), pointer);
  }
}
