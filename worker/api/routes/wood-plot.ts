/** Plots as data: a board's drying, and a finished size through the year. */
import type { Reading } from '../../contract/board.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Forecast } from '../../contract/wood-drying.ts';
import type { Plot } from '../../contract/wood-figure.ts';
import { tape } from '../../planner/cut-words.ts';
import { dayNumber, dayOfNumber, daysBetween, dayText, MONTHS } from '../../wood/day.ts';
import type { ReadyDate } from '../../wood/drying.ts';
import { dryingCurve } from '../../wood/drying-curve.ts';
import { latestReading } from '../../wood/reading.ts';

const TICKS = 4;

/** Days spread evenly over the plot, each named by its date. */
function dayTicks(startsOn: string, span: number): Plot['x']['ticks'] {
  const steps = Math.min(TICKS, Math.max(1, span));
  return [...new Set(Array.from({ length: steps + 1 }, (_, at) => Math.round((span * at) / steps)))].map((x) => ({
    x,
    text: dayOfNumber(dayNumber(startsOn) + x),
  }));
}

const percentText = (percent: number) => `${percent.toFixed(1)} %`;

/** Readings alone: no forecast could be made. */
export interface NoForecast {
  readonly kind: 'none';
  /** null where the air is not known. */
  readonly emcPercent: number | null;
}

/** Readings, the likely curve within its range, the target and the air's EMC; null where there is nothing to draw. */
export function dryingPlot(
  targetPercent: number,
  readings: readonly Reading[],
  forecast: (Forecast & ReadyDate) | NoForecast,
): Plot | null {
  const curve = forecast.kind === 'range' ? dryingCurve(targetPercent, forecast) : [];
  const days = [...readings.map((r) => r.on), ...curve.map((day) => day.on)].sort();
  const [startsOn, endsOn] = [days[0], days.at(-1)];
  if (startsOn === undefined || endsOn === undefined) return null;
  const x = (on: string) => daysBetween(startsOn, on);
  const span = Math.max(1, x(endsOn));
  const highest = Math.max(
    targetPercent,
    ...readings.map((r) => r.moisturePercent),
    ...curve.map((day) => day.highPercent),
  );
  const last = latestReading(readings);
  const stands = last ? `${percentText(last.moisturePercent)} on ${dayText(last.on)}. ` : '';
  return {
    title: `Drying to ${percentText(targetPercent)}`,
    description: (stands + (forecast.kind === 'none' ? '' : forecastWords(forecast))).trim(),
    x: { label: 'day', from: 0, to: span, startsOn, ticks: dayTicks(startsOn, span) },
    y: { label: 'moisture content', unit: '%', from: 0, to: Math.ceil(highest / 5) * 5 },
    bands:
      curve.length === 0
        ? []
        : [
            {
              text: 'likely range',
              points: curve.map((day) => ({ x: x(day.on), low: day.lowPercent, high: day.highPercent })),
            },
          ],
    curves:
      curve.length === 0
        ? []
        : [{ text: 'likely', points: curve.map((day) => ({ x: x(day.on), y: day.likelyPercent })) }],
    lines: [
      { text: `target ${percentText(targetPercent)}`, y: targetPercent },
      ...(forecast.emcPercent === null
        ? []
        : [{ text: `air brings it to ${percentText(forecast.emcPercent)}`, y: forecast.emcPercent }]),
    ],
    marks: readings.map((r) => ({
      text: `${percentText(r.moisturePercent)}, ${dayText(r.on)}`,
      x: x(r.on),
      y: r.moisturePercent,
    })),
  };
}

export function forecastWords(forecast: ReadyDate): string {
  switch (forecast.kind) {
    case 'ready':
      return `At its target since ${dayText(forecast.on)}.`;
    case 'range':
      return `Likely ready on ${dayText(forecast.likelyOn)}, between ${dayText(forecast.earliestOn)} and ${dayText(forecast.latestOn)}: ${forecast.note}.`;
    case 'never':
      return `Never ready: ${forecast.note}.`;
  }
}

/** A size month by month, with the size as made as a line. Twelve sizes, from January. */
export function yearPlot(what: string, madeNm: number, sizesNm: readonly number[], settings: Settings): Plot {
  const least = Math.min(madeNm, ...sizesNm);
  const most = Math.max(madeNm, ...sizesNm);
  const month = (nm: number) => MONTHS[sizesNm.indexOf(nm)] ?? '';
  const margin = Math.max(1, Math.round((most - least) / 10));
  return {
    title: `${what} through the year`,
    description: `${tape(madeNm, settings)} when made; narrowest ${tape(Math.min(...sizesNm), settings)} in ${month(Math.min(...sizesNm))}, widest ${tape(Math.max(...sizesNm), settings)} in ${month(Math.max(...sizesNm))}.`,
    x: { label: 'month', from: 0, to: 11, startsOn: null, ticks: MONTHS.map((text, x) => ({ x, text })) },
    y: { label: 'across the grain', unit: 'nm', from: least - margin, to: most + margin },
    bands: [],
    curves: [{ text: what, points: sizesNm.map((y, x) => ({ x, y })) }],
    lines: [{ text: `made at ${tape(madeNm, settings)}`, y: madeNm }],
    marks: [],
  };
}
