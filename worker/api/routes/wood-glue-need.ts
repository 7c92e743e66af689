/** What gluing up one part needs: its layers, glue, clamps and batches. The formulas are those of the trade's arithmetic. */
import type { Lamination } from '../../contract/job.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { elementsOf, type PartShape } from '../../takeoff/elements.ts';
import { type Adhesive, adhesives, clampingPressureKPa, NEWTON_PER_LBF } from '../../wood/adhesive.ts';
import {
  clampsNeeded,
  type GlueLine,
  glueBatches,
  glueLineAreaM2,
  glueMassG,
  pressureReachedKPa,
  wetFilmMm,
} from '../../wood/glue-up.ts';
import type { Species } from '../../wood/species.ts';
import type { Call } from '../serve.ts';

export type Facts = Call<'glueUpJob'>['body'];
export type Needs = Omit<Answer<'woodGlueUp'>, 'checklist' | 'cautions' | 'sources' | 'notes'>;
export type Range = [least: number, most: number];

/** A part as it is pressed: its glue lines, and how far the pads stand from the nearest one. */
export interface Assembly {
  readonly elements: Needs['elements'];
  readonly lines: readonly GlueLine[];
  readonly padToLineNm: number;
}

/** Where two plies meet: the width that both have. */
function plyLines(lengthNm: number, lamination: Extract<Lamination, { kind: 'plies' }>): GlueLine[] {
  return lamination.plies.slice(1).map((ply, at) => {
    const under = lamination.plies[at] ?? ply;
    const leftNm = Math.max(ply.offsetNm, under.offsetNm);
    const rightNm = Math.min(ply.offsetNm + ply.widthNm, under.offsetNm + under.widthNm);
    return { lengthNm, widthNm: Math.max(0, rightNm - leftNm) };
  });
}

export function assemblyOf(part: PartShape, facts: Facts, settings: Settings): Assembly {
  const elements = elementsOf(part, settings).map(({ finished }) => ({
    thicknessNm: finished.thicknessNm,
    widthNm: finished.widthNm,
  }));
  const { lamination, lengthNm, thicknessNm } = part;
  const edgeToEdge = lamination?.kind === 'staves';
  const lines = edgeToEdge
    ? elements.slice(1).map(() => ({ lengthNm, widthNm: thicknessNm }))
    : lamination?.kind === 'plies'
      ? plyLines(lengthNm, lamination)
      : [];
  const outer = [elements[0], elements.at(-1)].map((e) => (edgeToEdge ? e?.widthNm : e?.thicknessNm) ?? 1);
  return { elements, lines: lines.filter((line) => line.widthNm > 0), padToLineNm: Math.min(...outer) + facts.caulNm };
}

/** The glue that the body names; its schema knows no other. */
export function adhesiveOf(facts: Facts): Adhesive {
  const found = adhesives.find((a) => a.key === facts.adhesive);
  if (!found) throw new RangeError(`no glue ${facts.adhesive}`);
  return found;
}

export interface Glue {
  readonly adhesive: Adhesive;
  readonly facts: Facts;
  readonly wood: Species | undefined;
}

/** The shop's own figure as a range of one, or the table's. */
const ownOr = (own: number | undefined, table: readonly [number, number]): Range =>
  own === undefined ? [table[0], table[1]] : [own, own];

export function needsOf(assembly: Assembly, copies: number, glue: Glue, moisturePercents: readonly number[]): Needs {
  const { adhesive, facts } = glue;
  const { lines } = assembly;
  const spread = ownOr(facts.spreadGPerM2, adhesive.spreadGPerM2);
  const areaM2 = lines.reduce((sum, line) => sum + glueLineAreaM2(line), 0) * copies;
  const litres = (gPerM2: number) => areaM2 * wetFilmMm(gPerM2);
  const glueMl: Range = [litres(spread[0]) * 1000, litres(spread[1]) * 1000];
  const press = pressing(assembly, glue);
  const batches = batchesOf(lines.length, copies, glue, press.clamps?.least.count ?? null);
  return {
    copies,
    elements: assembly.elements,
    glueLinesPerPiece: lines.length,
    glueLineAreaM2: areaM2,
    spreadGPerM2: spread,
    glueG: [glueMassG(lines, spread[0]) * copies, glueMassG(lines, spread[1]) * copies],
    glueMl,
    bottles: facts.bottleMl === undefined ? null : Math.ceil(glueMl[1] / facts.bottleMl),
    ...press,
    clampHours: [adhesive.clampHours[0], adhesive.clampHours[1]],
    batches: batches.ok ? batches.value : null,
    batchesWhy: batches.ok ? null : batches.help,
    moisture: apart(moisturePercents),
  };
}

