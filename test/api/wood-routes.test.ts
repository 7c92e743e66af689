/** The routes are the trade's functions and nothing beside them, and the document describes every one. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { routes } from '../../worker/contract/routes.ts';
import { answers } from '../../worker/contract/wire.ts';
import { woodAnswers, woodBodies } from '../../worker/contract/wood.ts';
import { adhesives, clampingPressureKPa } from '../../worker/wood/adhesive.ts';
import { deliveryCheck } from '../../worker/wood/delivery.ts';
import { readyDate } from '../../worker/wood/drying.ts';
import { clampsNeeded, glueBatches, glueMassG } from '../../worker/wood/glue-up.ts';
import { gradeAdvice } from '../../worker/wood/grade.ts';
import { pinCorrectedPercent, pinFittedPercent } from '../../worker/wood/meter.ts';
import { emcPercent, moistureByWeight } from '../../worker/wood/moisture.ts';
import { drawerHeightNm, panelFit, seasonalMovement, slotLengthNm } from '../../worker/wood/movement.ts';
import { roughSize } from '../../worker/wood/rough.ts';
import { facesDirections, sizeAtShrink, sizeBeforeDrying } from '../../worker/wood/shrinkage.ts';
import { type Species, speciesBook } from '../../worker/wood/species.ts';
import { NM_PER_INCH } from '../../worker/wood/unit.ts';
import { boardFeet, cubicMetres, surfaceMeasure } from '../../worker/wood/volume.ts';
import { flatThicknessNm, straightWidthNm, warpOver } from '../../worker/wood/warp.ts';
import { weightKg } from '../../worker/wood/weight.ts';
import { type Client, openShop } from './shop.ts';

let yard: Client;
beforeAll(async () => {
  yard = await openShop().foundYard('Juniper Bend');
});

async function ask(what: string, body: unknown) {
  const answer = await yard.send('POST', `/v1/wood/${what}`, body);
  expect(answer.status, `${answer.text} for ${JSON.stringify(body)}`).toBe(200);
  return answer.json;
}

const species = fc.constantFrom(...speciesBook([]).all);
const percent = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const sixteenths = (most: number) => fc.integer({ min: 1, max: most * 16 }).map((n) => (n * NM_PER_INCH) / 16);
const size = fc.record({ lengthNm: sixteenths(240), widthNm: sixteenths(30), thicknessNm: sixteenths(8) });
const grain = fc.constantFrom('flat', 'rift', 'quarter', 'unknown');
const air = fc.record({ temperatureF: percent(-22, 212), relativeHumidityPercent: percent(0, 100) });
/** Each round is an HTTP call or two, so a few dozen suffice. */
const rounds = { numRuns: 40 };

/** What JSON makes of a value. */
const sent = (value: unknown) => JSON.parse(JSON.stringify(value));

