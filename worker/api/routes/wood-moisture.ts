/** Routes about moisture: the air's EMC, weighing, meters, and the size of wood at another moisture content. */
import { CALIBRATION_C, pinCorrectedPercent, pinFittedPercent, readingTrust } from '../../wood/meter.ts';
import {
  dryBasisPercent,
  emcPercent,
  interiorTargets,
  moistureByWeight,
  moistureMaxPercent,
  ovenDryKg,
  relativeHumidityForEmc,
  sinkingMoisturePercent,
  type Temperature,
} from '../../wood/moisture.ts';
import {
  facesDirections,
  SHRINK_LONGITUDINAL_PERCENT,
  shrinkAtRingAngle,
  sizeAtShrink,
  sizeBeforeDrying,
  sizeByCoefficient,
} from '../../wood/shrinkage.ts';
import type { Species } from '../../wood/species.ts';
import { type Call, good } from '../serve.ts';
import { fieldOf, refusedAt, woodNamed, worked } from './wood-call.ts';
import { cite, coefficientsOf, gravityOf, shrinkageOf } from './wood-source.ts';

const woodEmc = worked<'woodEmc'>((body) => {
  const temperature: Temperature =
    body.temperatureC === undefined
      ? { temperatureF: body.temperatureF ?? Number.NaN }
      : { temperatureC: body.temperatureC };
  const humidity =
    body.relativeHumidityPercent === undefined
      ? fieldOf('/emcPercent', relativeHumidityForEmc(body.emcPercent ?? Number.NaN, temperature))
      : good(body.relativeHumidityPercent);
  if (!humidity.ok) return humidity;
  const emc =
    body.emcPercent === undefined
      ? fieldOf('/temperatureC', emcPercent({ ...temperature, relativeHumidityPercent: humidity.value }))
      : good(body.emcPercent);
  if (!emc.ok) return emc;
  return good({
    emcPercent: emc.value,
    relativeHumidityPercent: humidity.value,
    interiorTargets: interiorTargets.map((target) => ({ ...target })),
    sources: [cite.emc, cite.interior],
    notes: ['Real wood differs by species and history by 1 to 2 points.'],
  });
});

const woodWeighing = worked<'woodWeighing'>((body, settings) => {
  const wood = body.species === undefined ? good(null) : woodNamed(body.species, settings);
  if (!wood.ok) return wood;
  const { wetKg, ovenDryKg: dryKg, sample } = body;
  const byWeight =
    wetKg === undefined || dryKg === undefined
      ? good(null)
      : fieldOf('/wetKg', moistureByWeight({ wetKg, ovenDryKg: dryKg }));
  if (!byWeight.ok) return byWeight;
  const sampled = sample === undefined ? good(null) : sampleNow(sample);
  if (!sampled.ok) return sampled;
  const dryBasis =
    body.wetBasisPercent === undefined
      ? good(null)
      : fieldOf('/wetBasisPercent', dryBasisPercent(body.wetBasisPercent));
  if (!dryBasis.ok) return dryBasis;
  return good({
    moisturePercent: byWeight.value,
    sample: sampled.value,
    dryBasisPercent: dryBasis.value,
    moistureMaxPercent: wood.value && moistureMaxPercent(wood.value.specificGravityGreen),
    sinkingMoisturePercent: wood.value && sinkingMoisturePercent(wood.value.specificGravityGreen),
    sources: [
      cite.byWeight,
      ...(sample ? [cite.kilnSample] : []),
      ...(body.wetBasisPercent === undefined ? [] : [cite.wetBasis]),
      ...(wood.value ? [gravityOf(wood.value), cite.moistureMax] : []),
    ],
    notes: ['Per cent of the oven-dry weight; green wood may pass 100.'],
  });
});

function sampleNow(sample: { weighedKg: number; moisturePercent: number; nowKg: number }) {
  const dry = fieldOf('/sample/weighedKg', ovenDryKg(sample.weighedKg, sample.moisturePercent));
  if (!dry.ok) return dry;
  if (sample.nowKg < dry.value) {
    return refusedAt('/sample/nowKg', `lighter than this board oven-dry (${dry.value.toFixed(3)} kg); weigh it again`);
  }
  const now = fieldOf('/sample/nowKg', moistureByWeight({ wetKg: sample.nowKg, ovenDryKg: dry.value }));
  return now.ok ? good({ ovenDryKg: dry.value, moisturePercent: now.value }) : now;
}

const TRUST_WORDS = {
  measured: 'within the range that this kind of meter measures',
  'qualitative-wet': 'above what this kind of meter measures: it only says wet',
  'qualitative-dry': 'below what this kind of meter measures: it only says very dry',
} as const;

