/** What a user should know about how a plan was made, in words. */

import type { Layout } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { alongStyle, tapeStepNm, tapeStyle } from '../takeoff/grid.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { lengthText } from '../wood/length.ts';
import { sharedSettings } from './saw-shared.ts';
import { TIER_WORDS } from './shop-wanted.ts';

/** boardsMost: how many boards were searched, where there were more that could give a piece. */
export function planNotes(layouts: readonly Layout[], settings: Settings, boardsMost: number | null): string[] {
  const show = (acrossNm: number) => lengthText(acrossNm, tapeStyle(settings));
  const kerf = kerfNm(settings);
  const step = lengthText(tapeStepNm(settings), { system: settings.shown, denominator: 32 });
  const notes = [
    `Blanks are sized for each board's own moisture so that parts are right at ${settings.targetMoisturePercent} %; lengths and widths are rounded up to ${step}, boards down.`,
    `Blade ${show(kerf.ripNm)} ripping, ${show(kerf.crosscutNm)} crosscutting; ${show(settings.allowances.endTrimNm)} trimmed off each mill end, none off an offcut's.`,
    `Blanks keep ${show(settings.allowances.endTrimNm)} along the grain from the ends of checks, splits and shakes, which run further than they show (common practice, no source).`,
    ...(layouts.some(({ pieces }) => pieces.some(({ showFace }) => showFace !== null))
      ? ['Where one clear face is asked for and only one is clear, the steps name it: chalk it on the piece.']
      : []),
    `Rests under ${lengthText(settings.offcutMin.lengthNm, alongStyle(settings))} by ${show(settings.offcutMin.widthNm)} clear count as scrap.`,
  ];
  const phases = [...new Set(layouts.map((layout) => layout.phase))].sort((a, b) => a - b);
  if (phases.length > 1)
    notes.push(
      `Cut in phases: ${phases.map((phase, index) => `${index + 1}. ${TIER_WORDS[phase] ?? ''}`).join('; ')}. Let blanks rest stickered between them, ${settings.restDays.critical} days for critical parts (common practice, no source).`,
    );
  const shared = sharedSettings(layouts, settings);
  if (shared.length > 0) {
    // A rest lies between phases, so the same setting of two of them is set twice.
    const ofPhases = phases.flatMap((phase, at) => {
      const settings = shared.filter((one) => one.phase === phase);
      const each = settings.map(({ setting, tags }) => `${setting}: ${tags.join(', ')}`).join('; ');
      const when = phases.length === 1 ? '' : `in phase ${at + 1} `;
      return settings.length === 0 ? [] : [`${when}${each}`];
    });
    notes.push(`Boards that share a setting, to be ripped one after the other: ${ofPhases.join('; ')}.`);
  }
  const reserves = layouts.filter((layout) => layout.reserves.length > 0);
  if (reserves.length > 0) {
    const each = reserves.map(({ tag, reserves: strips }) => {
      const labels = [...new Set(strips.flatMap(({ standsFor }) => standsFor.map(({ label }) => label)))];
      return `${tag} for ${labels.join(', ')}`;
    });
    notes.push(`Strips stay whole as a reserve until those parts have rested and passed: ${each.join('; ')}.`);
  }
  if (boardsMost !== null)
    notes.push(`More boards could serve than a search looks at; the ${boardsMost} best suited were searched.`);
  if (layouts.some((layout) => layout.warnings.some((warning) => warning.startsWith('No moisture reading'))))
    notes.push('Boards without a moisture reading are planned at the wettest their parts allow.');
  return notes;
}
