/** The pieces that came out of one board, entered against what was planned on it. */
import type { Piece } from '../../contract/job.ts';
import type { Layout, Plan } from '../../contract/plan.ts';
import type { Fault } from '../../contract/problem.ts';
import type { BoardOutcome, CutResult } from '../../contract/session.ts';
import type { Settings } from '../../contract/settings.ts';
import type { StoredPart } from '../state.ts';
import { counted } from '../words.ts';
import { layerCount, type PartsAtWork, wantedPiece } from './parts-at-work.ts';

/** Pieces of one kind from one board, at the size they were cut to. */
export interface PiecesOut {
  readonly partKey: string;
  readonly element: number | null;
  readonly good: number;
  readonly failed: number;
  readonly why: string;
  readonly lengthNm: number;
  readonly widthNm: number;
}

export function plannedPieces(layout: Layout): readonly PiecesOut[] {
  return layout.pieces.map((placed) => ({
    partKey: placed.partKey,
    element: placed.element,
    good: 1,
    failed: 0,
    why: '',
    lengthNm: placed.toNm - placed.fromNm,
    widthNm: placed.rightNm - placed.leftNm,
  }));
}

function plannedSize(plan: Plan, layout: Layout, result: CutResult): { lengthNm: number; widthNm: number } | null {
  const isIt = (placed: Layout['pieces'][number]) =>
    placed.partKey === result.partKey && placed.element === result.element;
  const placed = layout.pieces.find(isIt) ?? plan.layouts.flatMap((other) => other.pieces).find(isIt);
  return placed ? { lengthNm: placed.toNm - placed.fromNm, widthNm: placed.rightNm - placed.leftNm } : null;
}

/** Why these pieces cannot be entered on the cut list as it is now; null when they can. */
function listFault(parts: PartsAtWork, key: string, element: number | null): { field: string; help: string } | null {
  const part = parts.part(key);
  if (!part) return { field: 'partKey', help: 'the cut list of this job has no such row' };
  const layers = layerCount(part);
  if (layers === 0 && element !== null) return { field: 'element', help: 'it is one solid piece; leave the layer out' };
  if (layers > 0 && (element === null || element >= layers)) {
    return { field: 'element', help: `it is glued up from ${layers} layers; say which one was cut` };
  }
  return null;
}

/** Pieces of the plan that the cut list no longer knows, because it was set anew while the board was at the saw. */
export function plannedFaults(layout: Layout, parts: PartsAtWork, pointer: string): readonly Fault[] {
  return layout.pieces.flatMap((placed): Fault[] => {
    const fault = listFault(parts, placed.partKey, placed.element);
    const help = `${placed.label} is no longer on the cut list as it was planned; enter what came out of ${layout.tag} instead`;
    return fault ? [{ pointer, field: fault.field, read: placed.partKey, help }] : [];
  });
}

/** What was counted at the saw, with the plan's sizes where none were measured. */
export function countedPieces(
  outcome: Extract<BoardOutcome, { as: 'cut' }>,
  plan: Plan,
  layout: Layout,
  parts: PartsAtWork,
  pointer: string,
): { readonly pieces: readonly PiecesOut[]; readonly faults: readonly Fault[] } {
  const pieces: PiecesOut[] = [];
  const faults: Fault[] = [];
  for (const [at, result] of outcome.parts.entries()) {
    if (result.good + result.failed === 0) continue;
    const fault = (field: string, help: string) => {
      faults.push({ pointer: `${pointer}/parts/${at}`, field, read: result.partKey, help });
    };
    const unlisted = listFault(parts, result.partKey, result.element);
    if (unlisted) {
      fault(unlisted.field, unlisted.help);
      continue;
    }
    const planned = plannedSize(plan, layout, result);
    const lengthNm = result.lengthNm ?? planned?.lengthNm;
    const widthNm = result.widthNm ?? planned?.widthNm;
    if (lengthNm === undefined || widthNm === undefined) {
      fault('lengthNm', 'it was not in this plan; say how long and how wide it was cut');
      continue;
    }
    const { partKey, element, good, failed, why } = result;
    pieces.push({ partKey, element, good, failed, why, lengthNm, widthNm });
  }
  return { pieces, faults };
}

interface At {
  readonly planId: string;
  readonly boardId: string;
  readonly sessionId: string;
}

/** One planned on this board; else one wanted; else one that this plan meant for another board. */
function openPiece(parts: PartsAtWork, out: PiecesOut, at: At): Piece | null {
  let best: { piece: Piece; rank: number } | null = null;
  for (const piece of parts.pieces(out.partKey)) {
    if (piece.element !== out.element) continue;
    const isPlanned = piece.state === 'planned' && piece.planId === at.planId;
    if (!isPlanned && piece.state !== 'wanted') continue;
    const rank = isPlanned && piece.boardId === at.boardId ? 1 : isPlanned ? 3 : 2;
    if (!best || rank < best.rank) best = { piece, rank };
  }
  return best?.piece ?? null;
}

function restingUntil(today: string, days: number): string {
  return new Date(Date.parse(today) + days * 86_400_000).toISOString().slice(0, 10);
}

/**
 * Enters the pieces; failures first, so that the piece wanted in a failed one's place can be the good one that was cut
 * next. Gives what was cut beyond what is wanted, in words, unless spares are welcome.
 */
export function enterPieces(
  parts: PartsAtWork,
  pieces: readonly PiecesOut[],
  at: At,
  how: { readonly today: string; readonly restDays: Settings['restDays']; readonly allowExtra: boolean },
): readonly string[] {
  const beyond: string[] = [];
  const whence = { boardId: at.boardId, planId: at.planId, sessionId: at.sessionId };
  const spare = (part: StoredPart, element: number | null): Piece => {
    const no = Math.max(0, ...parts.pieces(part.key).map((piece) => piece.no)) + 1;
    return parts.add(part.key, wantedPiece(no, element));
  };
  for (const out of pieces) {
    const part = parts.part(out.partKey);
    if (!part) throw new Error(`the plan cuts ${out.partKey}, which is not on the list`);
    let over = 0;
    for (let count = 0; count < out.failed; count++) {
      const piece = openPiece(parts, out, at);
      if (piece) parts.fail(part.key, piece, out.why, whence);
      else if (!how.allowExtra) over += 1;
    }
    for (let count = 0; count < out.good; count++) {
      const piece = openPiece(parts, out, at) ?? (how.allowExtra ? spare(part, out.element) : null);
      if (!piece) {
        over += 1;
        continue;
      }
      const until = restingUntil(how.today, how.restDays[part.use]);
      parts.change(part.key, piece, { ...whence, state: 'roughed', restingUntil: until, why: '' });
    }
    if (over > 0) {
      const layer = out.element === null ? '' : `, layer ${out.element + 1}`;
      beyond.push(`${counted(over, 'piece')} of ${part.label}${layer}`);
    }
  }
  return beyond;
}
