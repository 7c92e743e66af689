/** Rows of a cut list as parts: finished sizes, what they are for, and how they are glued up. */
import type * as z from 'zod';
import type { part } from '../../worker/contract/job.ts';
import { limits } from '../../worker/contract/limits.ts';
import type { Block } from '../host/host.ts';
import { FORMULA_FAILS, isErrorCell } from './cell-kinds.ts';
import { isBlank } from './cell-length.ts';
import { cellWords, readFaces, readGrain, readQuantity, readUse, readWords } from './cell-values.ts';
import { pliesOf, readPlyThicknesses, readStaves } from './lamination-cell.ts';
import type { Mapping, ReadDefaults } from './mapping.ts';
import { type ReadRow, type RowReader, type RowsRead, TableReading } from './read-rows.ts';
import { firstOf, scaleDoubts } from './scale-doubts.ts';

/** A part as the sheet tells it; key is null until the row has one. */
export type PartInput = Omit<z.input<typeof part>, 'key'> & { readonly key: string | null };

export function readPartRows(block: Block, mapping: Mapping, defaults: ReadDefaults): RowsRead<PartInput> {
  const calls = new Set<string>();
  const read = new TableReading(block, mapping, defaults).read((row) => {
    const label = readLabel(row);
    const quantity = readCount(row);
    const species = row.species();
    const sizes = row.sizes();
    const rest = {
      use: row.value('use', readUse) ?? 'visible',
      faces: row.value('faces', readFaces) ?? 'clear-one',
      grain: row.value('grain', readGrain) ?? 'unknown',
      shapeNote: readWords(row.cell('note'), limits.textChars),
    } as const;
    if (label === null || quantity === null || species === null || sizes === null) return null;
    const { lengthNm, widthNm, thicknessNm } = sizes;
    if (sizes.thicknessCall !== null) calls.add(sizes.thicknessCall);
    const lamination = readLamination(row, widthNm, thicknessNm);
    const key = readWords(row.cell('key'), 40) || null;
    return {
      key,
      label,
      quantity,
      species,
      lengthNm,
      widthNm,
      thicknessNm,
      ...rest,
      lamination,
      measuredIn: row.measuredIn,
    };
  });
  const doubts = [
    ...thickDoubts(read.rows),
    ...scaleDoubts(read.rows.map(({ draft }) => ({ ...draft, name: draft.label }))),
  ];
  if (calls.size === 0) return { ...read, doubts };
  const note = `Thicknesses of parts are finished sizes: ${[...calls].join(', ')} is read as that much finished wood, not as rough stock.`;
  return { ...read, doubts, notes: [...read.notes, note] };
}

/** Parts are wider than thick; where most are not, the columns are asked about already. */
function thickDoubts(rows: readonly ReadRow<PartInput>[]): string[] {
  const thick = rows.flatMap(({ draft }) => (Number(draft.thicknessNm) > Number(draft.widthNm) ? [draft.label] : []));
  if (thick.length === 0 || thick.length > rows.length / 2) return [];
  return [
    `${thick.length === 1 ? '1 part' : `${thick.length} parts`} thicker than wide: is it meant so? ${firstOf(thick)}.`,
  ];
}

function readLabel(row: RowReader): string | null {
  const cell = row.cell('label');
  if (cell !== undefined && isErrorCell(cell)) {
    row.fault('label', cellWords(cell), FORMULA_FAILS);
    return null;
  }
  const label = readWords(cell, 120);
  if (label === '') row.fault('label', '', cell ? 'a part needs a name' : 'no column for the part; choose one');
  return label === '' ? null : label;
}

function readCount(row: RowReader): number | null {
  const cell = row.cell('quantity');
  if (cell === undefined) {
    row.fault('quantity', '', 'no column for the quantity; choose one');
    return null;
  }
  const quantity = row.value('quantity', readQuantity);
  if (quantity === null || quantity <= limits.piecesPerPart) return quantity;
  row.fault('quantity', cellWords(cell), `at most ${limits.piecesPerPart} of one part`);
  return null;
}

function readLamination(row: RowReader, widthNm: number, thicknessNm: number): PartInput['lamination'] {
  const assume = row.assumption('thickness', limits.thicknessNmMax);
  const plyReading = row.value('plies', (cell) => readPlyThicknesses(cell, thicknessNm, assume));
  const staves = row.value('staves', (cell) => readStaves(cell));
  const middleNm = row.extraSize('plyWidth');
  if (plyReading !== null && staves !== null) {
    row.fault('staves', cellWords(row.cell('staves') ?? blank), 'plies or staves, not both in one row');
    return null;
  }
  if (plyReading !== null) {
    const plies = pliesOf(plyReading, widthNm, middleNm);
    if (plies.ok) return { kind: 'plies', plies: [...plies.value] };
    row.fault('plyWidth', cellWords(row.cell('plyWidth') ?? blank), plies.help);
    return null;
  }
  if (middleNm !== null && !isBlank(row.cell('plyWidth'))) {
    row.fault('plyWidth', cellWords(row.cell('plyWidth') ?? blank), 'a middle width needs the number of plies too');
  }
  return staves === null ? null : { kind: 'staves', count: staves };
}
const blank = { kind: 'empty', raw: null, text: '', formula: null, format: null } as const;