describe('each route answers what its function gives', () => {
  const check = <T>(arbitrary: fc.Arbitrary<T>, same: (value: T) => Promise<void>) =>
    fc.assert(fc.asyncProperty(arbitrary, same), rounds);

  test('volume', () =>
    check(size, async (board) => {
      const { boards } = await ask('volume', { boards: [board] });
      expect(boards[0]).toMatchObject({
        volumeBf: boardFeet(board),
        volumeM3: cubicMetres(board),
        surfaceMeasureFt2: surfaceMeasure(board),
      });
    }));

  test('delivery', () =>
    check(fc.tuple(fc.array(size, { minLength: 1, maxLength: 6 }), fc.nat(500)), async ([sizes, statedBf]) => {
      const faces = sizes.map(({ lengthNm, widthNm }) => ({ lengthNm, widthNm }));
      const boards = faces.map((face) => ({ ...face, thicknessCall: '5/4' }));
      const called = faces.map((face) => ({ ...face, callRoughNm: 1.25 * NM_PER_INCH }));
      const answer = await ask('delivery', { boards, statedBf, minorPerBoardFoot: 650 });
      expect(answer).toMatchObject(sent(deliveryCheck(called, { boardFeet: statedBf, minorPerBoardFoot: 650 })));
    }));

  test('weight', () =>
    check(fc.tuple(size, species, percent(0, 200)), async ([board, wood, moisturePercent]) => {
      const { pieces } = await ask('weight', { pieces: [{ ...board, species: wood.key, moisturePercent }] });
      expect(pieces[0].pieceKg).toBe(weightKg(board, wood, moisturePercent));
    }));

  test('EMC and moisture by weight', () =>
    check(fc.tuple(air, percent(0.1, 100), percent(0, 100)), async ([place, ovenDryKg, waterKg]) => {
      const emc = emcPercent(place);
      expect((await ask('emc', place)).emcPercent).toBe(emc.ok && emc.value);
      const wetKg = ovenDryKg + waterKg;
      const weighed = moistureByWeight({ wetKg, ovenDryKg });
      expect((await ask('moisture', { wetKg, ovenDryKg })).moisturePercent).toBe(weighed.ok && weighed.value);
    }));

  test('meter', () =>
    check(fc.tuple(percent(6, 30), percent(-40, 100)), async ([readingPercent, woodTemperatureC]) => {
      const thumb = pinCorrectedPercent(readingPercent, woodTemperatureC);
      const fitted = pinFittedPercent(readingPercent, woodTemperatureC);
      expect(await ask('meter', { readingPercent, woodTemperatureC })).toMatchObject({
        correctedPercent: thumb.ok && thumb.value,
        fittedPercent: fitted.ok && fitted.value,
      });
    }));

  test('shrinkage, both ways', () =>
    check(
      fc.tuple(sixteenths(30), species, grain, percent(0, 100), percent(0, 30)),
      async ([sizeNm, wood, sawn, fromPercent, toPercent]) => {
        const shrinkPercent = facesDirections(sawn, wood).widthPercent;
        const move = { species: wood.key, grain: sawn, fromPercent, toPercent };
        const later = sizeAtShrink({ sizeNm, shrinkPercent, fromPercent, toPercent });
        const now = sizeBeforeDrying({ finishedNm: sizeNm, shrinkPercent, fromPercent, toPercent });
        expect((await ask('shrinkage', { ...move, nowNm: sizeNm })).laterNm).toBe(later);
        expect((await ask('shrinkage', { ...move, laterNm: sizeNm })).nowNm).toBe(now);
      },
    ));

  test('movement', () =>
    check(
      fc.tuple(sixteenths(40), species, grain, percent(0, 30), percent(0, 15), percent(15, 30)),
      async ([sizeNm, wood, sawn, madePercent, lowPercent, highPercent]) => {
        const shrink = facesDirections(sawn, wood).widthPercent;
        const season = { madePercent, lowPercent, highPercent };
        const opening = sizeNm + NM_PER_INCH;
        const answer = await ask('movement', {
          species: wood.key,
          grain: sawn,
          ...season,
          widthNm: sizeNm,
          panelOpeningNm: opening,
          drawerOpeningNm: opening,
          slot: { fromFixedNm: sizeNm, screwNm: '3/16 in' },
        });
        expect(answer.width).toEqual(seasonalMovement(sizeNm, shrink, season));
        expect(answer.panel).toMatchObject(sent(panelFit(opening, shrink, season)));
        expect(answer.drawer.heightNm).toBe(drawerHeightNm(opening, shrink, season));
        expect(answer.slotLengthNm).toBe(slotLengthNm(sizeNm, (NM_PER_INCH * 3) / 16, shrink, season));
      },
    ));

  test('drying', () =>
    check(
      fc.tuple(size, species, percent(10, 60), percent(8, 40), fc.integer({ min: 1, max: 28 })),
      async ([{ thicknessNm }, wood, relativeHumidityPercent, moisturePercent, day]) => {
        const place = { temperatureC: 20, relativeHumidityPercent };
        const on = `2026-02-${String(day).padStart(2, '0')}`;
        const readings = [
          { moisturePercent: moisturePercent + 3, on: '2026-01-01', meter: 'pin' as const },
          { moisturePercent, on, meter: 'pin' as const },
        ];
        const question = { thicknessNm, targetPercent: 9, readings, stackedOn: null };
        const own = readyDate({ ...question, air: place, species: wood });
        const body = { ...question, air: place, species: wood.key };
        const answer = await yard.send('POST', '/v1/wood/drying', body);
        expect(answer.status).toBe(own.ok ? 200 : 422);
        if (own.ok) expect(answer.json.forecast).toEqual(sent(own.value));
        else expect(answer.json.detail).toBe(own.help);
      },
    ));

  test('warp', () =>
    check(fc.tuple(size, fc.array(fc.nat(20_000_000), { minLength: 4, maxLength: 4 })), async ([board, forms]) => {
      const [bowNm = 0, crookNm = 0, cupNm = 0, twistNm = 0] = forms;
      const warp = { bowNm, crookNm, cupNm, twistNm };
      const piece = { lengthNm: Math.ceil(board.lengthNm / 3), widthNm: Math.ceil(board.widthNm / 2) };
      const answer = await ask('warp', { ...board, warp, pieces: [piece] });
      const over = warpOver(warp, board, piece);
      expect(answer.pieces[0]).toMatchObject({
        warp: over,
        thicknessNm: flatThicknessNm(board.thicknessNm, over),
        widthNm: straightWidthNm(piece.widthNm, over),
      });
    }));

  test('grade', () =>
    check(
      fc.tuple(fc.integer({ min: 3, max: 14 }), fc.integer({ min: 4, max: 16 }), fc.nat(40)),
      async ([w, l, at]) => {
        const face = { widthNm: w * NM_PER_INCH, lengthNm: l * 12 * NM_PER_INCH };
        const spot = { fromNm: at * NM_PER_INCH, toNm: (at + 2) * NM_PER_INCH, leftNm: 0, rightNm: NM_PER_INCH };
        const defects = [{ kind: 'knot-loose' as const, face: 'a' as const, ...spot }];
        const answer = await ask('grade', { ...face, defects });
        const own = gradeAdvice(face, defects);
        expect(answer).toMatchObject({ grade: own.grade, surfaceMeasureFt2: own.surfaceMeasure });
        expect(answer.better.units).toBe(own.better.units);
        expect(answer.poorer.cuttings).toMatchObject(sent(own.poorer.cuttings));
      },
    ));

  test('glue-up', () =>
    check(
      fc.tuple(size, species, fc.constantFrom(...adhesives), fc.integer({ min: 2, max: 9 })),
      async ([board, wood, glue, staves]) => {
        const facts = { clampForceN: 4000, spreadMinutesPerJoint: 1, clampMinutes: 1, openMinutes: 5 };
        const answer = await ask('glue-up', { ...board, species: wood.key, adhesive: glue.key, staves, ...facts });
        const line = { lengthNm: board.lengthNm, widthNm: board.thicknessNm };
        const lines = Array.from({ length: staves - 1 }, () => line);
        expect(answer.glueG).toEqual(glue.spreadGPerM2.map((spread) => glueMassG(lines, spread)));
        const pressure = clampingPressureKPa(glue, wood.specificGravityGreen);
        const padToLineNm = answer.elements[0].widthNm;
        const clamping = (pressureKPa: number) => ({ pressureKPa, clampForceN: 4000, padToLineNm });
        expect(answer.clamps).toEqual(
          sent(
            pressure && {
              least: clampsNeeded(line, clamping(pressure[0])),
              most: clampsNeeded(line, clamping(pressure[1])),
            },
          ),
        );
        const batches = glueBatches({ joints: staves - 1, ...facts });
        expect(answer.batches.glueLines).toEqual(batches.ok && batches.value);
      },
    ));

  test('rough allowances', () =>
    check(size, async (finished) => {
      expect((await ask('allowances', { finished })).roughByDefault).toEqual(roughSize(finished));
    }));

  test('species, figure by figure', async () => {
    const { species: listed } = (await yard.send('GET', '/v1/species')).json as { species: Species[] };
    for (const { sources: _, ...wood } of speciesBook([]).all) {
      expect(listed.find((row) => row.key === wood.key)).toMatchObject(sent(wood));
    }
  });
});

