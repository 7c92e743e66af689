/** Each sheet of the corpus is read exactly: every draft, every fault by its cell, every row passed over. */
import { describe, expect, it } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { mappingSignature, type ReadDefaults } from '../../addon/sheet/mapping.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { readPartRows } from '../../addon/sheet/read-parts.ts';
import type { RowsRead } from '../../addon/sheet/read-rows.ts';
import { blockOf } from './block.ts';
import type { SheetCase } from './corpus.ts';
import { awkwardBoardSheets } from './corpus-awkward-boards.ts';
import { awkwardPartSheets } from './corpus-awkward-parts.ts';
import { boardSheets } from './corpus-boards.ts';
import { boardSheetsLaidOut } from './corpus-boards-layout.ts';
import { boardSheetsWithTrouble } from './corpus-boards-trouble.ts';
import { partSheets } from './corpus-parts.ts';
import { partSheetsWithTrouble } from './corpus-parts-trouble.ts';

function defaultsOf(sheet: SheetCase<unknown>): ReadDefaults {
  return {
    system: sheet.system ?? 'in',
    species: sheet.species ?? null,
    spellings: sheet.spellings ?? {},
    readOn: sheet.readOn ?? null,
  };
}

function check<Draft>(
  want: 'boards' | 'parts',
  sheet: SheetCase<Draft>,
  read: (...args: Parameters<typeof readBoardRows>) => RowsRead<Draft>,
) {
  const block = blockOf(sheet.rows, sheet.sheet);
  const defaults = defaultsOf(sheet);
  const finding = findTable(block, want, defaults, sheet.near ?? null);
  if (!finding.ok) throw new Error(finding.help);
  const mapping = { ...finding.mapping, datesAreFractions: sheet.datesAreFractions ?? false };
  const result = read(block, mapping, defaults);
  expect(result.rows.map(({ draft }) => draft)).toEqual(sheet.drafts);
  expect(result.faults.map(({ address, field }) => `${address}: ${field}`)).toEqual(sheet.faults ?? []);
  for (const fault of result.faults) expect(fault.help.length).toBeGreaterThan(8);
  if (sheet.skipped) {
    expect(result.skipped.map(({ sheetRow, why }) => `${sheetRow + 1} ${why}`)).toEqual(sheet.skipped);
  }
  if (sheet.asks === null) expect(mapping.questions).toEqual([]);
  if (sheet.asks) expect(mapping.questions.join('\n')).toContain(sheet.asks);
  if (sheet.notes) expect([...result.notes, ...result.doubts].join('\n')).toContain(sheet.notes);
  if (sheet.columns) {
    expect(mapping.columns.map(({ role, heading }) => `${role}=${heading}`)).toEqual(
      expect.arrayContaining([...sheet.columns]),
    );
  }
}

describe('board lists', () => {
  it.each([...boardSheets, ...boardSheetsLaidOut, ...boardSheetsWithTrouble, ...awkwardBoardSheets])('$name', (sheet) =>
    check('boards', sheet, readBoardRows),
  );
});

describe('cut lists', () => {
  it.each([...partSheets, ...partSheetsWithTrouble, ...awkwardPartSheets])('$name', (sheet) =>
    check('parts', sheet, readPartRows),
  );
});

describe('the corpus', () => {
  it('holds a hundred sheets, no two with the same name or the same headings and cells', () => {
    const all = [
      ...boardSheets,
      ...boardSheetsLaidOut,
      ...boardSheetsWithTrouble,
      ...partSheets,
      ...partSheetsWithTrouble,
      ...awkwardBoardSheets,
      ...awkwardPartSheets,
    ];
    expect(all.length).toBeGreaterThanOrEqual(100);
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    expect(new Set(all.map(({ rows }) => JSON.stringify(rows))).size).toBe(all.length);
  });

  it('finds a remembered mapping again whatever the case and punctuation of the headings', () => {
    expect(mappingSignature(['Tag', 'Len. (in)'])).toBe(mappingSignature(['TAG', 'Len (in)']));
    expect(mappingSignature(['Tag', 'Len (in)'])).not.toBe(mappingSignature(['Len (in)', 'Tag']));
  });
});
