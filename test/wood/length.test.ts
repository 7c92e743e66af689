import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type LengthFault,
  lengthText,
  lengthTextSpoken,
  readLength,
  readLengthNumber,
} from '../../worker/wood/length.ts';
import { NM_PER_64TH_INCH, NM_PER_FOOT, NM_PER_INCH, NM_PER_MM, NM_PER_TENTH_MM } from '../../worker/wood/unit.ts';

const IN = NM_PER_INCH;
const MM = NM_PER_MM;
const inches = { unit: 'in', decimal: '.' } as const;
const millimetres = { unit: 'mm', decimal: '.' } as const;
const comma = { unit: 'mm', decimal: ',' } as const;
const none = { unit: null, decimal: '.' } as const;

describe('a length is read as it stands on the tape', () => {
  test.each([
    ['23 5/8', inches, 23.625 * IN, 'in'],
    ['23-5/8"', none, 23.625 * IN, 'in'],
    ['23 - 5/8 in', none, 23.625 * IN, 'in'],
    ['23⅝', none, 23.625 * IN, 'in'],
    ['23 ⅝″', none, 23.625 * IN, 'in'],
    ['23 ⁵⁄₈"', none, 23.625 * IN, 'in'],
    ['¾', none, 0.75 * IN, 'in'],
    ['¾', millimetres, 0.75 * IN, 'in'],
    ['3/4"', none, 0.75 * IN, 'in'],
    [' 23.625 in. ', none, 23.625 * IN, 'in'],
    ['1 inch', none, IN, 'in'],
    ['23 5/8 inches.', none, 23.625 * IN, 'in'],
    ['7 ft. 6 in.', none, 90 * IN, 'in'],
    ['2\'-0"', none, 24 * IN, 'in'],
    ["1½'", none, 18 * IN, 'in'],
    ['7\' 6-1/2"', none, 90.5 * IN, 'in'],
    ['7’ 6 1/2”', none, 90.5 * IN, 'in'],
    ['7′-6½″', none, 90.5 * IN, 'in'],
    ["7' 6''", none, 90 * IN, 'in'],
    ["7'6", none, 90 * IN, 'in'],
    ['7ft 6in', none, 90 * IN, 'in'],
    ['7 feet 6 inches', none, 90 * IN, 'in'],
    ["8'", none, 8 * NM_PER_FOOT, 'in'],
    ['8 ft', none, 8 * NM_PER_FOOT, 'in'],
    ['7.5 ft', none, 90 * IN, 'in'],
    ['7 1/2', { unit: 'ft', decimal: '.' }, 90 * IN, 'in'],
    ['8\' 4 1/2"', none, 100.5 * IN, 'in'],
    ['600 mm', none, 600 * MM, 'mm'],
    ['600mm', inches, 600 * MM, 'mm'],
    ['60cm', none, 600 * MM, 'mm'],
    ['2.55 m', none, 2550 * MM, 'mm'],
    ['100.5', inches, 100.5 * IN, 'in'],
    ['100.5', millimetres, 100.5 * MM, 'mm'],
    ['.5', inches, 0.5 * IN, 'in'],
    ['1,5', comma, 1.5 * MM, 'mm'],
    ['1,5 cm', none, 15 * MM, 'mm'],
    ['1 234,5 mm', comma, 1234.5 * MM, 'mm'],
    ['1\u202f234,5\u00a0mm', comma, 1234.5 * MM, 'mm'],
    ['1.234,5', comma, 1234.5 * MM, 'mm'],
    ['1,234.5 mm', none, 1234.5 * MM, 'mm'],
    ['0,750 m', none, 750 * MM, 'mm'],
    ['1,234 mm', comma, 1.234 * MM, 'mm'],
    ['0', inches, 0, 'in'],
    ['0', none, 0, 'in'],
  ] as const)('%s', (text, assume, lengthNm, system) => {
    expect(readLength(text, assume)).toEqual({ ok: true, nm: Math.round(lengthNm), system, call: null });
  });
});

