/**
 * When drying stock will be ready: always a span of days, or "not in this air". Moisture is taken to near the air's EMC
 * by a constant share a day, M = E + (M0 − E)·exp(−t/τ) (a simple model, from memory); τ comes from the board's own
 * readings, and without them from a wide table by species.
 */
import { dayAfter, daysBetween } from './day.ts';
import { daysToTwentyPercent, TABLE_END_PERCENT, THICKNESS_POWER } from './drying-days.ts';
import { type MeterKind, readingTrust } from './meter.ts';
import { type Air, emcPercent, type MoistureFault, relativeHumidityForEmc } from './moisture.ts';
import { answer, LENGTH_NM_MAX, type Refused, type Result, refuse, requireWithin, within } from './result.ts';
import type { Species } from './species.ts';
import { NM_PER_INCH } from './unit.ts';

export interface DryingReading {
  readonly moisturePercent: number;
  readonly on: string;
  readonly meter: MeterKind;
}

function requirePercents(fromPercent: number, emc: number): void {
  requireWithin('moisture content', fromPercent, 0, 300);
  requireWithin('EMC of the air', emc, 0, 40);
}

/** Moisture after so many days: 20 % with τ 25 days in 12 % air is 14.41 % after 30 days. */
export function moistureAfter(days: number, fromPercent: number, emc: number, tauDays: number): number {
  requireWithin('days', days, 0, 1e6);
  requirePercents(fromPercent, emc);
  requireWithin('time constant', tauDays, Number.MIN_VALUE, 1e6);
  return emc + (fromPercent - emc) * Math.exp(-days / tauDays);
}

/** Days from one moisture to a lower one; null where the air never brings it there. */
export function daysToReach(targetPercent: number, fromPercent: number, emc: number, tauDays: number): number | null {
  requireWithin('target', targetPercent, 0, 300);
  requirePercents(fromPercent, emc);
  requireWithin('time constant', tauDays, Number.MIN_VALUE, 1e6);
  if (fromPercent <= targetPercent) return 0;
  return targetPercent > emc ? tauDays * Math.log((fromPercent - emc) / (targetPercent - emc)) : null;
}

export interface DryingRate {
  /** Days in which the distance to the air's EMC falls to 37 %. */
  readonly tauDays: number;
  /** Half the width of the likely range, as a share of the days still to go. */
  readonly spread: number;
  readonly used: readonly DryingReading[];
  /** Of those used, the latest. */
  readonly last: DryingReading;
  /** Readings that say only "wet" or "very dry", or that already stand at the air's EMC. */
  readonly ignored: readonly DryingReading[];
}

export type RateFault = 'too-few-readings' | 'not-drying';

/** The range is never narrower than this: boards, seasons and meters differ (common practice, no source). */
const SPREAD_MIN = 0.3;
const SPREAD_MAX = 0.8;
/** Which readings tell how fast a board dries. */
const MEASURED_SPAN = 'from 6 to 30 % and above the air’s EMC';

/**
 * τ by least squares on ln(M − E) over readings of two or more days. Pin readings above 30 % or under 6 % are left out:
 * they don't measure. 14 % to 10.5 % in 21 days, E 7 %, gives 30.30 days.
 */