function pressing(
  assembly: Assembly,
  { adhesive, facts, wood }: Glue,
): Pick<Needs, 'pressureKPa' | 'clamps' | 'reachedKPa'> {
  const table = wood ? clampingPressureKPa(adhesive, wood.specificGravityGreen) : null;
  const own = facts.pressureKPa;
  const pressureKPa: Range | null = own === undefined ? table && [table[0], table[1]] : [own, own];
  const clampForceN =
    facts.clampForceN ?? (facts.clampForceLbf === undefined ? null : facts.clampForceLbf * NEWTON_PER_LBF);
  // Joints are pressed in series, so the largest of them sets the force.
  const line = [...assembly.lines].sort((a, b) => glueLineAreaM2(b) - glueLineAreaM2(a))[0];
  if (!line || clampForceN === null) return { pressureKPa, clamps: null, reachedKPa: null };
  const clampsAt = (kPa: number) =>
    clampsNeeded(line, { pressureKPa: kPa, clampForceN, padToLineNm: assembly.padToLineNm });
  return {
    pressureKPa,
    clamps: pressureKPa && { least: clampsAt(pressureKPa[0]), most: clampsAt(pressureKPa[1]) },
    reachedKPa: facts.clampsAtHand === undefined ? null : pressureReachedKPa(facts.clampsAtHand, clampForceN, line),
  };
}

const JOINTS_MAX = 1000;

/** How many times to glue: what the open time and the clamps at hand allow, whichever is less. */
function batchesOf(
  linesPerPiece: number,
  copies: number,
  { adhesive, facts }: Glue,
  clampsPerPiece: number | null,
):
  | { readonly ok: true; readonly value: NonNullable<Needs['batches']> }
  | { readonly ok: false; readonly help: string } {
  const no = (help: string) => ({ ok: false as const, help });
  const openMinutes = facts.openMinutes ?? adhesive.openMinutes?.[0];
  const { spreadMinutesPerJoint, clampMinutes, clampsAtHand } = facts;
  if (openMinutes === undefined)
    return no('say how long this glue stays open, in minutes: only the glue maker’s sheet says');
  if (spreadMinutesPerJoint === undefined || clampMinutes === undefined) {
    return no('say how many minutes you take to spread a joint and to set the clamps');
  }
  const joints = linesPerPiece * copies;
  if (joints > JOINTS_MAX) return no(`over ${JOINTS_MAX} joints; ask for fewer copies at a time`);
  const byTime = glueBatches({ joints, openMinutes, spreadMinutesPerJoint, clampMinutes });
  if (!byTime.ok) return no(byTime.help);
  const piecesAtOnce =
    clampsAtHand === undefined || clampsPerPiece === null ? null : Math.floor(clampsAtHand / clampsPerPiece);
  if (piecesAtOnce === 0) return no(`one piece takes ${clampsPerPiece} clamps at the least pressure`);
  const byClamps = piecesAtOnce === null ? 0 : Math.ceil(copies / piecesAtOnce);
  return {
    ok: true,
    value: { count: Math.max(byTime.value.length, byClamps), glueLines: [...byTime.value], piecesAtOnce },
  };
}

/** How far the readings stand apart; null without any. */
export function apart(percents: readonly number[]): Needs['moisture'] {
  if (percents.length === 0) return null;
  const driestPercent = Math.min(...percents);
  const wettestPercent = Math.max(...percents);
  return { driestPercent, wettestPercent, apartPoints: wettestPercent - driestPercent };
}
