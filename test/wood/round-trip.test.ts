/**
 * Any length that a tape shows comes back as it was typed: every 1/64 in and every 0.1 mm up to 10 m, in inches, in feet
 * and inches, and in millimetres. (25.4 mm an inch, exactly: the international inch of 1959.)
 */
import { expect, test } from 'vitest';
import { lengthText, readLength, readLengthNumber } from '../../worker/wood/length.ts';
import { NM_PER_64TH_INCH, NM_PER_TENTH_MM } from '../../worker/wood/unit.ts';

const TEN_METRES_NM = 10_000_000_000;
const bare = { unit: null, decimal: '.' } as const;

/** As a person writes it, worked out here from whole numbers alone: 23 5/8", 5/64", 12". */
function inchText(sixtyFourths: number): string {
  const inches = Math.floor(sixtyFourths / 64);
  let [over, under] = [sixtyFourths % 64, 64];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  if (over === 0) return `${inches}"`;
  return inches === 0 ? `${over}/${under}"` : `${inches} ${over}/${under}"`;
}

const readNm = (text: string) => {
  const reading = readLength(text, bare);
  return reading.ok ? reading.nm : reading.fault.why;
};

test('every 1/64 in to 10 m: typed in inches, in feet and inches, and as a number', () => {
  const wrong: string[] = [];
  const last = Math.floor(TEN_METRES_NM / NM_PER_64TH_INCH);
  for (let step = 1; step <= last; step += 1) {
    const lengthNm = step * NM_PER_64TH_INCH;
    const typed = inchText(step);
    if (readNm(typed) !== lengthNm) wrong.push(`${typed} read`);
    // Whatever fraction the shop's tape shows, an exact one comes back exact.
    for (const denominator of [8, 64] as const) {
      if (lengthText(lengthNm, { system: 'in', denominator }) !== typed)
        wrong.push(`${typed} shown to 1/${denominator}`);
    }
    const inFeet = lengthText(lengthNm, { system: 'in', denominator: 16, feet: 'from-8-ft' });
    if (readNm(inFeet) !== lengthNm) wrong.push(`${inFeet} read`);
    const asNumber = readLengthNumber(step / 64, 'in');
    if (!asNumber.ok || asNumber.nm !== lengthNm) wrong.push(`${step / 64} as a number`);
  }
  expect(last).toBe(25_196);
  expect(wrong).toEqual([]);
});

test('every 0.1 mm to 10 m: typed in millimetres, in metres, and as a number', () => {
  const wrong: string[] = [];
  const last = TEN_METRES_NM / NM_PER_TENTH_MM;
  for (let step = 1; step <= last; step += 1) {
    const lengthNm = step * NM_PER_TENTH_MM;
    const [whole, tenth] = [Math.floor(step / 10), step % 10];
    const typed = tenth === 0 ? `${whole} mm` : `${whole}.${tenth} mm`;
    if (readNm(typed) !== lengthNm) wrong.push(`${typed} read`);
    if (lengthText(lengthNm, { system: 'mm', denominator: 16 }) !== typed) wrong.push(`${typed} shown`);
    const metres = `${Math.floor(step / 10_000)}.${String(step % 10_000).padStart(4, '0')} m`;
    if (readNm(metres) !== lengthNm) wrong.push(`${metres} read`);
    const asNumber = readLengthNumber(step / 10, 'mm');
    if (!asNumber.ok || asNumber.nm !== lengthNm) wrong.push(`${step / 10} as a number`);
  }
  expect(last).toBe(100_000);
  expect(wrong).toEqual([]);
});