export function dryingRate(readings: readonly DryingReading[], emc: number): Result<DryingRate, RateFault> {
  for (const { moisturePercent } of readings) requirePercents(moisturePercent, emc);
  const usable = (r: DryingReading) =>
    readingTrust(r.moisturePercent, r.meter) === 'measured' && r.moisturePercent > emc;
  const used = readings.filter((r) => usable(r) && r.moisturePercent <= 30).sort((a, b) => daysBetween(b.on, a.on));
  const ignored = readings.filter((r) => !used.includes(r));
  const first = used[0];
  const last = used.at(-1);
  if (!first || !last || new Set(used.map((r) => r.on)).size < 2) {
    return refuse('too-few-readings', `readings of two different days are needed, ${MEASURED_SPAN}`);
  }
  const points = used.map((r) => ({ t: daysBetween(first.on, r.on), y: Math.log(r.moisturePercent - emc) }));
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const tMean = mean(points.map((p) => p.t));
  const yMean = mean(points.map((p) => p.y));
  const tt = points.reduce((sum, p) => sum + (p.t - tMean) ** 2, 0);
  const slope = points.reduce((sum, p) => sum + (p.t - tMean) * (p.y - yMean), 0) / tt;
  if (!(slope < 0)) {
    return refuse('not-drying', 'the readings do not fall; check the meter, or the stack’s air');
  }
  const misfit = points.reduce((sum, p) => sum + (p.y - yMean - slope * (p.t - tMean)) ** 2, 0);
  const slopeError = points.length > 2 ? Math.sqrt(misfit / (points.length - 2) / tt) : 0;
  const spread = Math.min(SPREAD_MAX, Math.max(SPREAD_MIN, (2 * slopeError) / -slope));
  return answer({ tauDays: -1 / slope, spread, used, last, ignored });
}

export interface DryingQuestion {
  /** In any order; the last day's reading is where the board stands. */
  readonly readings: readonly DryingReading[];
  readonly air: Air;
  readonly targetPercent: number;
  readonly species: Pick<Species, 'key' | 'name' | 'greenMoisturePercent'> | null;
  readonly thicknessNm: number;
  /** When it was stacked green: needed where there is no reading. */
  readonly stackedOn: string | null;
}

export type ReadyDate =
  | { readonly kind: 'ready'; readonly on: string; readonly emcPercent: number }
  | {
      readonly kind: 'range';
      readonly earliestOn: string;
      readonly likelyOn: string;
      readonly latestOn: string;
      readonly emcPercent: number;
      readonly basis: 'readings' | 'species-table';
      /** Where the days are counted from: the last reading used, or green when stacked. */
      readonly from: { readonly moisturePercent: number; readonly on: string };
      /** What the dates rest on, for people. */
      readonly note: string;
    }
  | {
      readonly kind: 'never';
      readonly emcPercent: number;
      /** The air must stay drier than this at the same temperature. */
      readonly relativeHumidityBelowPercent: number;
      readonly note: string;
    };

export type ReadyFault = MoistureFault | RateFault | 'no-start' | 'not-in-drying-table' | 'target-out-of-range';

/**
 * The days between which the board should reach its target. Ready when the last reading is at the target; never when
 * the air's EMC is not below it, with the humidity that would do.
 */
export function readyDate(question: DryingQuestion): Result<ReadyDate, ReadyFault> {
  const { air, targetPercent } = question;
  if (!within(targetPercent, 2, 30)) return refuse('target-out-of-range', 'a target is from 2 to 30 %');
  const emc = emcPercent(air);
  if (!emc.ok) return emc;
  if (question.readings.some((r) => !within(r.moisturePercent, 0, 300))) {
    return refuse('moisture-out-of-range', 'a reading is from 0 to 300 %');
  }
  requireWithin('thickness', question.thicknessNm, 1, LENGTH_NM_MAX);
  const readings = [...question.readings].sort((a, b) => daysBetween(b.on, a.on));
  const last = readings.at(-1);
  if (
    last &&
    readingTrust(last.moisturePercent, last.meter) !== 'qualitative-wet' &&
    last.moisturePercent <= targetPercent
  ) {
    return answer({ kind: 'ready', on: last.on, emcPercent: emc.value });
  }
  if (targetPercent <= emc.value) return never(air, targetPercent, emc.value);
  const rate = dryingRate(readings, emc.value);
  if (!rate.ok) return rate.why === 'not-drying' ? rate : readyByTable(question, readings, emc.value);
  const from = rate.value.last;
  const days = daysToReach(targetPercent, from.moisturePercent, emc.value, rate.value.tauDays) ?? 0;
  return answer({
    kind: 'range',
    earliestOn: dayAfter(from.on, days * (1 - rate.value.spread)),
    likelyOn: dayAfter(from.on, days),
    latestOn: dayAfter(from.on, days * (1 + rate.value.spread)),
    emcPercent: emc.value,
    basis: 'readings',
    from: { moisturePercent: from.moisturePercent, on: from.on },
    note: `from ${rate.value.used.length} readings of this stock; measure again as it dries`,
  });
}

