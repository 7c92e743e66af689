/** How dry a board is, and how dry a part wants its wood at the saw. */
import type { Reading } from '../contract/board.ts';
import type { Part } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import { latestReading } from '../wood/reading.ts';
import type { Element } from './elements.ts';

type Read = Pick<Reading, 'moisturePercent' | 'on'>;

export const latestMoisturePercent = (readings: readonly Read[]): number | null =>
  latestReading(readings)?.moisturePercent ?? null;

/** Highest moisture content that a piece of this part may be cut at: its own figure, or the shop's for its use. */
export function moistureLimitPercent(
  part: Pick<Part, 'moisturePercentMax' | 'use'>,
  what: Element['what'],
  settings: Pick<Settings, 'moistureMax'>,
): number {
  if (part.moisturePercentMax !== null) return part.moisturePercentMax;
  const byUse = settings.moistureMax[part.use];
  // A layer is glued soon after it is cut: it may not be wetter than its part, whatever it is used for.
  return what === 'solid' ? byUse : Math.min(byUse, settings.moistureMax.layer);
}

/** Whether wood with this reading may be cut for the part. Without a reading critical parts are refused. */
export function dryEnough(moisturePercent: number | null, limitPercent: number, use: Part['use']): boolean {
  return moisturePercent === null ? use !== 'critical' : moisturePercent <= limitPercent;
}
