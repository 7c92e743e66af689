/** Routes about how much wood there is: species, volume and tally, a delivery, weight, rough allowances. */
import type { Answer } from '../../contract/wire.ts';
import { tape } from '../../planner/cut-words.ts';
import { type DeliveredBoard, type DeliveryCheck, deliveryCheck } from '../../wood/delivery.ts';
import { daysToTwentyPercent } from '../../wood/drying-days.ts';
import { bookWith } from '../../wood/own-wood.ts';
import { allowances, LONG_PART_NM, roughSize, sawKerfs } from '../../wood/rough.ts';
import { softwoodDressed } from '../../wood/softwood.ts';
import { unfiguredWoods } from '../../wood/species-naming.ts';
import { callOf, readThicknessCall, thicknessCalls } from '../../wood/thickness.ts';
import { NM_PER_INCH } from '../../wood/unit.ts';
import { boardFeet, bundleTally, cubicMetres, type Face, surfaceMeasure, tallyBoardFeet } from '../../wood/volume.ts';
import { densityKgPerM3, LIFT_ALONE_KG_MAX, poundsFromKg, weightKg } from '../../wood/weight.ts';
import { type Call, good, type Outcome } from '../serve.ts';
import { eachOf, refusedAt, woodNamed, worked } from './wood-call.ts';
import { cite, gravityOf, shrinkageOf, sourceNote, speciesSources } from './wood-source.ts';

const SPECIES_NOTE = 'These are means: single boards differ by 20 % and more in shrinkage, by about 10 % in weight.';

const listSpecies = worked<'listSpecies'>((_, settings) =>
  good({
    species: bookWith(settings.ownWoods).all.map((wood) => {
      const days = daysToTwentyPercent[wood.key];
      return {
        ...wood,
        alsoCalled: [...wood.alsoCalled],
        airDryingDays: days ? [days[0], days[1]] : null,
        sources: [...speciesSources(wood), ...(days ? [cite.dryingDays] : [])],
      };
    }),
    withoutFigures: unfiguredWoods.map((wood) => ({ ...wood, alsoCalled: [...wood.alsoCalled] })),
    notes: [SPECIES_NOTE],
  }),
);

/** The rough thickness that a call stands for, or a refusal that names the field. */
function callRoughNm(call: string, pointer: string): Outcome<number> {
  const read = readThicknessCall(call);
  return read ? good(read.roughNm) : refusedAt(pointer, 'write the call in quarters, such as 4/4 or 8/4');
}

const copies = <T>(row: T & { readonly count: number }): T[] => Array.from({ length: row.count }, () => row);

type VolumeBody = Call<'woodVolume'>['body'];
type VolumeAnswer = Answer<'woodVolume'>;

function boardVolume(board: VolumeBody['boards'][number], at: number) {
  const call = board.thicknessCall ?? callOf(board.thicknessNm);
  // A board too thin for any call is sold as one inch, like every call under it.
  const rough =
    board.thicknessCall === undefined
      ? good(readThicknessCall(call)?.roughNm ?? board.thicknessNm)
      : callRoughNm(call, `/boards/${at}/thicknessCall`);
  if (!rough.ok) return rough;
  return good({
    board,
    callRoughNm: rough.value,
    row: {
      call,
      dressedTwoSidesNm: thicknessCalls.find((t) => t.call === call)?.dressedTwoSidesNm ?? null,
      surfaceMeasureFt2: surfaceMeasure(board),
      count: board.count,
      volumeBf: boardFeet(board),
      volumeM3: cubicMetres(board),
      tallyBf: tallyBoardFeet({ ...board, callRoughNm: rough.value }),
    },
  });
}

