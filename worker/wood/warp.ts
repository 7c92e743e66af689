/**
 * How much of a board's warp is left in a shorter or narrower piece of it, and what size the piece is once flat and
 * straight. Warp is taken as one even curve, so it falls with the square of the span: cutting short and narrow first
 * recovers wood. Stations or a kink describe boards that bend otherwise.
 */
import { LENGTH_NM_MAX, requireSize, requireWithin } from './result.ts';
import { NM_PER_INCH } from './unit.ts';
import type { Face } from './volume.ts';

/** Deviations measured over the whole board. */
export interface BoardWarp {
  /** Hollow along the face. */
  readonly bowNm: number;
  /** Hollow along the edge. */
  readonly crookNm: number;
  /** Hollow across the face. */
  readonly cupNm: number;
  /** Height of the fourth corner when three lie flat. */
  readonly twistNm: number;
}

/**
 * The board's warp as it is over a piece of it, nanometres: bow and crook × (l/L)², cup × (w/W)², twist × (l/L)(w/W).
 * Crook ¾ in on 96 in leaves 3/16 in on 48 in. A piece is not larger than its board: beyond it the share is held at 1.
 */
export function warpOver(warp: BoardWarp, board: Face, piece: Face): BoardWarp {
  requireWarp(warp);
  const along = share(piece.lengthNm, board.lengthNm);
  const across = share(piece.widthNm, board.widthNm);
  return {
    bowNm: warp.bowNm * along * along,
    crookNm: warp.crookNm * along * along,
    cupNm: warp.cupNm * across * across,
    twistNm: warp.twistNm * along * across,
  };
}

function requireWarp(warp: BoardWarp): void {
  requireSize('bow', warp.bowNm);
  requireSize('crook', warp.crookNm);
  requireSize('cup', warp.cupNm);
  requireSize('twist', warp.twistNm);
}

/** Planed off the two faces together for roughness alone, 1/16 in. Common practice, no source. */
export const CLEANUP_FACES_NM = NM_PER_INCH / 16;
/** Jointed off each edge for roughness alone, 1/16 in. Common practice, no source. */
export const CLEANUP_EDGE_NM = NM_PER_INCH / 16;

/**
 * Thickness left once both faces are flat, whole nanometres and not below zero: thickness − bow − cup − half the twist
 * − clean-up. The sum of the forms is the most they can take together, so the answer is on the safe side. Half the
 * twist is lost when the piece is shimmed to share it between the faces.
 */
export function flatThicknessNm(thicknessNm: number, warpOverPiece: BoardWarp, cleanupNm = CLEANUP_FACES_NM): number {
  requireSize('thickness', thicknessNm);
  requireWarp(warpOverPiece);
  requireSize('clean-up', cleanupNm);
  const lostNm = warpOverPiece.bowNm + warpOverPiece.cupNm + warpOverPiece.twistNm / 2 + cleanupNm;
  return Math.max(0, Math.floor(thicknessNm - lostNm));
}

/**
 * Width left once both edges are straight, whole nanometres and not below zero: width − crook − clean-up of both edges.
 */
export function straightWidthNm(widthNm: number, warpOverPiece: BoardWarp, cleanupEdgeNm = CLEANUP_EDGE_NM): number {
  requireSize('width', widthNm);
  requireWarp(warpOverPiece);
  requireSize('clean-up', cleanupEdgeNm);
  return Math.max(0, Math.floor(widthNm - warpOverPiece.crookNm - 2 * cleanupEdgeNm));
}

/**
 * The same sagitta for a true circular arc: how far the square law is off (0.18747 in for 3/16 in over half of 96 in).
 */
export function arcSagittaNm(sagittaNm: number, lengthNm: number, pieceLengthNm: number): number {
  requireSize('gap', sagittaNm);
  requireWithin('length', lengthNm, 1, LENGTH_NM_MAX);
  requireSize('piece', pieceLengthNm);
  if (sagittaNm === 0) return 0;
  const radius = lengthNm ** 2 / (8 * sagittaNm) + sagittaNm / 2;
  const chord = Math.min(pieceLengthNm, lengthNm);
  return radius - Math.sqrt(radius ** 2 - chord ** 2 / 4);
}