type YardBound = 'boardsDrying' | 'checkDelivery' | 'gradeBoard' | 'glueUpSheet';

describe('the contract of the arithmetic', () => {
  test('the document holds every route with its body, its answer and its refusals', async () => {
    const { paths } = (await yard.send('GET', '/v1/openapi.json')).json;
    for (const name of Object.keys(woodAnswers) as (keyof typeof woodAnswers)[]) {
      const { method, path, scope, writes } = routes[name];
      expect({ scope, writes }).toEqual({ scope: 'read', writes: false });
      const operation = paths[path][method.toLowerCase()];
      expect(operation.operationId).toBe(name);
      const { content } = operation.responses['200'];
      if (name === 'glueUpSheet') expect(content).toEqual({ 'text/html': { schema: { type: 'string' } } });
      else expect(content['application/json'].schema.properties).toHaveProperty('notes');
      expect(operation.responses).toHaveProperty('422');
      if (method !== 'POST') continue;
      const body = operation.requestBody.content['application/json'].schema;
      expect(body).toMatchObject({ type: 'object', additionalProperties: false });
      expect(Object.keys(body.properties)).toEqual(Object.keys(woodBodies[name as keyof typeof woodBodies].shape));
    }
  });

  const oak = { species: 'white oak' };
  const plank = { lengthNm: '96 in', widthNm: '6 in', thicknessNm: '1 in' };
  const mild = { temperatureF: 70, relativeHumidityPercent: 40 };
  /** What needs boards of a yard is tried in wood-yard.test.ts. */
  const asked: Readonly<Record<Exclude<keyof typeof woodBodies, YardBound>, object>> = {
    woodVolume: { boards: [plank], softwood: [{ nominalThicknessInch: 2, nominalWidthInch: 4, lengthNm: `8'` }] },
    woodDelivery: { boards: [{ lengthNm: `8'`, widthNm: '6 in', thicknessCall: '4/4' }], statedBf: 4 },
    woodWeight: { pieces: [{ ...plank, ...oak, moisturePercent: 8 }] },
    woodAllowances: {},
    woodEmc: mild,
    woodWeighing: { wetBasisPercent: 30, ...oak },
    woodMeter: { readingPercent: 12, woodTemperatureC: 5 },
    woodShrinkage: { ...oak, nowNm: '8 in', fromPercent: 12, toPercent: 8 },
    woodMovement: { ...oak, madePercent: 8, panelOpeningNm: '14 in' },
    woodDrying: { ...oak, thicknessNm: '1 in', air: mild, stackedOn: '2026-03-01' },
    woodWarp: { ...plank, warp: { bowNm: '1/2 in' }, need: { thicknessNm: '3/4 in' } },
    woodGrade: { lengthNm: `8'`, widthNm: '6 in' },
    woodGlueUp: { ...oak, ...plank, staves: 4 },
    dryingReady: { by: '2026-12-01', otherAir: mild },
    glueUpJob: {},
  };

  test.each(Object.entries(asked))(
    '%s answers by its schema, and names where its figures come from',
    async (name, body) => {
      const route = routes[name as keyof typeof asked];
      const jobId = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json.id;
      const answer = await yard.send(route.method, route.path.replace('{id}', jobId), body);
      expect(answer.status, answer.text).toBe(200);
      const read = answers[name as keyof typeof asked].safeParse(answer.json);
      expect(read.error).toBeUndefined();
      expect(answer.json.sources.length).toBeGreaterThan(0);
      for (const { flag, words, document } of answer.json.sources) {
        expect(words.length).toBeGreaterThan(5);
        expect(document === null).toBe(['from-memory', 'common-practice', 'own'].includes(flag));
      }
    },
  );
});
