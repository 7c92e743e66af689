/** Rows of boards and parts, read one by one so that a bad row does not hide the good ones. */
import * as z from 'zod';
import { type BoardDraft, boardRow } from '../contract/board.ts';
import { type Part, part } from '../contract/job.ts';
import type { Fault } from '../contract/problem.ts';
import { readLength } from '../wood/length.ts';
import type { SpeciesBook } from '../wood/species.ts';
import { taperSteps } from '../wood/taper.ts';
import type { BoardRow } from '../yard/command.ts';
import { faultsOf, pointerOf } from './body.ts';

interface ReadRows<T> {
  readonly good: readonly { readonly row: number; readonly value: T }[];
  readonly faults: readonly Fault[];
}

/** The species by its key, whatever way the shop writes it; null with a fault when no species is meant for sure. */
function speciesKey(written: string, row: number, list: string, book: SpeciesBook): { key: string } | { fault: Fault } {
  const reading = book.readName(written);
  if (reading.ok) return { key: reading.species.key };
  return {
    fault: {
      pointer: pointerOf([list, row, 'species']),
      row,
      field: 'species',
      read: written.slice(0, 60),
      help: reading.help,
    },
  };
}

function readRows<S extends z.ZodType<{ species: string }>>(
  schema: S,
  list: string,
  rows: readonly unknown[],
  book: SpeciesBook,
): ReadRows<z.output<S>> {
  const good: { row: number; value: z.output<S> }[] = [];
  const faults: Fault[] = [];
  rows.forEach((value, row) => {
    const parsed = schema.safeParse(value);
    const written = z.looseObject({ species: z.string().min(1) }).safeParse(value);
    const wood = written.success ? speciesKey(written.data.species, row, list, book) : null;
    if (!parsed.success) faults.push(...faultsOf(parsed.error, value, [list, row], row));
    if (wood && 'fault' in wood) faults.push(wood.fault);
    if (parsed.success && wood && 'key' in wood) good.push({ row, value: { ...parsed.data, species: wood.key } });
  });
  return { good, faults };
}

export function readBoardRows(
  rows: readonly unknown[],
  book: SpeciesBook,
): {
  readonly rows: readonly BoardRow[];
  readonly faults: readonly Fault[];
} {
  const read = readRows(boardRow, 'boards', rows, book);
  return {
    rows: read.good.map(({ row, value }) => ({
      row,
      draft: { ...draftOf(value), thicknessCall: value.thicknessCall ?? callWritten(rows[row]) },
      isOffcut: value.offcut,
    })),
    faults: read.faults,
  };
}

/** A thickness written as a call ("8/4") is the board's call too, where the row names none of its own. */
export function callWritten(row: unknown): string | null {
  const written = z.looseObject({ thicknessNm: z.string() }).safeParse(row);
  if (!written.success) return null;
  const reading = readLength(written.data.thicknessNm, { unit: null, decimal: '.' });
  return reading.ok ? reading.call : null;
}

/** What a tapering board lacks is kept as wane through it. */
function draftOf({ widthFarNm, offcut: _offcut, ...draft }: z.output<typeof boardRow>): BoardDraft {
  const missing = widthFarNm === null ? [] : taperSteps(draft, widthFarNm);
  const wane = missing.map((step) => ({ ...step, kind: 'wane' as const, face: 'through' as const, note: 'taper' }));
  return { ...draft, defects: [...draft.defects, ...wane] };
}

export function readPartRows(
  rows: readonly unknown[],
  book: SpeciesBook,
): {
  readonly parts: readonly Part[];
  readonly faults: readonly Fault[];
} {
  const read = readRows<z.ZodType<Part>>(part, 'parts', rows, book);
  return { parts: read.good.map(({ value }) => value), faults: read.faults };
}
