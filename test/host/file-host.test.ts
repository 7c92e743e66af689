/** Rows of a file, under the contract of every host. */
import { expect, test } from 'vitest';
import { openFileBook } from '../../addon/host/file-host.ts';
import { areaOf } from '../e2e/support/sheet.ts';
import { boardSheets, hostContract } from './contract.ts';

const locale = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' } as const;

hostContract({
  kind: 'file',
  readsMerges: true,
  protects: false,
  async open(sheets) {
    const book = openFileBook(sheets, locale);
    return {
      host: book.host,
      select: async (address) => book.select(areaOf(address)),
      async type(address, text) {
        const { sheet, row, column } = areaOf(address);
        const cells = [{ row, column, value: text, expects: null, format: null }];
        const everything = (await book.host.planWrite({ sheet, label: '', cells, heading: null })).map(
          (clash) => clash.address,
        );
        await book.host.write({ sheet, label: '', cells, heading: null }, everything);
      },
    };
  },
});

test('a file gives back what it was given, with what was written', async () => {
  const book = openFileBook(boardSheets, locale);
  expect(book.sheets()[0]?.rows[6]?.[2]).toEqual({ value: 372.25, text: '372.25', formula: '=SUM(C3:C6)' });
  const cells = [{ row: 2, column: 5, value: '5/4', expects: null, format: null }];
  await book.host.write({ sheet: 'Boards', label: '', cells, heading: null }, []);
  expect(book.sheets()[0]?.rows[2]?.[5]).toEqual({ value: '5/4', text: '5/4', format: '@' });
});
