/** Rows of a board list as drafts for the yard, exactly as measured. */
import type * as z from 'zod';
import type { boardRow } from '../../worker/contract/board.ts';
import { limits } from '../../worker/contract/limits.ts';
import type { Block } from '../host/host.ts';
import { FORMULA_FAILS, isErrorCell } from './cell-kinds.ts';
import { isBlank } from './cell-length.ts';
import { cellWords, readDay, readGrain, readMoisture, readMoney, readWords } from './cell-values.ts';
import { columnFor, type Mapping, type ReadDefaults } from './mapping.ts';
import { type ReadRow, type RowReader, type RowsRead, TableReading } from './read-rows.ts';
import { firstOf, scaleDoubts } from './scale-doubts.ts';
import { type Axis, beyondUsualText, isUnusual, sizeText } from './unusual-size.ts';

export type BoardInput = z.input<typeof boardRow>;
type SizedRow = Pick<BoardInput, 'tag' | 'lengthNm' | 'widthNm' | 'thicknessNm'>;

export function readBoardRows(block: Block, mapping: Mapping, defaults: ReadDefaults): RowsRead<BoardInput> {
  const tags = new Map<string, number>();
  const wordsForMoisture: string[] = [];
  const undated: number[] = [];
  const read = new TableReading(block, mapping, defaults).read((row) => {
    const tag = readTag(row, tags);
    const species = row.species();
    const sizes = row.sizes();
    const readings = readReadings(row, defaults, wordsForMoisture, undated);
    const warp = readWarp(row);
    const draft = {
      grain: row.value('grain', readGrain) ?? 'unknown',
      grade: readWords(row.cell('grade'), 30) || null,
      place: readWords(row.cell('place'), limits.textChars),
      costMinor: row.value('cost', (cell) => readMoney(cell, row.decimal, defaults.currency ?? 'USD')),
      delivery: readWords(row.cell('delivery'), limits.textChars),
      note: readWords(row.cell('note'), limits.textChars),
    };
    if (tag === null || species === null || sizes === null) return null;
    return { tag, species, ...sizes, ...draft, warp, readings, measuredIn: row.measuredIn };
  });
  return {
    ...read,
    doubts: [
      ...undatedDoubts(mapping, undated.length),
      ...moistureDoubts(wordsForMoisture),
      ...sizeDoubts(read.rows, defaults.system),
      ...scaleDoubts(read.rows.map(({ draft }) => ({ ...draft, name: draft.tag }))),
    ],
  };
}

function readTag(row: RowReader, tags: Map<string, number>): string | null {
  const cell = row.cell('tag');
  const tag = cell === undefined || isBlank(cell) ? '' : cellWords(cell);
  if (cell !== undefined && isErrorCell(cell)) {
    row.fault('tag', tag, FORMULA_FAILS);
    return null;
  }
  if (cell?.kind === 'date') {
    row.fault('tag', tag, 'the sheet turned this tag into a date; enter it as text');
    return null;
  }
  if (tag === '') {
    const help = cell ? 'a board needs a tag; enter what is written on its end' : 'no column for the tag; choose one';
    row.fault('tag', '', help);
    return null;
  }
  if (tag.length > limits.tagChars) {
    row.fault('tag', tag, `a tag has at most ${limits.tagChars} characters`);
    return null;
  }
  const before = tags.get(tag.toLowerCase());
  if (before !== undefined) {
    row.fault('tag', tag, `row ${before + 1} has this tag already; each board needs its own`);
    return null;
  }
  tags.set(tag.toLowerCase(), row.sheetRow);
  return tag;
}

function readReadings(row: RowReader, defaults: ReadDefaults, words: string[], undated: number[]) {
  const moisture = row.value('moisture', (cell) => readMoisture(cell, row.decimal));
  const on = row.value('readOn', (cell) => readDay(cell, row.dateOrder)) ?? defaults.readOn ?? null;
  if (moisture === null) return [];
  if (moisture === 'words') {
    const cell = row.cell('moisture');
    if (cell) words.push(`${row.addressOf('moisture')} “${cellWords(cell)}”`);
    return [];
  }
  if (on === null) {
    undated.push(row.sheetRow);
    return [];
  }
  return [{ moisturePercent: moisture, on }];
}

function readWarp(row: RowReader): BoardInput['warp'] {
  const warp = {
    bowNm: row.extraSize('bow'),
    crookNm: row.extraSize('crook'),
    cupNm: row.extraSize('cup'),
    twistNm: row.extraSize('twist'),
  };
  if (Object.values(warp).every((deviation) => deviation === null)) return null;
  return { bowNm: warp.bowNm ?? 0, crookNm: warp.crookNm ?? 0, cupNm: warp.cupNm ?? 0, twistNm: warp.twistNm ?? 0 };
}

function undatedDoubts(mapping: Mapping, undatedCount: number): string[] {
  const heading = columnFor(mapping, 'moisture')?.heading ?? '';
  if (undatedCount === 0) return [];
  const figures = undatedCount === 1 ? '1 figure' : `${undatedCount} figures`;
  return [`“${heading}” has ${figures} without a day, which are left out; say when they were read to keep them.`];
}

function moistureDoubts(cells: readonly string[]): string[] {
  if (cells.length === 0) return [];
  const readings = cells.length === 1 ? '1 moisture reading' : `${cells.length} moisture readings`;
  return [`${readings} could not be read: ${firstOf(cells)}.`];
}

/** Feet are often taken for inches or the other way round, and a figure is easily typed twice. */
const unusualAsk: Record<Axis, string> = {
  length: 'is the unit right?',
  width: 'is that right?',
  thickness: 'is that right?',
};

function sizeDoubts(rows: readonly ReadRow<SizedRow>[], system: 'in' | 'mm'): string[] {
  const wide = rows.flatMap(({ draft }) => (Number(draft.widthNm) > Number(draft.lengthNm) ? [draft.tag] : []));
  const unusual = (['length', 'width', 'thickness'] as const).flatMap((axis) => {
    const such = rows.flatMap(({ draft }) => {
      const nm = Number(draft[`${axis}Nm`]);
      return isUnusual(axis, nm, system) ? [`${draft.tag} (${sizeText(nm, system)})`] : [];
    });
    return such.length === 0
      ? []
      : [`${boards(such)} ${beyondUsualText(axis, system)}: ${unusualAsk[axis]} ${firstOf(such)}.`];
  });
  return [
    ...unusual,
    ...(wide.length === 0
      ? []
      : [`${boards(wide)} wider than long: are the columns the right way round? ${firstOf(wide)}.`]),
  ];
}

const boards = (of: readonly string[]) => (of.length === 1 ? '1 board' : `${of.length} boards`);

/** Whether a row itself says that it is an offcut, in its place, delivery or note: "offcut bin", "off-cuts", "remnant". */
export function saysOffcut(draft: Pick<BoardInput, 'place' | 'delivery' | 'note'>): boolean {
  return [draft.place, draft.delivery, draft.note].some((words) => OFFCUT_WORDS.test(words ?? ''));
}
/** Common practice, no source. "No offcuts" and "offcuts of it are in the bin" speak of other wood. */
const OFFCUT_WORDS = /^(?!.*\b(?:no|not|without)\b).*\b(?:off-?\s?cuts?|remnants?)\b(?!\s+(?:of|from)\s+(?:it|this))/i;
