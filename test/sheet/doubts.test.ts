/** What is read and hardly meant so is told in sight: figures that are none, boards longer than a saw mill's, wider than long. */
import { describe, expect, test } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import type { ReadDefaults } from '../../addon/sheet/mapping.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { unusualText } from '../../addon/sheet/unusual-size.ts';
import { blockOf, type CellSpec } from './block.ts';

function doubtsOf(rows: readonly (readonly CellSpec[])[], defaults: ReadDefaults = { system: 'in' }) {
  const block = blockOf(rows);
  const found = findTable(block, 'boards', defaults);
  if (!found.ok) throw new Error(found.help);
  const { doubts, faults, rows: read } = readBoardRows(block, found.mapping, { ...defaults, readOn: '2026-11-25' });
  expect(faults).toEqual([]);
  return { doubts, tags: read.map(({ draft }) => draft.tag) };
}
const heading = ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC %'];
const board = (tag: string, length: CellSpec, width: CellSpec = 7, moisture: CellSpec = 8.5) =>
  [tag, 'white oak', length, width, '4/4', moisture] as const;

describe('doubts about boards', () => {
  test('a moisture reading in words is named with its cell, and the board is taken all the same', () => {
    expect(doubtsOf([heading, board('Q-1', 96), board('Q-2', 90, 6, 'wet')])).toEqual({
      doubts: ['1 moisture reading could not be read: F3 “wet”.'],
      tags: ['Q-1', 'Q-2'],
    });
  });

  test('boards longer than 20 feet are named, not refused; 20 feet itself is not', () => {
    const feet = ['Tag', 'Species', 'Length (ft)', 'Width', 'Thk', 'MC %'];
    expect(doubtsOf([feet, board('Q-1', 86), board('Q-2', 20), board('Q-3', 72.5)])).toEqual({
      doubts: ["2 boards longer than 20': is the unit right? Q-1 (86'), Q-3 (72' 6\")."],
      tags: ['Q-1', 'Q-2', 'Q-3'],
    });
    const metric = ['Tag', 'Species', 'Length (mm)', 'Width (mm)', 'Thk', 'MC %'];
    expect(doubtsOf([metric, board('Q-1', 7400, 180), board('Q-2', 2500, 180)], { system: 'mm' }).doubts).toEqual([
      '1 board longer than 6 m: is the unit right? Q-1 (7400 mm).',
    ]);
  });

  test('a width or thickness that boards hardly have is asked about, and the board is taken all the same', () => {
    const thick = ['Q-3', 'white oak', 96, 6, '4 1/16', 8] as const;
    const rows = [board('Q-1', 96, 55), board('Q-2', 96, 24), thick, ['Q-4', 'white oak', 96, 6, 4, 8] as const];
    expect(doubtsOf([heading, ...rows])).toEqual({
      doubts: [
        '1 board wider than 24": is that right? Q-1 (55").',
        '1 board thicker than 4": is that right? Q-3 (4 1/16").',
      ],
      tags: ['Q-1', 'Q-2', 'Q-3', 'Q-4'],
    });
    expect(unusualText('width', 55 * 25_400_000, 'in')).toBe('55" wide: is that right?');
    expect(unusualText('width', 601_000_000, 'mm')).toBe('601 mm wide: is that right?');
    expect(unusualText('width', 5 * 25_400_000, 'in')).toBeNull();
  });

  test('boards wider than long are named', () => {
    const rows = ['Q-1', 'Q-2', 'Q-3', 'Q-4', 'Q-5', 'Q-6', 'Q-7'].map((tag) => board(tag, 6, 9));
    expect(doubtsOf([heading, ...rows]).doubts).toEqual([
      '7 boards wider than long: are the columns the right way round? Q-1, Q-2, Q-3, Q-4, Q-5 and 2 more.',
    ]);
  });

  test('an ordinary list raises none', () => {
    expect(doubtsOf([heading, board('Q-1', 96), board('Q-2', 8, 8)]).doubts).toEqual([]);
  });
});
