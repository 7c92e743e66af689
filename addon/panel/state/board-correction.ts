/** What somebody typed into the form that corrects a board, as the fields to be changed. Pure. */
import type { Board, BoardPatch, Grain } from '../../../worker/contract/board.ts';
import { readThicknessCall } from '../../../worker/wood/thickness.ts';
import { type Measure, speciesText } from '../words/measure.ts';

export interface CorrectionTexts {
  readonly tag: string;
  readonly species: string;
  readonly grain: Grain;
  readonly length: string;
  readonly width: string;
  readonly thickness: string;
  readonly cost: string;
  readonly place: string;
  readonly note: string;
  readonly offcut: boolean;
}

/** Whether somebody may say that a board is an offcut, or is none: not where the yard saw it being cut or glued up. */
export const mayBeOffcut = ({ origin }: Pick<Board, 'origin'>): boolean =>
  origin.kind === 'received' || (origin.kind === 'offcut' && origin.parentId === null);

export function textsOf(board: Board, measure: Pick<Measure, 'length' | 'moneyTyped'>): CorrectionTexts {
  const shown = (nm: number) => measure.length(nm, board.measuredIn);
  return {
    tag: board.tag,
    species: speciesText(board.species),
    grain: board.grain,
    length: shown(board.lengthNm),
    width: shown(board.widthNm),
    thickness: shown(board.thicknessNm),
    cost: board.costMinor === null ? '' : measure.moneyTyped(board.costMinor),
    place: board.place,
    note: board.note,
    offcut: board.origin.kind === 'offcut',
  };
}

/** Only what was typed anew, so that a size that the tape rounds is not changed by looking at it. No cost takes it away. */
export function correctionOf(
  first: CorrectionTexts,
  texts: CorrectionTexts,
  measure: Pick<Measure, 'read' | 'readMoney'>,
): BoardPatch {
  const anew = (name: Exclude<keyof CorrectionTexts, 'offcut'>) =>
    texts[name] === first[name] ? null : texts[name].trim();
  const size = (name: 'length' | 'width' | 'thickness') => (anew(name) === null ? null : measure.read(texts[name]));
  const [lengthNm, widthNm, thicknessNm] = [size('length'), size('width'), size('thickness')];
  const [tag, species, cost, place, note] = [anew('tag'), anew('species'), anew('cost'), anew('place'), anew('note')];
  return {
    ...(tag === null ? {} : { tag }),
    ...(species === null ? {} : { species }),
    ...(texts.grain === first.grain ? {} : { grain: texts.grain }),
    ...(lengthNm === null ? {} : { lengthNm }),
    ...(widthNm === null ? {} : { widthNm }),
    ...(thicknessNm === null ? {} : { thicknessNm, ...callOf(texts.thickness) }),
    ...(cost === null ? {} : { costMinor: measure.readMoney(cost) }),
    ...(place === null ? {} : { place }),
    ...(note === null ? {} : { note }),
    ...(texts.offcut === first.offcut ? {} : { offcut: texts.offcut }),
  };
}

/** A thickness written as a call ("8/4") is the board's call too. */
function callOf(typed: string): { readonly thicknessCall?: string } {
  const call = /\/4/.test(typed) ? readThicknessCall(typed) : null;
  return call === null ? {} : { thicknessCall: call.call };
}
