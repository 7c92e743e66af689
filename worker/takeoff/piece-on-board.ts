/**
 * What a piece asks of one board: its moisture sizes the piece, and its warp over the piece's own length and width takes
 * from thickness and width. The one rule by which the takeoff counts a board and the planner cuts it.
 */
import type { Board } from '../contract/board.ts';
import type { Settings } from '../contract/settings.ts';
import type { Size } from '../wood/unit.ts';
import type { Face } from '../wood/volume.ts';
import { type BoardWarp, flatThicknessNm, warpOver } from '../wood/warp.ts';
import {
  type BlankSettings,
  blankAround,
  PLANING_GIVE_NM,
  planingAllowanceNm,
  sizeAtCutting,
  type WoodAtCutting,
} from './blank.ts';
import { roundedUpNm, tapeStepNm } from './grid.ts';

/** A piece before the warp of any board: its rough size, and how thick it must be once flat. */
export interface PieceAtCutting {
  readonly rough: Size;
  /** Not rounded, planing allowance included. */
  readonly neededThicknessNm: number;
}

export function pieceAtCutting(finished: Size, settings: BlankSettings, wood: WoodAtCutting): PieceAtCutting {
  const planingNm = planingAllowanceNm(finished.thicknessNm, settings);
  const atCutting = sizeAtCutting(finished, settings, wood);
  return {
    rough: blankAround(atCutting, planingNm, settings),
    neededThicknessNm: atCutting.thicknessNm + planingNm,
  };
}

/** The face to be cut there, crook included, as the saw is set; and the thickness that the board has over it once flat. */
export interface PieceOnBoard extends Face {
  /** Width where a rip of its own has straightened the edge before. */
  readonly straightWidthNm: number;
  /** How much of the width is for the crook over the piece's length. */
  readonly crookNm: number;
  readonly flatNm: number;
  readonly isThickEnough: boolean;
}

export function pieceOnBoard(
  piece: PieceAtCutting,
  board: Pick<Board, 'lengthNm' | 'widthNm' | 'thicknessNm' | 'warp'>,
  settings: Pick<Settings, 'shown' | 'denominator'>,
): PieceOnBoard {
  const { rough } = piece;
  const over = board.warp && warpOver(board.warp, board, rough);
  const flatNm = over ? flatThicknessNm(board.thicknessNm, over, 0) : board.thicknessNm;
  return {
    lengthNm: rough.lengthNm,
    widthNm: roundedUpNm(rough.widthNm + crookNm(over), tapeStepNm(settings)),
    straightWidthNm: rough.widthNm,
    crookNm: crookNm(over),
    flatNm,
    isThickEnough: isThickEnough(flatNm, piece),
  };
}

/** flatNm: what a board has over the piece once flat. */
export const isThickEnough = (flatNm: number, { neededThicknessNm }: PieceAtCutting): boolean =>
  flatNm >= neededThicknessNm - PLANING_GIVE_NM;

const crookNm = (over: BoardWarp | null): number => over?.crookNm ?? 0;

/** From this thickness on a board gives two blanks and the blade between them: it is resawn, not planed down. */
export function resawnFromNm(finishedThicknessNm: number, settings: Pick<Settings, 'allowances' | 'kerf'>): number {
  return 2 * (finishedThicknessNm + planingAllowanceNm(finishedThicknessNm, settings)) + settings.kerf.ripNm;
}

/** Thick enough for two blanks and the blade between them. */
export const canResaw = (
  thicknessNm: number,
  finishedThicknessNm: number,
  settings: Pick<Settings, 'allowances' | 'kerf'>,
): boolean => thicknessNm >= resawnFromNm(finishedThicknessNm, settings);

/** Grain that is asked for must be recorded on the board. */
export const grainServes = (asked: Board['grain'], board: Board['grain']): boolean =>
  asked === 'unknown' || asked === board;
