/**
 * The trade's check values of drying and working the wood, asked for over HTTP. WH-190 and WH-282 are the Wood Handbook's editions FPL-GTR-190 and
 * FPL-GTR-282; FIA the species table of the USDA Forest Inventory and Analysis.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { NM_PER_INCH, NM_PER_MM } from '../../worker/wood/unit.ts';
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

describe('drying', () => {
  const walnut = {
    species: 'walnut',
    thicknessNm: '8/4',
    targetPercent: 8,
    air: { temperatureF: 70, relativeHumidityPercent: 35.37 },
    readings: [
      { moisturePercent: 14, on: '2026-03-01', meter: 'pin' },
      { moisturePercent: 10.5, on: '2026-03-22', meter: 'pin' },
    ],
  };

  test('14 to 10.5 % in 21 days in air of 7 %: 8 % about 38 days later (simple model, from memory)', async () => {
    const { forecast, plot, sources } = await ask('drying', walnut);
    expect(forecast.emcPercent).toBeCloseTo(7, 1);
    expect(forecast).toMatchObject({ kind: 'range', basis: 'readings', from: { on: '2026-03-22' } });
    const days = (Date.parse(forecast.likelyOn) - Date.parse('2026-03-22')) / 86_400_000;
    expect(Math.abs(days - 37.95)).toBeLessThan(1.6);
    expect(plot.marks.map((mark: { y: number }) => mark.y)).toEqual([14, 10.5]);
    expect(sources.map((s: { words: string }) => s.words)).toContain('from memory');
  });

  test('the curve starts at the last reading, each line meets the target on its day, the band holds the curve', async () => {
    const { forecast, plot } = await ask('drying', walnut);
    const [curve, band] = [plot.curves[0].points, plot.bands[0].points];
    expect(curve[0]).toEqual({ x: 21, y: 10.5 });
    expect(band.at(-1).high).toBeCloseTo(8, 6);
    const likelyX = (Date.parse(forecast.likelyOn) - Date.parse('2026-03-01')) / 86_400_000;
    const before = curve.findLast((p: { x: number }) => p.x <= likelyX);
    const after = curve.find((p: { x: number }) => p.x >= likelyX);
    expect(before.y).toBeGreaterThanOrEqual(8);
    expect(after.y).toBeLessThanOrEqual(8 + 1e-9);
    curve.forEach((p: { y: number }, at: number) => {
      expect(band[at].low).toBeLessThanOrEqual(p.y + 1e-12);
      expect(band[at].high).toBeGreaterThanOrEqual(p.y - 1e-12);
    });
  });

  test('8 % in air of 9 % never comes, and the drier air that would do is told', async () => {
    const damp = { ...walnut, air: { temperatureF: 70, relativeHumidityPercent: 48 } };
    const { forecast, plot } = await ask('drying', damp);
    expect(forecast.kind).toBe('never');
    expect(forecast.relativeHumidityBelowPercent).toBeLessThan(48);
    expect(plot.curves).toEqual([]);
  });

  test('white oak 4/4 stacked green, to 20 % in mild air: 80 to 250 days, from memory, and it says so', async () => {
    const { forecast, sources } = await ask('drying', {
      species: 'white oak',
      thicknessNm: '1 in',
      targetPercent: 20,
      air: { temperatureC: 20, relativeHumidityPercent: 65 },
      stackedOn: '2026-03-01',
    });
    expect(forecast).toMatchObject({ kind: 'range', basis: 'species-table', earliestOn: '2026-05-20' });
    expect(forecast.latestOn).toBe('2026-11-06');
    expect(sources).toContainEqual({
      of: 'days to 20 % by species',
      flag: 'from-memory',
      words: 'from memory',
      document: null,
    });
  });
});

describe('warp', () => {
  const oak = { lengthNm: '96 in', widthNm: '6 in', thicknessNm: '1 in' };

  test('crook ¾ in: 5.25 in straight over 96 in, 5.9167 over 32, edges taken as clean (geometry)', async () => {
    const bent = await ask('warp', {
      ...oak,
      warp: { crookNm: '3/4 in' },
      cleanupEdgeNm: 0,
      pieces: [
        { lengthNm: '48 in', widthNm: '6 in' },
        { lengthNm: '32 in', widthNm: '6 in' },
      ],
    });
    expect(inch(bent.whole.widthNm)).toBeCloseTo(5.25, 4);
    expect(inch(bent.pieces[0].warp.crookNm)).toBeCloseTo(0.1875, 4);
    expect(inch(bent.pieces[1].widthNm)).toBeCloseTo(5.9167, 4);
  });

  test('bow ½, cup 3/16, twist 3/8 in: 0.125 in flat whole, 0.898 in as 24 × 4 in (geometry)', async () => {
    const bent = await ask('warp', {
      lengthNm: '96 in',
      widthNm: '8 in',
      thicknessNm: '1 in',
      warp: { bowNm: '1/2 in', cupNm: '3/16 in', twistNm: '3/8 in' },
      cleanupFacesNm: 0,
      pieces: [{ lengthNm: '24 in', widthNm: '4 in' }],
    });
    expect(inch(bent.whole.thicknessNm)).toBeCloseTo(0.125, 4);
    expect(inch(bent.pieces[0].thicknessNm)).toBeCloseTo(0.898, 3);
  });

  test('a kink of ½ in at 36 of 96 in leaves 0.2667 in where it is, nothing beyond (geometry)', async () => {
    const bent = await ask('warp', {
      ...oak,
      kink: { gapNm: '1/2 in', atNm: '36 in' },
      pieces: [
        { lengthNm: '48 in', widthNm: '6 in', fromNm: '12 in' },
        { lengthNm: '48 in', widthNm: '6 in', fromNm: '40 in' },
      ],
    });
    expect(inch(bent.pieces[0].warp.crookNm)).toBeCloseTo(0.2667, 4);
    expect(bent.pieces[1].warp.crookNm).toBe(0);
  });

  test('how far apart to crosscut: the longest length keeps the thickness and the next millimetre does not', async () => {
    const bowed = { ...oak, warp: { bowNm: '1/2 in' } };
    const need = { thicknessNm: '13/16 in' };
    const { longestNm, crosscut } = await ask('warp', { ...bowed, need });
    const given = async (lengthNm: number) =>
      (await ask('warp', { ...bowed, need, pieces: [{ lengthNm, widthNm: '6 in' }] })).pieces[0].enough;
    expect(await given(longestNm)).toBe(true);
    expect(await given(longestNm + NM_PER_MM)).toBe(false);
    const enough = crosscut.find((row: { enough: boolean }) => row.enough);
    expect(enough.lengthNm).toBeLessThanOrEqual(longestNm);
  });

  test('crook ¼ in at 30 % is likely 0.525 in at 8 % (our inference from a crook study)', async () => {
    const bent = await ask('warp', {
      ...oak,
      warp: { crookNm: '1/4 in' },
      drying: { nowPercent: 30, targetPercent: 8 },
    });
    expect(inch(bent.likelyCrookNm)).toBeCloseTo(0.525, 4);
  });
});

describe('weight', () => {
  const weigh = async (species: string, moisturePercent: number, thicknessNm = '12 in') =>
    (
      await ask('weight', {
        pieces: [{ species, moisturePercent, lengthNm: '144 in', widthNm: '20 in', thicknessNm }],
        payloadKg: 500,
      })
    ).pieces[0];

  test.each([
    ['northern red oak', 83, 1024.8, 'FIA and WH eq. 4-14'],
    ['walnut', 8, 607.9, 'FIA and WH-190'],
    ['eastern white pine', 10, 395.6, 'FIA; volumetric shrinkage from memory'],
  ])('%s at %i %%: %f kg/m³ (%s)', async (species, moisture, density) => {
    expect((await weigh(species, moisture)).densityKgPerM3).toBeCloseTo(density, 1);
  });

  test('20 bf of green white oak at 68 %: 104.9 lb, too much for one person (FIA and WH eq. 4-14)', async () => {
    const plank = await weigh('white oak', 68, '1 in');
    expect(plank.pieceLb).toBeCloseTo(104.9, 1);
    expect(plank.liftAlone).toBe(false);
  });

  test('the load: 10 such planks are 476 kg, one load of 500 kg, two of 300', async () => {
    const pieces = [
      {
        species: 'white oak',
        moisturePercent: 68,
        lengthNm: '144 in',
        widthNm: '20 in',
        thicknessNm: '1 in',
        count: 10,
      },
    ];
    const load = await ask('weight', { pieces, payloadKg: 500 });
    expect(load.totalKg).toBeCloseTo(475.7, 0);
    expect(load.loads).toBe(1);
    expect((await ask('weight', { pieces, payloadKg: 300 })).loads).toBe(2);
    expect((await ask('weight', { pieces, payloadKg: 20 })).loads).toBeNull();
  });
});

describe('grade', () => {
  test('5 in × 10 ft clear is too narrow for FAS and makes Selects; the bill said FAS (grade table, second hand)', async () => {
    const graded = await ask('grade', { lengthNm: `10'`, widthNm: '5 in', gradePaid: 'FAS' });
    expect(graded).toMatchObject({ grade: 'Selects', paid: { grade: 'FAS', reached: false } });
  });

  test('a clear 8 in × 10 ft board is FAS, its cutting drawn on the face', async () => {
    const graded = await ask('grade', { tag: 'W7', lengthNm: `10'`, widthNm: '8 in' });
    expect(graded).toMatchObject({ grade: 'FAS', surfaceMeasureFt2: 7 });
    expect(graded.better.cuttings[0].units).toBe(80);
    const { drawing } = graded.better;
    expect(drawing.description).toContain('Face a makes FAS.');
    expect(drawing.shapes.filter((shape: { role: string }) => shape.role === 'blank').length).toBeGreaterThan(0);
  });

  test('5.75 in × 7 ft of clear face on 4 ft² is 40.25 units of 40: FAS (1998 red-oak data, board 0063)', async () => {
    const graded = await ask('grade', {
      lengthNm: `8'`,
      widthNm: '5.75 in',
      defects: [{ kind: 'check', face: 'through', fromNm: `7'`, toNm: `8'`, leftNm: 0, rightNm: '5.75 in' }],
    });
    expect(graded.grade).toBe('FAS');
    expect(graded.poorer.units).toBeCloseTo(40.25, 4);
    expect(graded.poorer.need).toMatchObject({ cuttings: 1, units: 40 });
    const drawn = graded.poorer.drawing.shapes.map((shape: { role: string }) => shape.role);
    expect(drawn).toContain('defect-split');
  });
});

describe('glue-up', () => {
  const panel = {
    species: 'hard maple',
    lengthNm: '60 in',
    widthNm: '24 in',
    thicknessNm: '7/8 in',
    staves: 6,
    spreadGPerM2: 220,
    pressureKPa: 200 * 6.894757293168,
    clampForceLbf: 1000,
  };

  test('hard maple 60 × 7/8 in at 200 psi, 1000 lbf clamps: 11; 5 joints at 220 g/m²: 37.3 g (computed)', async () => {
    const glued = await ask('glue-up', panel);
    expect(glued.clamps.most).toMatchObject({ byForce: 11, bySpacing: 8, count: 11 });
    expect(glued.glueLinesPerPiece).toBe(5);
    expect(glued.glueG[1]).toBeCloseTo(37.3, 1);
    expect(glued.glueMl[1]).toBeCloseTo(34, 0);
    expect(glued.checklist.length).toBeGreaterThan(5);
    expect(glued.cautions.join(' ')).toMatch(/glue maker’s sheet/);
  });

  test('six boards or two of the same width: the same clamps, pressed in series (mechanics)', async () => {
    const two = await ask('glue-up', { ...panel, widthNm: '8 in', staves: 2 });
    expect(two.clamps.most.count).toBe(11);
  });

  test('25 in² at 150 psi with clamps of 420 lbf: 9 (magazine example)', async () => {
    const glued = await ask('glue-up', {
      ...panel,
      lengthNm: '25 in',
      widthNm: '12 in',
      thicknessNm: '1 in',
      staves: 2,
      pressureKPa: 150 * 6.894757293168,
      clampForceLbf: 420,
    });
    expect(glued.clamps.most.byForce).toBe(9);
  });

  test('a leg of 3 × 30 in out of three plies: 12 clamps of 1200 lbf at 150 psi, 25.5 g of 45 lb/1000 ft² (computed)', async () => {
    const leg = await ask('glue-up', {
      species: 'white oak',
      lengthNm: '30 in',
      widthNm: '3 in',
      thicknessNm: '2 1/4 in',
      plyThicknessNmMax: '3/4 in',
      spreadGPerM2: 45 * 4.882427636,
      pressureKPa: 150 * 6.894757293168,
      clampForceLbf: 1200,
      bottleMl: 236,
      copies: 4,
      openMinutes: 6,
      spreadMinutesPerJoint: 2,
      clampMinutes: 2,
      clampsAtHand: 24,
      moisturePercents: [7.5, 8.2, 10.4],
    });
    expect(leg.elements).toHaveLength(3);
    expect(leg.clamps.most.byForce).toBe(12);
    expect(leg.glueG[1] / 4).toBeCloseTo(25.5, 1);
    expect(leg.bottles).toBe(1);
    expect(leg.batches).toEqual({ count: 4, glueLines: [2, 2, 2, 2], piecesAtOnce: expect.any(Number) });
    expect(leg.moisture.apartPoints).toBeCloseTo(2.9, 6);
    expect(leg.checklist[1]).toMatchObject({ met: false, source: 'common practice, no source' });
  });

  test('without the shop’s times there are no batches, and it says what is missing', async () => {
    const glued = await ask('glue-up', panel);
    expect(glued.batches).toBeNull();
    expect(glued.batchesWhy).toMatch(/minutes you take to spread a joint and to set the clamps/);
    expect((await ask('glue-up', { ...panel, adhesive: 'epoxy' })).batchesWhy).toMatch(/sheet/);
  });
});

describe('species and allowances', () => {
  test('at least 60 woods, each figure with where it comes from', async () => {
    const answer = await yard.send('GET', '/v1/species');
    expect(answer.status).toBe(200);
    expect(answer.json.species.length).toBeGreaterThanOrEqual(60);
    for (const wood of answer.json.species) {
      expect(wood.sources.length).toBeGreaterThanOrEqual(3);
      for (const { flag, words, document } of wood.sources) {
        expect(words).not.toBe('');
        expect(document === null).toBe(['from-memory', 'common-practice', 'own'].includes(flag));
      }
    }
    const oak = answer.json.species.find((wood: { key: string }) => wood.key === 'white-oak');
    expect(oak).toMatchObject({
      botanical: 'Quercus alba',
      shrinkTangentialPercent: 10.5,
      coefficientTangential: 0.00365,
    });
    expect(oak.airDryingDays).toEqual([80, 250]);
  });

  test('a leg 2¼ × 2¼ × 28 in is rough 2½ × 2½ × 29 (common practice, no source)', async () => {
    const leg = { lengthNm: '28 in', widthNm: '2 1/4 in', thicknessNm: '2 1/4 in' };
    const { roughByDefault, allowances, kerfs } = await ask('allowances', { finished: leg });
    expect([roughByDefault.lengthNm, roughByDefault.widthNm, roughByDefault.thicknessNm].map(inch)).toEqual([
      29, 2.5, 2.5,
    ]);
    expect(allowances.some((a: { source: { words: string } }) => a.source.words === 'common practice, no source')).toBe(
      true,
    );
    expect(kerfs.find((k: { saw: string }) => k.saw === 'table saw, full kerf').kerfNm).toBe(NM_PER_INCH / 8);
  });
});
