/**
 * What a moisture meter shows, what it would show at its own temperature, and how far to trust it. The raw reading is
 * kept; a corrected value stands beside it.
 */
import { answer, type Result, refuse, requireWithin, within } from './result.ts';

export type MeterKind = 'pin' | 'pinless' | 'oven' | 'unknown';

/** Pins read resistance reliably from 6 to 30 %, pinless meters from 4 to 30 % (FPL-GTR-190 p. 13-3). */
const TRUSTED: Readonly<Record<MeterKind, readonly [number, number]>> = {
  pin: [6, 30],
  pinless: [4, 30],
  oven: [0, 300],
  unknown: [6, 30],
};

/** Whether a reading is a measurement or, beyond the meter's range, only "wet" or "very dry". */
export function readingTrust(
  moisturePercent: number,
  meter: MeterKind,
): 'measured' | 'qualitative-wet' | 'qualitative-dry' {
  requireWithin('reading', moisturePercent, 0, 300);
  const [least, most] = TRUSTED[meter];
  if (moisturePercent > most) return 'qualitative-wet';
  return moisturePercent < least ? 'qualitative-dry' : 'measured';
}

export type MeterFault = 'reading-out-of-range' | 'temperature-out-of-range';

/** Meters are mostly calibrated near 70 °F (21 °C); the meter's own sheet says. */
export const CALIBRATION_C = (70 - 32) / 1.8;

/**
 * Pin reading corrected for the wood's temperature by the rule of thumb: 0.5 point for each 10 °F (5.6 °C) from the
 * calibration temperature, added when the wood is colder (FPL-GTR-190 p. 13-3). 12 % at 90 °F is 11 %.
 */
export function pinCorrectedPercent(
  readingPercent: number,
  woodTemperatureC: number,
  calibrationC: number = CALIBRATION_C,
): Result<number, MeterFault> {
  const fault = pinFault(readingPercent, woodTemperatureC);
  if (fault) return fault;
  requireWithin('calibration temperature', calibrationC, -40, 100);
  const tensOfF = ((calibrationC - woodTemperatureC) * 1.8) / 10;
  return answer(Math.max(0, readingPercent + 0.5 * tensOfF));
}

/**
 * The same by a published fit for pin meters calibrated on Douglas-fir, with the species' constants a and b (1 and 0
 * for the calibration species). Form and constants from a code copy of the formula; its attribution is from memory.
 */
export function pinFittedPercent(
  readingPercent: number,
  woodTemperatureC: number,
  species: { readonly a: number; readonly b: number } = { a: 1, b: 0 },
): Result<number, MeterFault> {
  const fault = pinFault(readingPercent, woodTemperatureC);
  if (fault) return fault;
  requireWithin('slope of the fit', species.a, 0.1, 10);
  requireWithin('offset of the fit', species.b, -20, 20);
  const x = woodTemperatureC;
  const atCalibration = (readingPercent + 0.567 - 0.026 * x + 0.000051 * x * x) / (0.881 * 1.0056 ** x);
  return answer((atCalibration - species.b) / species.a);
}

function pinFault(readingPercent: number, woodTemperatureC: number) {
  if (!within(readingPercent, 0, 100)) return refuse('reading-out-of-range' as const, 'a pin meter shows 0 to 100 %');
  if (!within(woodTemperatureC, -40, 100)) {
    return refuse('temperature-out-of-range' as const, 'give the wood’s temperature from −40 to 100 °C');
  }
  return null;
}
