/** A size typed in as a board or as a part, and a part of a job as what one copy asks of the wood. */
import type { BoardView } from '../contract/board.ts';
import type { Part, PartWithPieces } from '../contract/job.ts';
import type { HomesQuestion, UsesQuestion } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { elementKinds } from '../takeoff/elements.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { kindOfPart, type Wanted } from './shop-wanted.ts';

type SizeAsBoard = NonNullable<UsesQuestion['size']>;
type SizeAsPart = NonNullable<HomesQuestion['size']>;

/** A clear, flat piece with sound ends, as somebody measures it who holds it. */
export function boardOfSize(size: SizeAsBoard): BoardView {
  const { moisturePercent, ...sizes } = size;
  return {
    ...sizes,
    id: 'bd_00000000',
    tag: 'this piece',
    thicknessCall: null,
    grain: 'unknown',
    grade: null,
    defects: [],
    warp: null,
    readings: moisturePercent === null ? [] : [{ moisturePercent, on: '2000-01-01', meter: 'unknown' }],
    place: '',
    costMinor: null,
    delivery: '',
    receivedOn: null,
    measuredIn: 'in',
    note: '',
    state: 'in-stock',
    origin: { kind: 'offcut', parentId: 'bd_00000000', sessionId: null },
    version: 0,
    held: [],
  };
}

/** A finished size of which nothing more is known: a visible part with one clear face. */
export function asksOfSize(size: SizeAsPart, settings: Settings): Wanted {
  const part: Part = {
    ...size,
    key: 'size',
    label: 'This size',
    quantity: 1,
    use: 'visible',
    faces: 'clear-one',
    grain: 'unknown',
    lamination: null,
    moisturePercentMax: null,
    matchGroup: null,
    shapeNote: '',
    measuredIn: 'in',
  };
  const { lengthNm, widthNm, thicknessNm } = size;
  return oneCopy(part, null, 'solid', { lengthNm, widthNm, thicknessNm }, settings);
}

/**
 * One copy of a part, or of one of its layers; the first layer of a laminated part when none is named. toCut counts the
 * pieces of its size that are wanted or planned. Null where the part has no such layer.
 */
export function asksOfPart(
  part: PartWithPieces,
  element: number | null,
  settings: Settings,
): { readonly asks: Wanted; readonly toCut: number } | null {
  const layer = part.lamination === null ? element : (element ?? 0);
  const kind = elementKinds(part, settings).find(({ elements }) => elements.includes(layer));
  if (!kind) return null;
  const toCut = part.pieces.filter(
    (piece) => kind.elements.includes(piece.element) && (piece.state === 'wanted' || piece.state === 'planned'),
  );
  return { asks: oneCopy(part, layer, kind.what, kind.finished, settings), toCut: toCut.length };
}

function oneCopy(
  part: Part,
  element: number | null,
  what: Wanted['what'],
  finished: Wanted['finished'],
  settings: Settings,
): Wanted {
  const wood = woodReader(settings)(part.species);
  return { ...kindOfPart(part, wood, what, finished, settings), element, pieces: [{ no: 1, element, attempt: 1 }] };
}