/** A sharp bend: its gap under a straightedge over the whole board, and where. */
export interface Kink {
  readonly gapNm: number;
  readonly atNm: number;
}

/**
 * How far a kink leaves a piece from straight, nanometres: a·b/(a+b)·θ for reaches a and b on its two sides; 0 on one
 * side of it.
 */
export function kinkDepthNm(kink: Kink, boardLengthNm: number, piece: { fromNm: number; toNm: number }): number {
  requireSize('length', boardLengthNm);
  requireSize('gap of the kink', kink.gapNm);
  requireWithin('place of the kink', kink.atNm, 1, boardLengthNm - 1);
  requireWithin('beginning of the piece', piece.fromNm, 0, piece.toNm);
  requireSize('end of the piece', piece.toNm);
  const before = kink.atNm - piece.fromNm;
  const after = piece.toNm - kink.atNm;
  if (before <= 0 || after <= 0) return 0;
  const bend = kink.gapNm * (1 / kink.atNm + 1 / (boardLengthNm - kink.atNm));
  return ((before * after) / (before + after)) * bend;
}

/** The gap to a string or straightedge at a place along the board; 0 at both ends. */
export interface Station {
  readonly atNm: number;
  readonly gapNm: number;
}

/**
 * Warp of a piece from gaps measured at three to five stations, nanometres: the widest spread of the offsets from the
 * line through the piece's own ends, taking the board as straight between stations. Needs no model of the curve.
 */
export function stationDepthNm(stations: readonly Station[], piece: { fromNm: number; toNm: number }): number {
  const sorted = [...stations].sort((a, b) => a.atNm - b.atNm);
  if (sorted.length < 2) throw new RangeError('stations: at least two places along the board');
  for (const { atNm, gapNm } of stations) {
    requireSize('place of a station', atNm);
    // Below zero where the board stands proud of the string: an S curve.
    requireWithin('gap at a station', gapNm, -LENGTH_NM_MAX, LENGTH_NM_MAX);
  }
  requireSize('beginning of the piece', piece.fromNm);
  requireWithin('piece', piece.toNm - piece.fromNm, 1, LENGTH_NM_MAX);
  const start = gapAt(sorted, piece.fromNm);
  const slope = (gapAt(sorted, piece.toNm) - start) / (piece.toNm - piece.fromNm);
  const inside = sorted.filter((s) => s.atNm > piece.fromNm && s.atNm < piece.toNm);
  const offsets = inside.map((s) => s.gapNm - start - slope * (s.atNm - piece.fromNm));
  return Math.max(0, ...offsets) - Math.min(0, ...offsets);
}

function gapAt(sorted: readonly Station[], atNm: number): number {
  const after = sorted.findIndex((s) => s.atNm >= atNm);
  const to = sorted[after === -1 ? sorted.length - 1 : after];
  const from = sorted[after === -1 ? sorted.length - 1 : Math.max(0, after - 1)];
  if (!to || !from) return 0;
  if (to.atNm === from.atNm) return to.gapNm;
  return from.gapNm + ((to.gapNm - from.gapNm) * (atNm - from.atNm)) / (to.atNm - from.atNm);
}

/**
 * The crook that a drying board will likely have at its target: it starts near 50 % and grows evenly as moisture falls
 * (wood science abstract, read), so crook × (50 − target) / (50 − now). Our inference, to be shown as likely and
 * measured again before cutting. ¼ in at 30 % becomes about 0.525 in at 8 %. Null at 50 % or wetter: nothing to infer
 * from.
 */
export function likelyCrookNm(crookNm: number, nowPercent: number, targetPercent: number): number | null {
  requireSize('crook', crookNm);
  requireWithin('moisture content', nowPercent, 0, 300);
  if (nowPercent >= 50) return null;
  requireWithin('target', targetPercent, 0, 50);
  return Math.round((crookNm * (50 - targetPercent)) / (50 - nowPercent));
}

function share(pieceNm: number, boardNm: number): number {
  requireWithin('board', boardNm, 1, LENGTH_NM_MAX);
  requireSize('piece', pieceNm);
  return Math.min(1, pieceNm / boardNm);
}
