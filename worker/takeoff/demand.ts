/** A kind of blank of one part as the stock must give it. */
import type { Part } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import { cubicMetres } from '../wood/volume.ts';
import { qualityAsked, tierOf } from './asks.ts';
import { blankFor } from './blank.ts';
import { callFor } from './call.ts';
import { moistureLimitPercent } from './dry-enough.ts';
import type { ElementKind } from './elements.ts';
import type { DemandBlank } from './want.ts';
import type { Wood } from './which-wood.ts';

/** All copies of it; sized for the wettest wood that it may be cut from. */
export function demandBlank(part: Part, kind: ElementKind, wood: Wood, settings: Settings): DemandBlank {
  const limitPercent = moistureLimitPercent(part, kind.what, settings);
  const call = callFor(kind.finished.thicknessNm, settings);
  const rough = blankFor(kind.finished, settings, {
    species: wood.species,
    moisturePercent: limitPercent,
    grain: part.grain,
  });
  const count = part.quantity * kind.elements.length;
  const grossEach = cubicMetres({ ...rough, thicknessNm: Math.max(call.roughNm, rough.thicknessNm) });
  return {
    finished: kind.finished,
    rough,
    grain: part.grain,
    quality: qualityAsked(part, kind.what),
    tier: tierOf(part, kind.what),
    count,
    limitPercent,
    takesUnread: part.use !== 'critical',
    grossM3: count * grossEach * settings.wasteFactor,
  };
}
