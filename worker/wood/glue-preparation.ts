/**
 * What to see to before the glue is opened, from what is known of the pieces. Figures without a source are common
 * practice.
 */
import type { Adhesive } from './adhesive.ts';
import { requireWithin } from './result.ts';
import type { SourceFlag } from './source.ts';

export interface PreparationItem {
  readonly check: string;
  /** Whether what is known meets it; null where only the shop can tell. */
  readonly met: boolean | null;
  readonly detail: string;
  readonly source: SourceFlag;
}

export interface GlueUpFacts {
  /** Last corrected reading of each piece, per cent. */
  readonly moisturePercents: readonly number[];
  /** Of the room and the wood. */
  readonly temperatureC: number | null;
  /** The wettest that the shop cuts layers of this part at, per cent. */
  readonly limitPercent: number;
  readonly hoursSincePlaned: number | null;
}

/** Furniture lumber is delivered at 6 to 8 % (FPL-GTR-190 Ch. 13, read). A shop that cuts its layers wetter glues them so. */
const MOISTURE_PERCENT = [6, 8] as const;
/** Neighbours differ by at most 2 points: common practice, no source. */
const SPREAD_POINTS_MAX = 2;
/** Least for most white and yellow glue, from memory. */
const TEMPERATURE_C_MIN = 10;
const HOURS_SINCE_PLANED_MAX = 24;

export function gluePreparation(adhesive: Adhesive, facts: GlueUpFacts): readonly PreparationItem[] {
  for (const percent of facts.moisturePercents) requireWithin('moisture content', percent, 0, 300);
  requireWithin('temperature', facts.temperatureC ?? 0, -50, 100);
  requireWithin('hours since planed', facts.hoursSincePlaned ?? 0, 0, 1e6);
  const known = facts.moisturePercents.length > 0;
  const driest = Math.min(...facts.moisturePercents);
  const wettest = Math.max(...facts.moisturePercents);
  const [least, delivered] = MOISTURE_PERCENT;
  const most = Math.max(delivered, facts.limitPercent);
  return [
    {
      check: `Wood at ${least} to ${most} %`,
      met: known ? driest >= least && wettest <= most : null,
      detail: known ? `${driest} to ${wettest} %` : 'take a reading of each piece',
      source: most === delivered ? 'read' : 'common-practice',
    },
    {
      check: `Pieces within ${SPREAD_POINTS_MAX} points of each other`,
      met: known ? wettest - driest <= SPREAD_POINTS_MAX : null,
      detail: known ? `${(wettest - driest).toFixed(1)} points apart` : 'take a reading of each piece',
      source: 'common-practice',
    },
    {
      check: `Room and wood at ${TEMPERATURE_C_MIN} °C (50 °F) or more`,
      met: facts.temperatureC === null ? null : facts.temperatureC >= TEMPERATURE_C_MIN,
      detail:
        facts.temperatureC === null ? 'measure it' : `${facts.temperatureC} °C; the glue’s sheet has the last word`,
      source: 'from-memory',
    },
    {
      check: `Surfaces planed within ${HOURS_SINCE_PLANED_MAX} hours, with sharp knives`,
      met: facts.hoursSincePlaned === null ? null : facts.hoursSincePlaned <= HOURS_SINCE_PLANED_MAX,
      detail: 'crushed or burnished surfaces bond badly',
      source: 'from-memory',
    },
    {
      check: 'Clamped dry once: joints closed by hand, cauls and pads laid out, clamps set',
      met: null,
      detail: 'if a joint needs force to close, plane it again',
      source: 'common-practice',
    },
    {
      check: 'The glue maker’s sheet read: spread, open time, pressure, hours in clamps',
      met: null,
      detail: adhesive.caution,
      source: 'common-practice',
    },
    {
      check: 'Grain along the same way in every piece',
      met: null,
      detail: 'never glue wide boards across the grain; the seasons part them',
      source: 'common-practice',
    },
  ];
}
