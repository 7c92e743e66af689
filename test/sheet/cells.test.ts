/** Nothing that leaves for a cell is ever taken for a formula, and numbers stay numbers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellFormat, cellNumber, cellText, cellValue, csvLine } from '../../addon/sheet/cells.ts';

const formulaStarts = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

describe('text for a cell', () => {
  it.each([
    ['=HYPERLINK("http://x","rail")', `'=HYPERLINK("http://x","rail")`],
    ['+1 spare rail', `'+1 spare rail`],
    ['-rail', `'-rail`],
    ['@rail', `'@rail`],
    ['\t=1+1', `'=1+1`],
    ['\r\n=1+1', `'=1+1`],
    ['long\nrail', 'long rail'],
    ['rail\u0000\u001b[31m', 'rail [31m'],
    ['  Long rail ', 'Long rail'],
    ['23 5/8"', '23 5/8"'],
    ["'quoted'", "'quoted'"],
    ['−1/8" too thin', '−1/8" too thin'],
  ])('%j becomes %j', (text, safe) => {
    expect(cellText(text)).toBe(safe);
  });

  it('never starts a formula and never holds a control character, whatever the text', () => {
    const nasty = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc.tuple(fc.constantFrom(...formulaStarts, ' ', '\u00a0'), fc.string({ maxLength: 30 })).map((p) => p.join('')),
      fc.array(fc.constantFrom(...formulaStarts, ' ', 'a', '1', "'", '"'), { maxLength: 12 }).map((p) => p.join('')),
    );
    fc.assert(
      fc.property(nasty, (text) => {
        const safe = cellText(text);
        expect(formulaStarts.some((start) => safe.startsWith(start))).toBe(false);
        expect(safe).not.toMatch(/\p{Cc}/u);
        expect(safe.length).toBeLessThanOrEqual(2_001);
      }),
      { numRuns: 2_000 },
    );
  });

  it('leaves a harmless text of the shop as it is', () => {
    const plain = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9 /"'.,()=+@-]{0,40}[A-Za-z0-9"]$/);
    fc.assert(fc.property(plain, (text) => cellText(text) === text));
  });
});

describe('numbers for a cell', () => {
  it('stay numbers, rounded, also below zero, and never NaN', () => {
    expect(cellNumber(12.34567, 2)).toBe(12.35);
    expect(cellNumber(-0.001, 2)).toBe(0);
    expect(Object.is(cellNumber(-0.001, 2), -0)).toBe(false);
    expect(cellNumber(Number.NaN, 2)).toBeNull();
    expect(cellNumber(Number.POSITIVE_INFINITY, 2)).toBeNull();
    expect(cellValue(-5)).toBe(-5);
    expect(cellValue(Number.NaN)).toBeNull();
    expect(cellValue('')).toBeNull();
  });

  it('a text with figures gets the text format first, so that 5/4 is no date', () => {
    expect(cellFormat('5/4')).toBe('@');
    expect(cellFormat('K7Q3M4')).toBe('@');
    expect(cellFormat('held')).toBeNull();
    expect(cellFormat(12.5)).toBeNull();
  });
});

/** Takes a CSV line apart again, quote by quote. */
function fieldsOf(line: string): string[] {
  const fields = [''];
  let quoted = false;
  for (const sign of line) {
    if (sign === '"') quoted = !quoted;
    if (sign === ',' && !quoted) fields.push('');
    else fields.push(`${fields.pop() ?? ''}${sign}`);
  }
  return fields.map((field) => (field.startsWith('"') ? field.slice(1, -1).replaceAll('""', '"') : field));
}

describe('a line of CSV', () => {
  it('guards each field and quotes what needs it', () => {
    expect(csvLine(['=1+1', 'a, b', 'say "x"', 5.25, null, -3])).toBe(`'=1+1,"a, b","say ""x""",5.25,,-3`);
  });

  it('splits back into the same fields', () => {
    const value = fc.oneof(fc.string({ maxLength: 20 }), fc.integer(), fc.constant(null));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 8 }), (values) => {
        const fields = fieldsOf(csvLine(values));
        expect(fields).toEqual(values.map((v) => String(cellValue(v) ?? '')));
      }),
    );
  });
});
