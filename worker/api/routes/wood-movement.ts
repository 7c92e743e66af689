/** The route of seasonal movement: panels, grooves, drawers and slots, and the year as a plot. */
import type { Settings } from '../../contract/settings.ts';
import type { Plot } from '../../contract/wood-figure.ts';
import {
  DRAWER_PLAY_NM,
  drawerHeightNm,
  INTERIOR_RANGE_PERCENT,
  panelFit,
  type Season,
  seasonalMovement,
  slotLengthNm,
} from '../../wood/movement.ts';
import { airYearPercents, evenYearPercents, sizesThroughYear } from '../../wood/movement-year.ts';
import { facesDirections } from '../../wood/shrinkage.ts';
import { plotDrawing } from '../cards/plot-drawing.ts';
import { type Call, good, type Outcome } from '../serve.ts';
import { fieldOf, refusedAt, woodNamed, worked } from './wood-call.ts';
import { yearPlot } from './wood-plot.ts';
import { cite, shrinkageOf } from './wood-source.ts';

type MovementBody = Call<'woodMovement'>['body'];

/** The year's moisture: what was sent, or the country's interiors. */
function yearOf(body: MovementBody): Outcome<{ season: Season; monthPercents: readonly number[] }> {
  if (body.monthAirs) {
    const percents = fieldOf('/monthAirs', airYearPercents(body.monthAirs));
    if (!percents.ok) return percents;
    const season = {
      madePercent: body.madePercent,
      lowPercent: Math.min(...percents.value),
      highPercent: Math.max(...percents.value),
    };
    return good({ season, monthPercents: percents.value });
  }
  const lowPercent = body.lowPercent ?? INTERIOR_RANGE_PERCENT.lowPercent;
  const highPercent = body.highPercent ?? INTERIOR_RANGE_PERCENT.highPercent;
  return good({
    season: { madePercent: body.madePercent, lowPercent, highPercent },
    monthPercents: evenYearPercents(lowPercent, highPercent),
  });
}

function movementPlot(
  sizes: readonly (readonly [what: string, sizeNm: number | undefined])[],
  shrinkPercent: number,
  year: { season: Season; monthPercents: readonly number[] },
  settings: Settings,
) {
  const shown = sizes.find(([, sizeNm]) => sizeNm !== undefined);
  if (shown?.[1] === undefined) return null;
  const made = { madePercent: year.season.madePercent, monthPercents: year.monthPercents };
  return yearPlot(shown[0], shown[1], sizesThroughYear(shown[1], shrinkPercent, made), settings);
}

const drawnYear = (year: Plot | null, settings: Settings) => ({
  year,
  drawing: year && plotDrawing(year, settings),
});

const woodMovement = worked<'woodMovement'>((body, settings) => {
  const wood = woodNamed(body.species, settings);
  if (!wood.ok) return wood;
  const year = yearOf(body);
  if (!year.ok) return year;
  const { season } = year.value;
  const shrinkPercent = facesDirections(body.grain, wood.value).widthPercent;
  const { widthNm, panelOpeningNm, drawerOpeningNm, slot } = body;
  if (drawerOpeningNm !== undefined && drawerOpeningNm <= 2 * DRAWER_PLAY_NM) {
    return refusedAt('/drawerOpeningNm', 'too low for any drawer; is the unit right?');
  }
  const fit = panelOpeningNm === undefined ? null : panelFit(panelOpeningNm, shrinkPercent, season);
  const drawerNm = drawerOpeningNm === undefined ? undefined : drawerHeightNm(drawerOpeningNm, shrinkPercent, season);
  const moved = (sizeNm: number) => seasonalMovement(sizeNm, shrinkPercent, season);
  return good({
    season,
    shrinkPercent,
    width: widthNm === undefined ? null : moved(widthNm),
    panel: fit && { ...fit, moves: moved(fit.panelNm) },
    drawer:
      drawerNm === undefined || drawerOpeningNm === undefined
        ? null
        : { heightNm: drawerNm, gapWhenMadeNm: drawerOpeningNm - drawerNm },
    slotLengthNm: slot ? slotLengthNm(slot.fromFixedNm, slot.screwNm, shrinkPercent, season) : null,
    ...drawnYear(
      movementPlot(
        [
          ['Width', widthNm],
          ['Panel', fit?.panelNm],
          ['Drawer', drawerNm],
          ['Half of the top', slot?.fromFixedNm],
        ],
        shrinkPercent,
        year.value,
        settings,
      ),
      settings,
    ),
    sources: [
      shrinkageOf(wood.value),
      cite.shrinkage,
      ...(body.monthAirs ? [cite.emc] : [cite.evenYear]),
      ...(body.monthAirs || body.lowPercent !== undefined ? [] : [cite.interiorRange]),
      ...(fit || drawerNm !== undefined ? [cite.grooveAndPlay] : []),
      ...(body.grain === 'rift' ? [cite.ringAngle] : []),
    ],
    notes: [
      'Thick or finished wood follows the air late and swings less; the figures are on the safe side.',
      ...(body.grain === 'unknown' ? ['The grain is not known, so the less favourable direction is taken.'] : []),
      ...(fit ? ['Pin the panel in the middle, so that it stays centred; do not glue it into the grooves.'] : []),
    ],
  });
});

export const woodMovementHandlers = { woodMovement };