const woodMeter = worked<'woodMeter'>((body) => {
  const trust = readingTrust(body.readingPercent, body.meter);
  const woodC =
    body.woodTemperatureC ?? (body.woodTemperatureF === undefined ? null : (body.woodTemperatureF - 32) / 1.8);
  const correctable = body.meter === 'pin' && trust === 'measured' && woodC !== null;
  const thumb = correctable
    ? fieldOf('/readingPercent', pinCorrectedPercent(body.readingPercent, woodC, body.calibrationC ?? CALIBRATION_C))
    : good(null);
  if (!thumb.ok) return thumb;
  const fitted = correctable
    ? fieldOf('/readingPercent', pinFittedPercent(body.readingPercent, woodC, body.fit))
    : good(null);
  if (!fitted.ok) return fitted;
  const notes = [
    ...(body.meter === 'pin' && woodC === null ? ['Send the wood’s temperature to correct a pin reading.'] : []),
    ...(body.meter === 'pinless' ? ['Pinless meters need the wood’s gravity set, not a temperature.'] : []),
    ...(correctable && body.fit === undefined
      ? ['The fit is for Douglas-fir; send your wood’s constants from the meter’s sheet.']
      : []),
    ...(correctable ? ['The rule and the fit differ; the meter’s own sheet has the last word.'] : []),
  ];
  return good({
    readingPercent: body.readingPercent,
    trust,
    trustWords: TRUST_WORDS[trust],
    correctedPercent: thumb.value,
    fittedPercent: fitted.value,
    sources: [cite.meterRange, ...(correctable ? [cite.meterRule, cite.meterFit] : [])],
    notes,
  });
});

type ShrinkageBody = Call<'woodShrinkage'>['body'];

/** Shrinkage along one side of the piece, per cent from green to oven-dry. */
function shrinkOf(body: Pick<ShrinkageBody, 'axis' | 'grain' | 'ringDegrees'>, wood: Species): number {
  if (body.axis === 'length') return SHRINK_LONGITUDINAL_PERCENT;
  const faces =
    body.ringDegrees === undefined ? facesDirections(body.grain, wood) : shrinkAtRingAngle(wood, body.ringDegrees);
  return body.axis === 'width' ? faces.widthPercent : faces.thicknessPercent;
}

/** The coefficient of the side, where it lies wholly along or across the rings. */
function coefficientFor(body: ShrinkageBody, wood: Species): number | null {
  const degrees = body.ringDegrees ?? { flat: 0, quarter: 90, rift: null, unknown: null }[body.grain];
  if (body.axis === 'length' || (degrees !== 0 && degrees !== 90)) return null;
  const tangential = (degrees === 0) === (body.axis === 'width');
  return tangential ? wood.coefficientTangential : wood.coefficientRadial;
}

const COEFFICIENT_PERCENT = { least: 6, most: 14 };

const woodShrinkage = worked<'woodShrinkage'>((body, settings) => {
  const wood = woodNamed(body.species, settings);
  if (!wood.ok) return wood;
  const shrinkPercent = shrinkOf(body, wood.value);
  const { fromPercent, toPercent } = body;
  const nowNm =
    body.nowNm ?? sizeBeforeDrying({ finishedNm: body.laterNm ?? 1, shrinkPercent, fromPercent, toPercent });
  const laterNm = body.laterNm ?? sizeAtShrink({ sizeNm: nowNm, shrinkPercent, fromPercent, toPercent });
  const coefficient = coefficientFor(body, wood.value);
  const { least, most } = COEFFICIENT_PERCENT;
  const within = [fromPercent, toPercent].every((percent) => percent >= least && percent <= most);
  const byCoefficient =
    coefficient !== null && within ? sizeByCoefficient({ sizeNm: nowNm, coefficient, fromPercent, toPercent }) : null;
  const angled = body.ringDegrees !== undefined || body.grain === 'rift';
  return good({
    nowNm,
    laterNm,
    changeNm: laterNm - nowNm,
    shrinkPercent,
    laterByCoefficientNm: byCoefficient,
    sources: [
      body.axis === 'length' ? cite.longitudinal : shrinkageOf(wood.value),
      cite.shrinkage,
      cite.partial,
      ...(angled && body.axis !== 'length' ? [cite.ringAngle] : []),
      ...(byCoefficient === null ? [] : [coefficientsOf(wood.value), cite.coefficient]),
    ],
    notes: [
      'Above 30 % wood does not move. Single boards differ from the mean by 20 % and more.',
      ...(body.grain === 'unknown' && body.ringDegrees === undefined && body.axis !== 'length'
        ? ['The grain is not known, so the less favourable direction is taken.']
        : []),
    ],
  });
});

export const woodMoistureHandlers = { woodEmc, woodWeighing, woodMeter, woodShrinkage };
