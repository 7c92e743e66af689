/**
 * One length from one cell: a number takes the column's unit, a text is read as on a tape, a date is offered back as
 * the fraction that it once was.
 */
import { readLength, readLengthNumber, tooLargeHelp } from '../../worker/wood/length.ts';
import { readThicknessCall } from '../../worker/wood/thickness.ts';
import type { Cell } from '../host/host.ts';
import { FORMULA_FAILS, isErrorCell } from './cell-kinds.ts';
import { fractionOfDate, fractionOfDayText, isDateFormat } from './fraction-date.ts';
import type { ColumnUnit } from './mapping.ts';

export interface LengthCellAssumption {
  readonly unit: ColumnUnit;
  readonly decimal: '.' | ',';
  readonly dateOrder: 'mdy' | 'dmy' | 'ymd';
  readonly datesAreFractions: boolean;
  /** A number format may name the unit, where neither the heading nor the user has. */
  readonly formatSpeaks: boolean;
  /** Larger than this is a mistake of the unit, or a date. */
  readonly largestNm: number;
}

export type LengthCellReading =
  | {
      readonly ok: true;
      readonly nm: number;
      readonly system: 'in' | 'mm';
      readonly call: string | null;
      /** The fraction, where the cell holds a date that the user lets us read as one. */
      readonly fromDate: string | null;
    }
  | { readonly ok: false; readonly read: string; readonly help: string; readonly proposes: string | null };

/** A tenth of a millimetre: less is a slip, not wood. */
const SMALLEST_NM = 100_000;

const refused = (read: string, help: string, proposes: string | null = null): LengthCellReading => ({
  ok: false,
  read,
  help,
  proposes,
});

export function isDateCell(cell: Cell): boolean {
  return cell.kind === 'date' || (cell.kind === 'number' && isDateFormat(cell.format));
}

export function readLengthCell(cell: Cell, assume: LengthCellAssumption): LengthCellReading {
  if (isBlank(cell)) return refused('', 'nothing in this cell; enter a size');
  if (isErrorCell(cell)) return refused(cell.text, FORMULA_FAILS);
  if (cell.kind === 'boolean') return refused(cell.text, 'enter a size, such as 23 5/8" or 600 mm');
  if (typeof cell.raw === 'number') {
    if (isDateCell(cell)) return readDate(cell, cell.raw, assume);
    return readNumber(cell, cell.raw, assume);
  }
  return readText(String(cell.raw ?? cell.text), assume);
}

/** Nothing, or a mark that stands for nothing. */
export function isBlank(cell: Cell | undefined): boolean {
  if (cell === undefined || cell.kind === 'empty' || cell.raw === null) return true;
  return typeof cell.raw === 'string' && /^\s*(?:[-–—?.]+|n\/?a|none|nil)?\s*$/i.test(cell.raw);
}

function readDate(cell: Cell, serial: number, assume: LengthCellAssumption): LengthCellReading {
  const fraction = fractionOfDate(serial, assume.dateOrder);
  if (fraction === null) return refused(cell.text, 'this cell holds a date; enter the size as text');
  return readFractionOfDate(cell.text, fraction, assume);
}

function readFractionOfDate(shown: string, fraction: string, assume: LengthCellAssumption): LengthCellReading {
  if (!assume.datesAreFractions) {
    return refused(
      shown,
      `this cell holds a date; it looks like ${fraction} that the sheet turned into one. Enter '${fraction} with a leading apostrophe, or let all such dates be read as fractions`,
      fraction,
    );
  }
  const reading = readText(fraction, assume);
  return reading.ok ? { ...reading, fromDate: fraction } : reading;
}

/** A bare number; its format may show the unit ('0 "mm"'). Floats such as 7.1875000001 are drawn to the nearest nanometre. */
function readNumber(cell: Cell, value: number, assume: LengthCellAssumption): LengthCellReading {
  const unit = (assume.formatSpeaks ? unitOfFormat(cell.format) : null) ?? assume.unit;
  if (value === 0) return refused(cell.text, 'zero; enter a size larger than zero');
  if (unit === 'quarters') return readQuarters(value, cell.text);
  const reading = readLengthNumber(value, unit);
  if (!reading.ok || reading.nm > assume.largestNm) {
    if (couldBeDate(value, assume)) return readDate(cell, value, assume);
    return refused(cell.text, reading.ok ? tooLargeHelp(assume.largestNm, unit) : reading.fault.help);
  }
  if (reading.nm < SMALLEST_NM) return refused(cell.text, 'nearly zero; enter a size larger than zero');
  return { ok: true, nm: reading.nm, system: reading.system, call: null, fromDate: null };
}

