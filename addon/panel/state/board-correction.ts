/** What somebody typed into the form that corrects a board, as the fields to be changed. Pure. */
import type { Board, BoardPatch, Grain } from '../../../worker/contract/board.ts';
import { readThicknessCall } from '../../../worker/wood/thickness.ts';
import { speciesText } from '../words/measure.ts';
import { amountText, readAmount } from '../words/typed.ts';

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
}

export function textsOf(board: Board, shown: (nm: number) => string): CorrectionTexts {
  return {
    tag: board.tag,
    species: speciesText(board.species),
    grain: board.grain,
    length: shown(board.lengthNm),
    width: shown(board.widthNm),
    thickness: shown(board.thicknessNm),
    cost: board.costMinor === null ? '' : amountText(board.costMinor),
    place: board.place,
    note: board.note,
  };
}

/** Only what was typed anew, so that a size that the tape rounds is not changed by looking at it. No cost takes it away. */
export function correctionOf(
  first: CorrectionTexts,
  texts: CorrectionTexts,
  read: (typed: string) => number | null,
): BoardPatch {
  const anew = (name: keyof CorrectionTexts) => (texts[name] === first[name] ? null : texts[name].trim());
  const size = (name: 'length' | 'width' | 'thickness') => (anew(name) === null ? null : read(texts[name]));
  const [lengthNm, widthNm, thicknessNm] = [size('length'), size('width'), size('thickness')];
  const [tag, species, cost, place, note] = [anew('tag'), anew('species'), anew('cost'), anew('place'), anew('note')];
  return {
    ...(tag === null ? {} : { tag }),
    ...(species === null ? {} : { species }),
    ...(texts.grain === first.grain ? {} : { grain: texts.grain }),
    ...(lengthNm === null ? {} : { lengthNm }),
    ...(widthNm === null ? {} : { widthNm }),
    ...(thicknessNm === null ? {} : { thicknessNm, ...callOf(texts.thickness) }),
    ...(cost === null ? {} : { costMinor: readAmount(cost) }),
    ...(place === null ? {} : { place }),
    ...(note === null ? {} : { note }),
  };
}

/** A thickness written as a call ("8/4") is the board's call too. */
function callOf(typed: string): { readonly thicknessCall?: string } {
  const call = /\/4/.test(typed) ? readThicknessCall(typed) : null;
  return call === null ? {} : { thicknessCall: call.call };
}