function softwoodVolume(
  row: VolumeBody['softwood'][number],
  at: number,
): Outcome<{ row: VolumeAnswer['softwood'][number]; source: 'second-hand' | 'from-memory' }> {
  const dressed = softwoodDressed(row.nominalThicknessInch, row.nominalWidthInch, row.surfaced);
  if (!dressed) {
    const isWidth = softwoodDressed(2, row.nominalWidthInch) === null;
    return refusedAt(
      `/softwood/${at}/${isWidth ? 'nominalWidthInch' : 'nominalThicknessInch'}`,
      'not a nominal size of the softwood standard; write it in inches, such as 2 and 4',
    );
  }
  const wood = { lengthNm: row.lengthNm, widthNm: dressed.widthNm, thicknessNm: dressed.thicknessNm };
  const nominal = {
    lengthNm: row.lengthNm,
    widthNm: Math.round(row.nominalWidthInch * NM_PER_INCH),
    thicknessNm: Math.round(row.nominalThicknessInch * NM_PER_INCH),
  };
  return good({
    row: {
      thicknessNm: dressed.thicknessNm,
      widthNm: dressed.widthNm,
      count: row.count,
      volumeBf: boardFeet(wood),
      volumeM3: cubicMetres(wood),
      tallyBf: boardFeet(nominal),
    },
    source: dressed.source === 'second-hand' ? 'second-hand' : 'from-memory',
  });
}

const woodVolume = worked<'woodVolume'>((body) => {
  const boards = eachOf(body.boards, boardVolume);
  if (!boards.ok) return boards;
  const softwood = eachOf(body.softwood, softwoodVolume);
  if (!softwood.ok) return softwood;
  const calls = new Map<string, { callRoughNm: number; faces: Face[] }>();
  for (const { board, callRoughNm: roughNm, row } of boards.value) {
    const bundle = calls.get(row.call) ?? { callRoughNm: roughNm, faces: [] };
    bundle.faces.push(...copies(board));
    calls.set(row.call, bundle);
  }
  const rows = [...boards.value, ...softwood.value].map(({ row }) => row);
  const total = (of: 'volumeBf' | 'volumeM3' | 'tallyBf') => rows.reduce((sum, row) => sum + row[of] * row.count, 0);
  return good({
    boards: boards.value.map(({ row }) => row),
    bundles: [...calls].map(([call, bundle]) => {
      const tally = bundleTally(bundle.faces, bundle.callRoughNm);
      return {
        call,
        count: bundle.faces.length,
        surfaceMeasureFt2: tally.surfaceMeasureTotal,
        tallyBf: tally.boardFeet,
      };
    }),
    softwood: softwood.value.map(({ row }) => row),
    total: { volumeBf: total('volumeBf'), volumeM3: total('volumeM3'), tallyBf: total('tallyBf') },
    sources: [
      cite.boardFoot,
      ...(boards.value.length > 0 ? [cite.surfaceMeasure, cite.dressed] : []),
      ...[...new Set(softwood.value.map(({ source }) => source))].map((flag) =>
        sourceNote('dressed softwood sizes', flag, 'American Softwood Lumber Standard PS 20'),
      ),
    ],
    notes: ['tallyBf counts stock under one inch as one inch, as it is sold; volumeBf is the wood really there.'],
  });
});

export function deliveryWords(check: DeliveryCheck): string {
  if (check.overstatedBf === 0) return `The bill agrees: ${check.tallyBf} bf.`;
  const by = Math.abs(check.overstatedBf).toFixed(0);
  const more = check.overstatedBf > 0 ? 'too many' : 'too few';
  return `${check.statedBf} bf are billed, ${check.tallyBf} bf came: ${by} bf ${more} (${Math.abs(check.overstatedPercent).toFixed(2)} %).`;
}