function never(air: Air, targetPercent: number, emc: number): Result<ReadyDate, MoistureFault> {
  const humidity = relativeHumidityForEmc(targetPercent, air);
  if (!humidity.ok) return humidity;
  return answer({
    kind: 'never',
    emcPercent: emc,
    relativeHumidityBelowPercent: humidity.value,
    note:
      `this air only brings wood to ${emc.toFixed(1)} %; it needs a kiln or ` +
      `a heated room under ${Math.floor(humidity.value)} % relative humidity`,
  });
}

function readyByTable(
  question: DryingQuestion,
  readings: readonly DryingReading[],
  emc: number,
): Result<ReadyDate, ReadyFault> {
  const { species } = question;
  const days = species ? daysToTwentyPercent[species.key] : undefined;
  const green = species?.greenMoisturePercent;
  if (!species || !days || green === null || green === undefined) {
    return refuse(
      'not-in-drying-table',
      'take two readings some weeks apart; no drying times are listed for this wood',
    );
  }
  const from = startOf(question, readings, Math.max(green, TABLE_END_PERCENT + 1));
  if (!from.ok) return from;
  if (emc >= TABLE_END_PERCENT)
    return refuse('not-drying', 'in air this damp no drying times are listed; take readings');
  const thicker = (question.thicknessNm / NM_PER_INCH) ** THICKNESS_POWER;
  const perLog = Math.log((Math.max(green, TABLE_END_PERCENT + 1) - emc) / (TABLE_END_PERCENT - emc));
  const daysFor = (tableDays: number) =>
    daysToReach(question.targetPercent, from.value.moisturePercent, emc, (tableDays * thicker) / perLog) ?? 0;
  return answer({
    kind: 'range',
    earliestOn: dayAfter(from.value.on, daysFor(days[0])),
    likelyOn: dayAfter(from.value.on, daysFor(Math.sqrt(days[0] * days[1]))),
    latestOn: dayAfter(from.value.on, daysFor(days[1])),
    emcPercent: emc,
    basis: 'species-table',
    from: from.value,
    note: tableNote(species.name, readings.length),
  });
}

/** What readings there are, and why they give no rate of drying yet. */
function tableNote(wood: string, readingCount: number): string {
  const [what, next] =
    readingCount === 0
      ? ['no readings to go by', 'two readings will narrow it']
      : readingCount === 1
        ? ['one reading does not tell how fast it dries', 'another some weeks later will narrow it']
        : [
            `its ${readingCount} readings do not tell how fast it dries`,
            `two of different days, ${MEASURED_SPAN}, will narrow it`,
          ];
  return `${what}: a wide range for ${wood} of this thickness, from memory; ${next}`;
}

/** One trusted reading, or green on the day it was stacked. */
function startOf(
  question: DryingQuestion,
  readings: readonly DryingReading[],
  greenPercent: number,
): { readonly ok: true; readonly value: { moisturePercent: number; on: string } } | Refused<'no-start'> {
  const trusted = readings.findLast((r) => readingTrust(r.moisturePercent, r.meter) === 'measured');
  if (trusted) return answer({ moisturePercent: trusted.moisturePercent, on: trusted.on });
  const on = question.stackedOn ?? readings.at(-1)?.on;
  return on === undefined || on === null
    ? refuse('no-start', 'say when it was stacked, or take a reading')
    : answer({ moisturePercent: greenPercent, on });
}

/** The first day on which a piece roughed on `day` has rested so many days. */
export function restUntil(day: string, days: number): string {
  requireWithin('days of rest', days, 0, 3650);
  return dayAfter(day, days);
}
