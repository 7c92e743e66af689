/** What a case of the corpus says: a sheet as a shop might keep it, and exactly what must be read from it. */
import type { Want } from '../../addon/sheet/mapping.ts';
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import type { PartInput } from '../../addon/sheet/read-parts.ts';
import type { BlockMore, CellSpec } from './block.ts';

export const IN = 25_400_000;
export const FT = 12 * IN;
export const MM = 1_000_000;

export interface SheetCase<Draft> {
  readonly name: string;
  readonly rows: readonly (readonly CellSpec[])[];
  readonly sheet?: BlockMore;
  readonly system?: 'in' | 'mm';
  readonly species?: string;
  readonly spellings?: Readonly<Record<string, string>>;
  readonly readOn?: string;
  /** The selected cell, 0-based. */
  readonly near?: { readonly row: number; readonly column: number };
  /** The user has agreed to read dates in size columns as fractions. */
  readonly datesAreFractions?: boolean;
  readonly drafts: readonly Draft[];
  /** address: field, in the order found. */
  readonly faults?: readonly string[];
  /** Sheet rows (1-based) passed over, with why. */
  readonly skipped?: readonly string[];
  /** Part of a question that must be asked; null: none may be asked. */
  readonly asks?: string | null;
  /** Part of a note that must be there. */
  readonly notes?: string;
  /** role=heading, for columns that matter to the case. */
  readonly columns?: readonly string[];
}

export interface Corpus<W extends Want, Draft> {
  readonly want: W;
  readonly cases: readonly SheetCase<Draft>[];
}

type Sized = Pick<BoardInput, 'lengthNm' | 'widthNm' | 'thicknessNm'>;

export function board(
  tag: string,
  species: string,
  [lengthNm, widthNm, thicknessNm]: readonly [number, number, number],
  more: Partial<BoardInput> = {},
): BoardInput {
  const sizes: Sized = { lengthNm, widthNm, thicknessNm };
  return {
    tag,
    species,
    ...sizes,
    thicknessCall: null,
    grain: 'unknown',
    grade: null,
    place: '',
    costMinor: null,
    delivery: '',
    note: '',
    warp: null,
    readings: [],
    measuredIn: 'in',
    ...more,
  };
}

export function part(
  label: string,
  quantity: number,
  species: string,
  [lengthNm, widthNm, thicknessNm]: readonly [number, number, number],
  more: Partial<PartInput> = {},
): PartInput {
  return {
    key: null,
    label,
    quantity,
    species,
    lengthNm,
    widthNm,
    thicknessNm,
    use: 'visible',
    faces: 'clear-one',
    grain: 'unknown',
    shapeNote: '',
    lamination: null,
    measuredIn: 'in',
    ...more,
  };
}