const woodDelivery = worked<'woodDelivery'>((body, settings) => {
  const boards = eachOf(body.boards, (board, at) => {
    const rough = callRoughNm(board.thicknessCall, `/boards/${at}/thicknessCall`);
    return rough.ok ? good(copies({ ...board, callRoughNm: rough.value })) : rough;
  });
  if (!boards.ok) return boards;
  const delivered: DeliveredBoard[] = boards.value.flat();
  const check = deliveryCheck(delivered, { boardFeet: body.statedBf, minorPerBoardFoot: body.minorPerBoardFoot });
  return good({
    ...check,
    currency: settings.currency,
    words: deliveryWords(check),
    sources: [cite.boardFoot, cite.surfaceMeasure, cite.dryTally],
    notes: ['Compare like with like: a tally taken before the kiln reads some per cent more than the dry boards.'],
  });
});

const woodWeight = worked<'woodWeight'>((body, settings) => {
  const pieces = eachOf(body.pieces, (piece, at) => {
    const wood = woodNamed(piece.species, settings, `/pieces/${at}/species`);
    if (!wood.ok) return wood;
    const pieceKg = weightKg(piece, wood.value, piece.moisturePercent);
    return good({
      wood: wood.value,
      row: {
        label: piece.label,
        species: wood.value.name,
        densityKgPerM3: densityKgPerM3(wood.value, piece.moisturePercent),
        pieceKg,
        pieceLb: poundsFromKg(pieceKg),
        totalKg: pieceKg * piece.count,
        liftAlone: pieceKg <= LIFT_ALONE_KG_MAX,
      },
    });
  });
  if (!pieces.ok) return pieces;
  const rows = pieces.value.map(({ row }) => row);
  const totalKg = rows.reduce((sum, row) => sum + row.totalKg, 0);
  const heaviestKg = Math.max(...rows.map((row) => row.pieceKg));
  const payloadKg = body.payloadKg ?? null;
  const tooHeavy = payloadKg !== null && heaviestKg > payloadKg;
  const woods = [...new Set(pieces.value.map(({ wood }) => wood))];
  return good({
    pieces: rows,
    totalKg,
    totalLb: poundsFromKg(totalKg),
    loads: payloadKg === null || tooHeavy ? null : Math.ceil(totalKg / payloadKg),
    sources: [
      ...woods.flatMap((wood) => [gravityOf(wood), shrinkageOf(wood)]),
      cite.gravity,
      cite.density,
      cite.lifting,
    ],
    notes: [
      'Single boards differ by about 10 %; weigh one of a heavy load.',
      ...(rows.some((row) => !row.liftAlone)
        ? ['Some pieces are too heavy for one person: lift them with help or gear.']
        : []),
      ...(tooHeavy ? ['One piece alone is heavier than the payload.'] : []),
    ],
  });
});

const woodAllowances = worked<'woodAllowances'>((body, settings) => {
  const shop = settings.allowances;
  return good({
    allowances: Object.values(allowances).map(({ source, rangeNm, ...row }) => ({
      ...row,
      rangeNm: rangeNm ? [rangeNm[0], rangeNm[1]] : null,
      source: sourceNote(row.operation, source, 'difference of rough and dressed in the hardwood grading table'),
    })),
    kerfs: sawKerfs.map(({ source, rangeNm, ...row }) => ({
      ...row,
      rangeNm: rangeNm ? [rangeNm[0], rangeNm[1]] : null,
      source: sourceNote(row.saw, source),
    })),
    shop: {
      lengthNm: shop.lengthNm,
      widthNm: shop.widthNm,
      thicknessNm: shop.thicknessNm,
      thicknessThickNm: shop.thicknessThickNm,
      glueJointWidthNm: shop.glueJointWidthNm,
      endTrimNm: shop.endTrimNm,
      ripKerfNm: settings.kerf.ripNm,
      crosscutKerfNm: settings.kerf.crosscutNm,
    },
    roughByDefault: body.finished ? roughSize(body.finished) : null,
    sources: [cite.allowances],
    notes: [
      'Measure the blade: a kerf is its plate and its set.',
      `Parts over ${tape(LONG_PART_NM, settings)} are flattened with more to spare.`,
    ],
  });
});

export const woodSizeHandlers = { listSpecies, woodVolume, woodDelivery, woodWeight, woodAllowances };
