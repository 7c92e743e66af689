/** A word for several woods, settled by the user: read so, and said under what was assumed. */
import { expect, test } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { blockOf } from './block.ts';

test('“oak” settled as white oak is listed with what was assumed, once; what was never written is not', () => {
  const block = blockOf([
    ['Tag', 'Species', 'Length', 'Width', 'Thick'],
    ['A-1', 'oak', 96, 8, '4/4'],
    ['A-2', 'oak', 96, 7, '4/4'],
    ['A-3', 'cherry', 96, 7, '4/4'],
  ]);
  const defaults = { system: 'in', readOn: '2026-11-02', spellings: { oak: 'white oak', pine: 'red pine' } } as const;
  const found = findTable(block, 'boards', defaults);
  if (!found.ok) throw new Error(found.help);
  const read = readBoardRows(block, found.mapping, defaults);
  expect(read.rows.map(({ draft }) => draft.species)).toEqual(['white-oak', 'white-oak', 'black-cherry']);
  expect(read.notes.filter((note) => note.includes('settled'))).toEqual([
    '“oak” is read as white oak, as you settled it.',
  ]);
});
