/**
 * The trade's check values of volume, moisture and movement, asked for over HTTP. WH-190 and WH-282 are the Wood Handbook's editions FPL-GTR-190 and
 * FPL-GTR-282; FIA the species table of the USDA Forest Inventory and Analysis.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { NM_PER_INCH } from '../../worker/wood/unit.ts';
import { type Client, openShop } from './shop.ts';

let yard: Client;
beforeAll(async () => {
  yard = await openShop().foundYard('Juniper Bend');
});

async function ask(what: string, body: unknown) {
  const answer = await yard.send('POST', `/v1/wood/${what}`, body);
  if (answer.status !== 200) throw new Error(answer.text);
  return answer.json;
}
const inch = (nm: number) => nm / NM_PER_INCH;

describe('volume and tally', () => {
  test.each([
    ['1 × 8 in × 10 ft', '1 in', '8 in', `10'`, 6.667],
    ['2 × 6 in × 8 ft', '2 in', '6 in', `8'`, 8],
    ['5/4 × 7.5 in × 9.5 ft', '5/4', '7.5 in', '114 in', 7.422],
    ['¾ × 8 in × 10 ft, sold as an inch (extension terminology page)', '3/4 in', '8 in', `10'`, 6.667],
  ])('%s (definition of the board foot)', async (_, thicknessNm, widthNm, lengthNm, bf) => {
    const { boards, total } = await ask('volume', { boards: [{ lengthNm, widthNm, thicknessNm }] });
    expect(boards[0].tallyBf).toBeCloseTo(bf, 3);
    expect(total.tallyBf).toBeCloseTo(bf, 3);
  });

  test('one board foot is 0.00235974 m³ (25.4 mm an inch, computed)', async () => {
    const { total } = await ask('volume', { boards: [{ lengthNm: '12 in', widthNm: '12 in', thicknessNm: '1 in' }] });
    expect(total.volumeBf).toBe(1);
    expect(total.volumeM3).toBeCloseTo(0.00235974, 8);
  });

  test.each([
    ['6 7/16 in', '129 in', 5, 'extension grading page'],
    ['6 1/4 in', `8'`, 4, 'NHLA rule as summed up'],
    ['9 1/2 in', `16'`, 13, 'NHLA rule as summed up'],
  ])('surface measure of %s × %s is %i (%s)', async (widthNm, lengthNm, feet) => {
    const { boards } = await ask('volume', { boards: [{ widthNm, lengthNm, thicknessNm: '4/4' }] });
    expect(boards[0].surfaceMeasureFt2).toBe(feet);
  });

  test('half feet go down and up in turn: 8 3/4 and 9 1/4 in × 12 ft are 9 and 9 (King, second hand)', async () => {
    const { bundles } = await ask('volume', {
      boards: ['8 3/4 in', '9 1/4 in'].map((widthNm) => ({ widthNm, lengthNm: `12'`, thicknessNm: '4/4' })),
    });
    expect(bundles).toEqual([{ call: '4/4', count: 2, surfaceMeasureFt2: 18, tallyBf: 18 }]);
  });

  test('an 8/4 bundle of 53 ft² is 106 bf (terminology page)', async () => {
    const faces = [
      { widthNm: '12 in', lengthNm: `10'`, thicknessNm: '8/4', count: 5 },
      { widthNm: '6 in', lengthNm: `6'`, thicknessNm: '8/4' },
    ];
    expect((await ask('volume', { boards: faces })).bundles).toMatchObject([{ surfaceMeasureFt2: 53, tallyBf: 106 }]);
  });

  test('2×4×8 ft tallies 5.333 bf and holds 3.5; 2×10 is 1½ × 9¼ in (PS 20, second hand)', async () => {
    const { softwood, sources } = await ask('volume', {
      softwood: [
        { nominalThicknessInch: 2, nominalWidthInch: 4, lengthNm: `8'` },
        { nominalThicknessInch: 2, nominalWidthInch: 10, lengthNm: `8'` },
      ],
    });
    expect(softwood[0].tallyBf).toBeCloseTo(5.333, 3);
    expect(softwood[0].volumeBf).toBeCloseTo(3.5, 6);
    expect([inch(softwood[1].thicknessNm), inch(softwood[1].widthNm)]).toEqual([1.5, 9.25]);
    expect(sources).toContainEqual(expect.objectContaining({ of: 'dressed softwood sizes', flag: 'second-hand' }));
  });

  test.each([
    ['4/4', 13 / 16],
    ['6/4', 1 + 5 / 16],
    ['8/4', 1.75],
  ])('%s dresses to %f in (two copies of the grading table)', async (thicknessNm, dressed) => {
    const { boards } = await ask('volume', { boards: [{ widthNm: '6 in', lengthNm: `8'`, thicknessNm }] });
    expect(inch(boards[0].dressedTwoSidesNm)).toBe(dressed);
  });

  test('twelve layers of 40 bf billed as 502: 22 bf too many, 4.58 % (trade article, second hand)', async () => {
    const delivery = await ask('delivery', {
      boards: [{ lengthNm: `10'`, widthNm: '48 in', thicknessCall: '4/4', count: 12 }],
      statedBf: 502,
      minorPerBoardFoot: 650,
    });
    expect(delivery).toMatchObject({ tallyBf: 480, overstatedBf: 22, overstatedMinor: 14_300, currency: 'USD' });
    expect(delivery.overstatedPercent).toBeCloseTo(4.58, 2);
    expect(delivery.words).toBe('502 bf are billed, 480 bf came: 22 bf too many (4.58 %).');
  });
});

describe('moisture', () => {
  test.each([
    [30, 50, 9.5],
    [50, 30, 6.3],
    [70, 5, 1.3],
    [70, 40, 7.7],
    [70, 95, 23.9],
    [120, 30, 5.4],
    [200, 20, 2.4],
  ])('EMC at %i °F and %i %% is %f %% (WH-190 Table 4-2, within 0.1)', async (temperatureF, rh, emc) => {
    const there = await ask('emc', { temperatureF, relativeHumidityPercent: rh });
    expect(Math.abs(there.emcPercent - emc)).toBeLessThan(0.1);
    const back = await ask('emc', { temperatureF, emcPercent: there.emcPercent });
    expect(back.relativeHumidityPercent).toBeCloseTo(rh, 6);
  });

  test('20 °C: 65 % gives 12.00, 50 % gives 9.271 (WH eq. 4-5, second hand); 180 °F and 90 % gives 15.66', async () => {
    const at = async (body: object) => (await ask('emc', body)).emcPercent;
    expect(await at({ temperatureC: 20, relativeHumidityPercent: 65 })).toBeCloseTo(12.0, 2);
    expect(await at({ temperatureC: 20, relativeHumidityPercent: 50 })).toBeCloseTo(9.271141, 5);
    expect(await at({ temperatureF: 180, relativeHumidityPercent: 90 })).toBeCloseTo(15.66, 1);
  });

  test('30 lb with 10 lb of water is 50 %; 30 % wet basis is 42.86 % (extension, definition)', async () => {
    const weighed = await ask('moisture', { wetKg: 30, ovenDryKg: 20, wetBasisPercent: 30 });
    expect(weighed.moisturePercent).toBe(50);
    expect(weighed.dryBasisPercent).toBeCloseTo(42.86, 2);
  });

  test('a sample of 1500 g at 25 % that weighs 1380 g is at 15.0 % (kiln-sample method, from memory)', async () => {
    const weighed = await ask('moisture', { sample: { weighedKg: 1.5, moisturePercent: 25, nowKg: 1.38 } });
    expect(weighed.sample.moisturePercent).toBeCloseTo(15.0, 6);
    expect(weighed.sources).toContainEqual(expect.objectContaining({ words: 'from memory', document: null }));
  });

  test('12 % on pins at 90 °F is 11.0 (WH-190 p. 13-3); at 0 and 20 °C by the fit 14.26 and 12.25', async () => {
    const read = (body: object) => ask('meter', { readingPercent: 12, ...body });
    expect((await read({ woodTemperatureF: 90 })).correctedPercent).toBeCloseTo(11, 6);
    expect((await read({ woodTemperatureC: 0 })).fittedPercent).toBeCloseTo(14.26, 2);
    expect((await read({ woodTemperatureC: 20 })).fittedPercent).toBeCloseTo(12.25, 2);
  });

  test('34 % on pins only says wet, and is not corrected (WH-190)', async () => {
    const read = await ask('meter', { readingPercent: 34, woodTemperatureC: 5 });
    expect(read).toMatchObject({ trust: 'qualitative-wet', correctedPercent: null, fittedPercent: null });
  });
});

describe('shrinkage and movement', () => {
  test.each([
    ['white fir 9.15 in, 8 to 11 %', 'white fir', 'flat', '9.15 in', 8, 11, 0.067, 'WH-190 Ch. 13 example'],
    ['white oak 8 in, 12 to 7 %', 'white oak', 'flat', '8 in', 12, 7, -0.146, 'Table 13-5'],
    ['red oak 6 in quarter, 12 to 6 %', 'red oak', 'quarter', '6 in', 12, 6, -0.0569, 'Table 13-5'],
    ['sugar maple 24 in, 7 to 10 %', 'sugar maple', 'flat', '24 in', 7, 10, 0.254, 'Table 13-5'],
    ['walnut 10 in, 9 to 6 %', 'walnut', 'flat', '10 in', 9, 6, -0.0822, 'Table 13-5'],
    ['cherry 12 in, 8 to 11 %', 'cherry', 'flat', '12 in', 8, 11, 0.0893, 'Table 13-5'],
  ])('%s by coefficient: %s', async (_what, species, grain, nowNm, fromPercent, toPercent, change) => {
    const moved = await ask('shrinkage', { species, grain, nowNm, fromPercent, toPercent });
    expect(inch(moved.laterByCoefficientNm - moved.nowNm)).toBeCloseTo(change, 3);
  });

  test('beech 2.25 in quarter-sawn thickness, green to 7 %: 2.045 in (WH-282 eq. 4-9)', async () => {
    const moved = await ask('shrinkage', {
      species: 'beech',
      grain: 'quarter',
      axis: 'thickness',
      nowNm: '2.25 in',
      fromPercent: 60,
      toPercent: 7,
    });
    expect(inch(moved.laterNm)).toBeCloseTo(2.045, 3);
    expect(moved.laterByCoefficientNm).toBeNull();
  });

  test('red oak for 6 in at 8 %, cut green flat-sawn: 6.404 in (WH-282 eq. 4-9 turned round)', async () => {
    const cut = { species: 'northern red oak', grain: 'flat', laterNm: '6 in', fromPercent: 40, toPercent: 8 };
    expect(inch((await ask('shrinkage', cut)).nowNm)).toBeCloseTo(6.404, 3);
  });

  test('35 to 30 % changes nothing (fibre saturation)', async () => {
    const body = { species: 'oak, white', nowNm: '8 in', fromPercent: 35, toPercent: 30 };
    expect((await ask('shrinkage', body)).changeNm).toBe(0);
  });

  test('a floating panel stays in its grooves all year, and its plot says when it is narrowest', async () => {
    const made = await ask('movement', {
      species: 'white oak',
      grain: 'flat',
      madePercent: 8,
      lowPercent: 6,
      highPercent: 12,
      panelOpeningNm: '14 in',
      drawerOpeningNm: '6 in',
    });
    const { panelNm, grooveDepthNm, moves } = made.panel;
    expect(inch(moves.smallestNm)).toBeGreaterThanOrEqual(14 + 2 * (3 / 16) - 1e-6);
    expect(inch(moves.largestNm)).toBeLessThanOrEqual(14 + 2 * inch(grooveDepthNm));
    expect(made.drawer.heightNm + made.drawer.gapWhenMadeNm).toBe(6 * NM_PER_INCH);
    const sizes: { x: number; y: number }[] = made.year.curves[0].points;
    expect(sizes).toHaveLength(12);
    expect(Math.min(...sizes.map((p) => p.y))).toBe(moves.smallestNm);
    expect(Math.max(...sizes.map((p) => p.y))).toBe(moves.largestNm);
    expect(sizes[0]?.y).toBe(moves.smallestNm);
    expect(made.year.lines[0].y).toBe(panelNm);
    expect(made.year.description).toMatch(/narrowest .* in Jan/);
    expect(made.sources).toContainEqual(
      expect.objectContaining({ of: 'room in grooves and drawers', words: 'common practice, no source' }),
    );
  });

  test('from the air of each month: 70 °F at 40 % in winter and 65 % in summer is 7.7 to 12.0 % (WH-190 Table 4-2)', async () => {
    const monthAirs = Array.from({ length: 12 }, (_, month) => ({
      temperatureF: 70,
      relativeHumidityPercent: month > 4 && month < 9 ? 65 : 40,
    }));
    const { season } = await ask('movement', { species: 'cherry', madePercent: 8, widthNm: '20 in', monthAirs });
    expect(season.lowPercent).toBeCloseTo(7.7, 1);
    expect(season.highPercent).toBeCloseTo(12.0, 1);
  });
});
