/** How columns were understood can be seen, corrected and remembered; nothing corrected is lost. */
import { describe, expect, it } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { fractionOfDate, isDateFormat, readDayText } from '../../addon/sheet/fraction-date.ts';
import { headingParts, headingPlain } from '../../addon/sheet/heading.ts';
import {
  columnFor,
  type Mapping,
  mappingFromText,
  mappingToText,
  mappingWithColumn,
  mappingWithUnit,
} from '../../addon/sheet/mapping.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { blockOf, type CellSpec } from './block.ts';

function mapped(rows: readonly (readonly CellSpec[])[]): { mapping: Mapping; block: ReturnType<typeof blockOf> } {
  const block = blockOf(rows);
  const finding = findTable(block, 'boards', { system: 'in' });
  if (!finding.ok) throw new Error(finding.help);
  return { mapping: finding.mapping, block };
}

const rows: (readonly CellSpec[])[] = [
  ['Tag', 'Species', 'Clear length', 'Full run', 'Width', 'Thk'],
  ['A1', 'Ash', 90, 96, 7, '4/4'],
  ['A2', 'Ash', 80, 88, 6, '4/4'],
];

describe('correcting', () => {
  it('another column for the length; the old one becomes unused', () => {
    const { mapping, block } = mapped(rows);
    expect(columnFor(mapping, 'length')?.heading).toBe('Clear length');
    const corrected = mappingWithColumn(mapping, 'length', { column: 3, heading: 'Full run', unit: 'in' });
    expect(columnFor(corrected, 'length')).toMatchObject({ column: 3, unitFrom: 'user', confidence: 1 });
    expect(corrected.unused.map(({ heading }) => heading)).toEqual(['Clear length']);
    const read = readBoardRows(block, corrected, { system: 'in' });
    expect(read.rows.map(({ draft }) => draft.lengthNm)).toEqual([96 * 25_400_000, 88 * 25_400_000]);
  });

  it('no column for the width: every row says so', () => {
    const { mapping, block } = mapped(rows);
    const corrected = mappingWithColumn(mapping, 'width', null);
    expect(corrected.missing).toEqual(['width']);
    const read = readBoardRows(block, corrected, { system: 'in' });
    expect(read.rows).toEqual([]);
    expect(read.faults.map(({ field, sheetRow }) => `${field} ${sheetRow}`)).toEqual(['width 1', 'width 2']);
  });

  it('another unit for the same column', () => {
    const { mapping, block } = mapped(rows);
    const read = readBoardRows(block, mappingWithUnit(mapping, 'length', 'ft'), { system: 'in' });
    expect(read.faults.map(({ address, help }) => `${address} ${help}`)).toEqual([]);
    expect(read.rows[0]?.draft.lengthNm).toBe(90 * 12 * 25_400_000);
  });

  it('a column has one role: giving it a second takes the first', () => {
    const { mapping } = mapped(rows);
    const corrected = mappingWithColumn(mapping, 'place', { column: 1, heading: 'Species', unit: null });
    expect(columnFor(corrected, 'species')).toBeNull();
    expect(corrected.missing).toEqual(['species']);
  });
});

describe('remembering', () => {
  it('what the user settled comes back for the same headings', () => {
    const { mapping } = mapped(rows);
    const settled = {
      ...mappingWithUnit(
        mappingWithColumn(mapping, 'length', { column: 3, heading: 'Full run', unit: 'mm' }),
        'width',
        'mm',
      ),
      datesAreFractions: true,
    };
    const recalled = mappingFromText(mapping, mappingToText(settled));
    expect(recalled.datesAreFractions).toBe(true);
    expect(columnFor(recalled, 'length')).toMatchObject({ column: 3, unit: 'mm' });
    expect(columnFor(recalled, 'width')).toMatchObject({ unit: 'mm' });
    expect(recalled.missing).toEqual([]);
    expect(mappingToText(recalled).length).toBe(mappingToText(settled).length);
  });

  it.each(['', '{', '[]', '{"columns":[]}', '{"columns":[{"role":"lenght","column":"3"}]}', 'null', '7'])(
    'a spoilt memory %j changes nothing',
    (text) => {
      const { mapping } = mapped(rows);
      expect(mappingFromText(mapping, text)).toEqual(mapping);
    },
  );
});

describe('finding no table', () => {
  it('says what to select', () => {
    for (const cells of [[], [['', null]], [['A1', 'Ash', 90, 7, '4/4']], [['just a note']]]) {
      const finding = findTable(blockOf(cells), 'boards', { system: 'in' });
      expect(finding.ok).toBe(false);
      if (!finding.ok) expect(finding.help).toMatch(/select/i);
    }
  });
});

describe('headings', () => {
  it.each([
    ['Length (mm)', 'length', 'mm'],
    ['Len.(in.)', 'len', 'in'],
    ['L"', 'l', 'in'],
    ['Width, inches', 'width', 'in'],
    ['Thk /4', 'thk', 'quarters'],
    ['LENGTH IN FT', 'length', 'ft'],
    ['Length\n(feet)', 'length', 'ft'],
    ['Date in', 'date in', null],
    ['MC%', 'mc %', null],
    ['Thk (x/4)', 'thk', 'quarters'],
    ['MC %', 'mc %', null],
    ['Board No.', 'board no', null],
    ['Bd Ft', 'bd ft', null],
    ['Length (ft-in)', 'length', null],
    ['LxWxT', 'lxwxt', null],
    ['PartName', 'part name', null],
    ['Länge [mm]', 'lange', 'mm'],
    ['W (finished)', 'w finished', null],
    ['m', 'm', null],
  ])('%j is %j in %s', (heading, words, unit) => {
    expect(headingParts(heading)).toEqual({ words, unit });
  });

  it('plain words do not depend on case, accents or punctuation', () => {
    expect(headingPlain('  MC-% ')).toBe(headingPlain('mc %'));
  });
});

describe('dates that were fractions', () => {
  it.each([
    [46146, 'mdy', '5/4'],
    [46117, 'dmy', '5/4'],
    [46238, 'mdy', '8/4'],
    [46120, 'dmy', '8/4'],
    [46024, 'mdy', '1/2'],
    [46089, 'mdy', '3/8'],
    [46307, 'mdy', null],
    [11, 'mdy', null],
  ] as const)('serial %i, %s, was %s', (serial, order, fraction) => {
    expect(fractionOfDate(serial, order)).toBe(fraction);
  });

  it('number formats of dates are told from those of lengths', () => {
    expect(['d-mmm', 'm/d/yyyy', 'dd.mm.yy', '[$-409]mmm d'].map(isDateFormat)).toEqual([true, true, true, true]);
    expect(['0 "mm"', '# ?/?', 'General', '0.00', '@', '0.0" dry"', null].map(isDateFormat)).toEqual(
      Array.from({ length: 7 }, () => false),
    );
  });

  it('days as people write them', () => {
    expect(readDayText('2026-10-12', 'mdy')).toBe('2026-10-12');
    expect(readDayText('10/12/2026', 'mdy')).toBe('2026-10-12');
    expect(readDayText('12.10.26', 'dmy')).toBe('2026-10-12');
    expect(readDayText('Oct 12, 2026', 'mdy')).toBe('2026-10-12');
    expect(readDayText('12 October 2026', 'dmy')).toBe('2026-10-12');
    expect(readDayText('31/02/2026', 'dmy')).toBeNull();
    expect(readDayText('soon', 'dmy')).toBeNull();
  });
});