/** Some hosts give a date as its bare serial number: 46 117 is no thickness, but 5 April 2026. */
function couldBeDate(value: number, assume: LengthCellAssumption): boolean {
  const from2000To2100 = Number.isInteger(value) && value >= 36_526 && value < 73_051;
  return from2000To2100 && fractionOfDate(value, assume.dateOrder) !== null;
}

function readQuarters(value: number, text: string): LengthCellReading {
  const call = Number.isInteger(value) ? readThicknessCall(`${value}/4`) : null;
  if (call === null) return refused(text, 'quarters of an inch are a whole number: 4, 5, 6, 8');
  return { ok: true, nm: call.roughNm, system: 'in', call: call.call, fromDate: null };
}

function readText(text: string, assume: LengthCellAssumption): LengthCellReading {
  if (assume.unit === 'quarters' && /^\s*\d{1,2}\s*$/.test(text)) return readQuarters(Number(text), text);
  const unit = assume.unit === 'quarters' ? 'in' : assume.unit;
  const reading = readLength(unit === 'mm' ? withoutThousands(text, assume.decimal) : text, {
    unit,
    decimal: assume.decimal,
  });
  if (!reading.ok) {
    // "8/4 rough" and "8 quarter" are how some write a call.
    const call = readThicknessCall(callWords(text));
    if (call !== null) return { ok: true, nm: call.roughNm, system: 'in', call: call.call, fromDate: null };
    // "27 mm (5/4)": measured, with the call behind it.
    const [, measured, called] = /^(.*\S)\s*\((\d{1,2}\/4)\)\s*$/.exec(text) ?? [];
    if (measured !== undefined && called !== undefined) {
      const size = readText(measured, assume);
      return size.ok ? { ...size, call: readThicknessCall(called)?.call ?? size.call } : size;
    }
    if (/^\s*\d{1,2}\/4\b.*\bs\d?[1-4]?s\b/i.test(text))
      return refused(text.trim(), 'planed stock is thinner than its call; write what it measures, such as 1 3/4"');
    const fraction = fractionOfDayText(text, assume.dateOrder);
    if (fraction !== null) return readFractionOfDate(text.trim(), fraction, assume);
    return refused(text.trim(), reading.fault.help);
  }
  if (reading.nm < SMALLEST_NM) return refused(text.trim(), 'zero or nearly; enter a size larger than zero');
  if (reading.nm > assume.largestNm) return refused(text.trim(), tooLargeHelp(assume.largestNm, unit));
  return { ok: true, nm: reading.nm, system: reading.system, call: reading.call, fromDate: null };
}

/** "2'450" of millimetres, and "2.450" where the comma is the decimal mark: nobody measures to the thousandth of one. */
const withoutThousands = (text: string, decimal: '.' | ',') =>
  text.replace(decimal === ',' ? GROUPED_IN_COMMA_SHEET : GROUPED, '$1$2');
const GROUPED = /^(\s*[1-9]\d{0,2})['’](\d{3})(?=\s*(?:mm\s*)?$)/i;
const GROUPED_IN_COMMA_SHEET = /^(\s*[1-9]\d{0,2})['’.](\d{3})(?=\s*(?:mm\s*)?$)/i;

/** "8/4 rough", "8 quarter", "8/4 RGH" as "8/4". */
const callWords = (text: string) =>
  text
    .replace(/^(\s*\d{1,2})\s*(?:quarters?|qtrs?)\b/i, '$1/4')
    .replace(/\s*\(?\b(?:rough|rgh|sawn|nominal|nom)\b\.?\)?\s*$/i, '');

/** The unit that a number format writes behind the number. */
export function unitOfFormat(format: string | null): ColumnUnit | null {
  if (format === null || /^(?:general|@)$/i.test(format)) return null;
  const first = format.split(';')[0] ?? '';
  const literal = first.replaceAll(/[#0?.,\s_]|\\(?=\s)/g, '').replaceAll(/\\?"/g, '"');
  if (/mm/i.test(literal)) return 'mm';
  if (/cm/i.test(literal)) return 'cm';
  if (/ft|feet|'/i.test(literal)) return 'ft';
  if (/"\s*m\s*"/i.test(literal)) return 'm';
  if (/in(?:ch)?|""|^"$|\/"|″|”/i.test(literal)) return 'in';
  return /\?\/(?:\?|\d)|#\/#/.test(first) ? 'in' : null;
}
