/**
 * Moisture in wood and in the air around it: what the air will bring wood to (equilibrium moisture content, EMC), which
 * air a moisture content needs, and moisture content by weight.
 */
import { answer, type Result, refuse, requireWithin, within } from './result.ts';

/** The air of a place, in either scale. */
export type Air =
  | { readonly relativeHumidityPercent: number; readonly temperatureC: number }
  | { readonly relativeHumidityPercent: number; readonly temperatureF: number };

export type Temperature = { readonly temperatureC: number } | { readonly temperatureF: number };

export type MoistureFault = 'humidity-out-of-range' | 'temperature-out-of-range' | 'moisture-out-of-range' | 'weight';

interface EmcConstants {
  readonly w: number;
  readonly k: number;
  readonly k1: number;
  readonly k2: number;
}

/** Wood Handbook eq. 4-5 (FPL-GTR-190 and GTR-282, p. 4-3), constants for °F. */
const constantsF = (t: number): EmcConstants => ({
  w: 330 + 0.452 * t + 0.00415 * t * t,
  k: 0.791 + 0.000463 * t - 0.000000844 * t * t,
  k1: 6.34 + 0.000775 * t - 0.0000935 * t * t,
  k2: 1.09 + 0.0284 * t - 0.0000904 * t * t,
});

/** The same for °C. Some copies print the last constant of K ten times too small, which shows above 60 °C. */
const constantsC = (t: number): EmcConstants => ({
  w: 349 + 1.29 * t + 0.0135 * t * t,
  k: 0.805 + 0.000736 * t - 0.00000273 * t * t,
  k1: 6.27 - 0.00938 * t - 0.000303 * t * t,
  k2: 1.91 + 0.0407 * t - 0.000293 * t * t,
});

function emcOf({ w, k, k1, k2 }: EmcConstants, relativeHumidity: number): number {
  const kh = k * relativeHumidity;
  const hydrate = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh);
  return (1800 / w) * (kh / (1 - kh) + hydrate);
}

const TEMPERATURE_C_MIN = -30;
const TEMPERATURE_C_MAX = 100;

function constantsAt(air: Temperature): Result<EmcConstants, MoistureFault> {
  const isC = 'temperatureC' in air;
  const temperatureC = isC ? air.temperatureC : (air.temperatureF - 32) / 1.8;
  if (!within(temperatureC, TEMPERATURE_C_MIN, TEMPERATURE_C_MAX)) {
    return refuse('temperature-out-of-range', 'give an air temperature from −30 to 100 °C (−22 to 212 °F)');
  }
  return answer(isC ? constantsC(air.temperatureC) : constantsF(air.temperatureF));
}

/**
 * What wood comes to in this air, per cent of oven-dry mass. Wood Handbook eq. 4-5; within 0.1 of its Table 4-2 from 30
 * to 210 °F, an extrapolation below. Real wood differs by species and history by 1 to 2 points. 70 °F and 40 % gives
 * 7.7.
 */
export function emcPercent(air: Air): Result<number, MoistureFault> {
  if (!within(air.relativeHumidityPercent, 0, 100)) {
    return refuse('humidity-out-of-range', 'relative humidity is from 0 to 100 %');
  }
  const constants = constantsAt(air);
  return constants.ok ? answer(emcOf(constants.value, air.relativeHumidityPercent / 100)) : constants;
}

/** The relative humidity, per cent, whose EMC at this temperature is `emc`: eq. 4-5 turned round by halving. */
export function relativeHumidityForEmc(emc: number, at: Temperature): Result<number, MoistureFault> {
  const constants = constantsAt(at);
  if (!constants.ok) return constants;
  const most = emcOf(constants.value, 1);
  if (!within(emc, 0, most)) {
    return refuse('moisture-out-of-range', `air can only hold wood from 0 to ${most.toFixed(1)} % at this temperature`);
  }
  let dry = 0;
  let damp = 1;
  for (let step = 0; step < 60; step += 1) {
    const middle = (dry + damp) / 2;
    if (emcOf(constants.value, middle) < emc) dry = middle;
    else damp = middle;
  }
  return answer(((dry + damp) / 2) * 100);
}

/** Moisture content by weight, per cent of oven-dry mass; green wood may pass 100 (Wood Handbook eq. 4-1). */
export function moistureByWeight(weight: { wetKg: number; ovenDryKg: number }): Result<number, MoistureFault> {
  if (!(weight.ovenDryKg > 0) || !(weight.wetKg >= weight.ovenDryKg) || !Number.isFinite(weight.wetKg)) {
    return refuse('weight', 'the oven-dry weight is more than zero and no more than the wet weight');
  }
  return answer(((weight.wetKg - weight.ovenDryKg) / weight.ovenDryKg) * 100);
}

/**
 * Oven-dry weight of a board weighed at a moisture content that a section of it showed (kiln-sample method, from
 * memory).
 */
export function ovenDryKg(weighedKg: number, moisturePercent: number): Result<number, MoistureFault> {
  if (!within(weighedKg, Number.MIN_VALUE, 1e9) || !within(moisturePercent, 0, 300)) {
    return refuse('weight', 'a weight is more than zero and a moisture content from 0 to 300 %');
  }
  return answer(weighedKg / (1 + moisturePercent / 100));
}

/**
 * Per cent of the wet weight (as in firewood and chips) to per cent of the oven-dry weight (as in lumber): 30 % is
 * 42.86 %.
 */
export function dryBasisPercent(wetBasisPercent: number): Result<number, MoistureFault> {
  if (!(wetBasisPercent >= 0 && wetBasisPercent < 100)) {
    return refuse('moisture-out-of-range', 'on the wet basis moisture is from 0 to under 100 %');
  }
  return answer((100 * wetBasisPercent) / (100 - wetBasisPercent));
}

/** Per cent of oven-dry weight to per cent of wet weight. */
export function wetBasisPercent(dryPercent: number): Result<number, MoistureFault> {
  if (!within(dryPercent, 0, 1000)) {
    return refuse('moisture-out-of-range', 'moisture content is zero or more');
  }
  return answer((100 * dryPercent) / (100 + dryPercent));
}

/**
 * Most water that wood of this gravity (oven-dry mass / green volume) can hold, per cent (FPL-GTR-282 eq. 4-3, second
 * hand).
 */
export function moistureMaxPercent(specificGravityGreen: number): number {
  requireWithin('specific gravity', specificGravityGreen, 0.05, 1.5);
  return (100 * (1.54 - specificGravityGreen)) / (1.54 * specificGravityGreen);
}

/** Moisture content at which a log of this gravity just sinks, per cent (FPL-GTR-282 eq. 4-4, second hand). */
export function sinkingMoisturePercent(specificGravityGreen: number): number {
  requireWithin('specific gravity', specificGravityGreen, 0.05, 1.5);
  return (100 * (1 - specificGravityGreen)) / specificGravityGreen;
}

/** What interior wood settles at in the United States, per cent (Wood Handbook Fig. 13-1 as quoted, second hand). */
export const interiorTargets = [
  { region: 'most of the United States', moisturePercent: 8 },
  { region: 'dry Southwest', moisturePercent: 6 },
  { region: 'damp warm coast', moisturePercent: 11 },
] as const;