describe('lumber called in quarters', () => {
  test.each([
    ['4/4', none, 1],
    ['5/4', none, 1.25],
    ['5/4"', none, 1.25],
    ['8/4', millimetres, 2],
    ['16/4', inches, 4],
  ] as const)('%s', (text, assume, inch) => {
    const call = text.replace('"', '');
    expect(readLength(text, assume)).toEqual({ ok: true, nm: inch * IN, system: 'in', call });
  });
});

describe('what is no length is refused with what would be right', () => {
  test.each([
    ['', inches, 'empty', /enter/],
    ['  ', inches, 'empty', /enter/],
    ['-5', inches, 'negative', /minus/],
    ['−23 5/8"', none, 'negative', /minus/],
    ['2 × 4', inches, 'not-a-length', /one length in each cell/],
    ['2x4', inches, 'not-a-length', /one length in each cell/],
    ['2" x 4"', none, 'not-a-length', /one length in each cell/],
    ['3 5/0', inches, 'zero-denominator', /below the line/],
    ['1,234', inches, 'ambiguous', /thousand/],
    ['1.234', comma, 'ambiguous', /thousand/],
    ['235/8', inches, 'ambiguous', /space missing/],
    ['20/4', inches, 'ambiguous', /16\/4/],
    ['5/4 mm', none, 'ambiguous', /fraction/],
    ['7\' 14"', none, 'ambiguous', /less than 12/],
    ['7.5\' 3"', none, 'ambiguous', /whole feet/],
    ['600', none, 'no-unit', /600 of what/],
    ['abc', inches, 'not-a-length', /tape/],
    ['23 5', inches, 'not-a-length', /tape/],
    ['23.5/8', inches, 'not-a-length', /tape/],
    ['≈ 23"', inches, 'not-a-length', /tape/],
    ['"', none, 'not-a-length', /tape/],
    ['1/3 in', none, 'too-fine', /21\/64"/],
    ['1.23456789 mm', none, 'too-fine', /1\.2 mm/],
    ['1/128 in', none, 'too-fine', /1\/64"/],
    ['31 m', none, 'too-long', /30 m/],
    ['99999999999999999999', inches, 'too-long', /^more than 98 ft; is it really inches\?$/],
  ] as const)('%s', (text, assume, why, help) => {
    const reading = readLength(text, assume);
    expect(reading.ok ? null : reading.fault).toMatchObject({ why, read: text } satisfies Partial<LengthFault>);
    expect(reading.ok ? '' : reading.fault.help).toMatch(help);
  });

  test('no text makes the reader throw', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[\d ./,'"⅝½×xmincft-]{0,12}$/)), (text) => {
        const reading = readLength(text, inches);
        expect(reading.ok ? reading.nm >= 0 : reading.fault.help.length > 0).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('a length is shown as on the tape', () => {
  const sixteenths = { system: 'in', denominator: 16 } as const;
  test.each([
    [23.625 * IN, sixteenths, '23 5/8"'],
    [0.625 * IN, sixteenths, '5/8"'],
    [0, sixteenths, '0"'],
    [NM_PER_64TH_INCH * 65, sixteenths, '1 1/64"'],
    [600 * MM, sixteenths, '≈ 23 5/8"'],
    [100.5 * IN, { ...sixteenths, feet: 'from-8-ft' }, '8\' 4 1/2"'],
    [96 * IN, { ...sixteenths, feet: 'from-8-ft' }, "8'"],
    [95.9375 * IN, { ...sixteenths, feet: 'from-8-ft' }, '95 15/16"'],
    [108 * IN, { ...sixteenths, feet: 'from-8-ft' }, "9'"],
    [12.5 * IN, { ...sixteenths, feet: 'always' }, '1\' 0 1/2"'],
    [96.25 * IN, { ...sixteenths, feet: 'from-8-ft' }, '8\' 0 1/4"'],
    [6 * IN, { ...sixteenths, feet: 'always' }, '6"'],
    [-0.25 * IN, sixteenths, '−1/4"'],
    [600 * MM, { system: 'mm', denominator: 16 }, '600 mm'],
    [600.5 * MM, { system: 'mm', denominator: 16 }, '600.5 mm'],
    [23.625 * IN, { system: 'mm', denominator: 16 }, '≈ 600.1 mm'],
  ] as const)('%d nm', (lengthNm, style, shown) => {
    expect(lengthText(lengthNm, style)).toBe(shown);
  });

  test.each([
    [23.625 * IN, sixteenths, '23 and 5 eighths inches'],
    [0.625 * IN, sixteenths, '5 eighths of an inch'],
    [IN, sixteenths, '1 inch'],
    [2 * IN, sixteenths, '2 inches'],
    [MM, { system: 'mm', denominator: 16 }, '1 millimetre'],
    [600 * MM, { system: 'mm', denominator: 16 }, '600 millimetres'],
    [100.5 * IN, { ...sixteenths, feet: 'from-8-ft' }, '8 feet 4 and 1 half inches'],
    [12 * IN, { ...sixteenths, feet: 'always' }, '1 foot'],
    [600 * MM, sixteenths, 'about 23 and 5 eighths inches'],
    [600.5 * MM, { system: 'mm', denominator: 16 }, '600.5 millimetres'],
  ] as const)('%d nm is spoken', (lengthNm, style, spoken) => {
    expect(lengthTextSpoken(lengthNm, style)).toBe(spoken);
  });
});

describe('what was typed comes back as typed', () => {
  test('any 1/64 in up to 10 m, in every style; each of them in round-trip.test.ts', () => {
    const feet = fc.constantFrom('never', 'from-8-ft', 'always');
    const denominator = fc.constantFrom(8, 16, 32, 64);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 25_196 }), denominator, feet, (count, under, style) => {
        const lengthNm = count * NM_PER_64TH_INCH;
        const shown = lengthText(lengthNm, { system: 'in', denominator: under, feet: style });
        expect(readLength(shown, none)).toEqual({ ok: true, nm: lengthNm, system: 'in', call: null });
      }),
    );
  });

  test('any 0.1 mm up to 10 m, with points and commas', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), (tenths) => {
        const lengthNm = tenths * NM_PER_TENTH_MM;
        const shown = lengthText(lengthNm, { system: 'mm', denominator: 16 });
        expect(readLength(shown, none)).toEqual({ ok: true, nm: lengthNm, system: 'mm', call: null });
        expect(readLength(shown.replace('.', ','), comma)).toMatchObject({ ok: true, nm: lengthNm });
      }),
    );
  });

  test('a rounded length is never more than half a step away, and says so', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000 * MM }), (lengthNm) => {
        const shown = lengthText(lengthNm, { system: 'in', denominator: 16 });
        const reading = readLength(shown.replace('≈', ''), none);
        expect(reading.ok && Math.abs(reading.nm - lengthNm) <= IN / 32).toBe(true);
        expect(shown.startsWith('≈')).toBe(reading.ok && reading.nm !== lengthNm);
      }),
    );
  });
});

describe('a number cell', () => {
  test('takes the nearest nanometre of its column’s unit', () => {
    expect(readLengthNumber(0.1 + 0.2, 'in')).toEqual({ ok: true, nm: 7_620_000, system: 'in', call: null });
    expect(readLengthNumber(2.55, 'm')).toMatchObject({ nm: 2_550 * MM, system: 'mm' });
  });
  test.each([
    [-1, 'negative'],
    [Number.NaN, 'not-a-length'],
    [1e12, 'too-long'],
  ])('%d is refused as %s', (value, why) => {
    expect(readLengthNumber(value, 'mm')).toMatchObject({ ok: false, fault: { why } });
  });
});
