import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DRAWER_PLAY_NM,
  drawerHeightNm,
  GROOVE_HOLD_NM,
  GROOVE_PLAY_NM,
  panelFit,
  seasonalMovement,
  seasonalMovementOf,
  slotLengthNm,
} from '../../worker/wood/movement.ts';
import { sizeAtShrink } from '../../worker/wood/shrinkage.ts';
import { speciesByKey } from '../../worker/wood/species.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

const wood = (key: string) => speciesByKey(key)!;
const season = { madePercent: 8, lowPercent: 6, highPercent: 11 };

describe('a top through the year', () => {
  test('hard maple 24 in, made at 7 %, grows 0.257 in to 10 % (Wood Handbook eq. 13-3)', () => {
    const moves = seasonalMovementOf(
      24 * IN,
      { species: wood('hard-maple'), direction: 'tangential' },
      { madePercent: 7, lowPercent: 7, highPercent: 10 },
    );
    expect(moves.growsNm / IN).toBeCloseTo(0.257, 3);
    expect(moves.shrinksNm).toBe(0);
  });
  test('a top made drier than it will ever be only grows', () => {
    expect(seasonalMovement(24 * IN, 9.9, { madePercent: 5, lowPercent: 6, highPercent: 11 }).shrinksNm).toBe(0);
  });
  test('a year upside down is refused', () => {
    expect(() => seasonalMovement(IN, 9.9, { madePercent: 8, lowPercent: 12, highPercent: 6 })).toThrow(
      /lowest moisture/,
    );
  });
});

describe('room for movement', () => {
  const percent = fc.double({ min: 3, max: 16, noNaN: true });
  const year = fc
    .tuple(percent, percent, percent)
    .map(([a, b, madePercent]) => ({ lowPercent: Math.min(a, b), highPercent: Math.max(a, b), madePercent }));
  const shrink = fc.double({ min: 2, max: 12, noNaN: true });
  const opening = fc.integer({ min: 3 * IN, max: 40 * IN });
  const at = (sizeNm: number, shrinkPercent: number, fromPercent: number, toPercent: number) =>
    sizeAtShrink({ sizeNm, shrinkPercent, fromPercent, toPercent });

  test('a panel stays in both grooves at its narrowest and never touches bottom at its widest', () => {
    fc.assert(
      fc.property(opening, shrink, year, (openingNm, shrinkPercent, s) => {
        const fit = panelFit(openingNm, shrinkPercent, s);
        const narrowest = at(fit.panelNm, shrinkPercent, s.madePercent, Math.min(s.lowPercent, s.madePercent));
        const widest = at(fit.panelNm, shrinkPercent, s.madePercent, Math.max(s.highPercent, s.madePercent));
        expect((narrowest - openingNm) / 2).toBeGreaterThanOrEqual(GROOVE_HOLD_NM - 2);
        expect(fit.grooveDepthNm - (widest - openingNm) / 2).toBeGreaterThanOrEqual(GROOVE_PLAY_NM - 2);
        expect(fit.gapWhenMadeNm).toBeGreaterThanOrEqual(GROOVE_PLAY_NM - 2);
      }),
    );
  });

  test('a drawer front still runs in the dampest season', () => {
    fc.assert(
      fc.property(opening, shrink, year, (openingNm, shrinkPercent, s) => {
        const madeNm = drawerHeightNm(openingNm, shrinkPercent, s);
        const highestNm = at(madeNm, shrinkPercent, s.madePercent, Math.max(s.highPercent, s.madePercent));
        expect(openingNm - highestNm).toBeGreaterThanOrEqual(DRAWER_PLAY_NM - 2);
        expect(openingNm - highestNm).toBeLessThanOrEqual(DRAWER_PLAY_NM + 2);
      }),
    );
  });

  test('white oak door panel, 14 in opening: 14.485 in wide in grooves 0.356 in deep (computed)', () => {
    const fit = panelFit(14 * IN, wood('white-oak').shrinkTangentialPercent, season);
    expect(fit.panelNm / IN).toBeCloseTo((14.375 * (1 - 0.105 * (22 / 30))) / (1 - 0.105 * (24 / 30)), 6);
    expect(fit.grooveDepthNm / IN).toBeCloseTo(
      ((14.375 * (1 - 0.105 * (19 / 30))) / (1 - 0.105 * (24 / 30)) - 14) / 2 + 1 / 32,
      6,
    );
  });

  test('a slot lets the screw move both ways', () => {
    const slot = slotLengthNm(12 * IN, IN / 4, 9.9, season);
    const moves = seasonalMovement(12 * IN, 9.9, season);
    expect(slot).toBe(IN / 4 + 2 * Math.max(moves.growsNm, moves.shrinksNm));
  });
});
