/** A walnut board as the tests of the saw's words and the drawing cut it up; sizes in sixteenths of an inch. */
import type { LayoutToCut } from '../../worker/planner/cut-words.ts';
import type { BoardLayout, PlacedBlank, Rect } from '../../worker/planner/problem.ts';

const NM_PER_16TH = 1_587_500;

const onBoard = (r: Rect) => ({
  fromNm: r.from * NM_PER_16TH,
  toNm: r.to * NM_PER_16TH,
  leftNm: r.left * NM_PER_16TH,
  rightNm: r.right * NM_PER_16TH,
});

/** A layout on a grid of sixteenths, put on the board. Rests at least 12 in x 2 in are kept. */
export function onTheBoard(
  layout: BoardLayout,
  board: { readonly length: number; readonly width: number },
  labelOf: (piece: PlacedBlank) => string,
): LayoutToCut & { readonly scrap: LayoutToCut['offcuts'] } {
  const counts = new Map<string, number>();
  const keeps = (r: Rect) => r.to - r.from >= 12 * 16 && r.right - r.left >= 2 * 16;
  return {
    lengthNm: board.length * NM_PER_16TH,
    widthNm: board.width * NM_PER_16TH,
    pieces: layout.pieces.map((piece) => {
      const label = labelOf(piece);
      const no = (counts.get(label) ?? 0) + 1;
      counts.set(label, no);
      return { ...onBoard(piece), partKey: label, label, no, element: null, what: 'solid', showFace: null, attempt: 1 };
    }),
    cuts: layout.cuts.map((cut) => ({
      axis: cut.axis,
      of: onBoard(cut.of),
      atNm: cut.at * NM_PER_16TH,
      kerfNm: cut.kerf * NM_PER_16TH,
    })),
    offcuts: layout.rests.filter(keeps).map(onBoard),
    scrap: layout.rests.filter((r) => !keeps(r)).map(onBoard),
    unevenEdges: [],
  };
}
