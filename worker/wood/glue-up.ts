/**
 * What a glue-up needs: plies, glue, clamps, and how many joints fit the glue's open time. In a flat panel or a stack
 * the clamps press all joints in series, so force is that of one joint; glue is that of all of them.
 */
import { answer, LENGTH_NM_MAX, type Result, refuse, requireSize, requireWithin } from './result.ts';
import { NM_PER_MM } from './unit.ts';

/** One glue line: the edge of a panel's board, or the face between two plies. */
export interface GlueLine {
  readonly lengthNm: number;
  /** Of the glued surface: an edge joint's is the board's thickness. */
  readonly widthNm: number;
}

const M_PER_NM = 1e-9;

export function glueLineAreaM2(line: GlueLine): number {
  requireSize('length of the glue line', line.lengthNm);
  requireSize('width of the glue line', line.widthNm);
  return line.lengthNm * M_PER_NM * (line.widthNm * M_PER_NM);
}

/** Glue for all the lines, grams. Five joints of 60 × 7/8 in at 220 g/m²: 37.3 g. */
export function glueMassG(lines: readonly GlueLine[], spreadGPerM2: number): number {
  requireWithin('spread', spreadGPerM2, 0, 2000);
  return lines.reduce((sum, line) => sum + glueLineAreaM2(line) * spreadGPerM2, 0);
}

/**
 * Thickness of the wet glue, millimetres, that a spread makes at this density (1.1 g/mL for most white and yellow glue,
 * from memory).
 */
export function wetFilmMm(spreadGPerM2: number, densityGPerMl = 1.1): number {
  requireWithin('spread', spreadGPerM2, 0, 2000);
  requireWithin('density of the glue', densityGPerMl, 0.5, 3);
  return spreadGPerM2 / densityGPerMl / 1000;
}

export interface Clamping {
  readonly pressureKPa: number;
  /** One clamp, as measured on the shop's own. */
  readonly clampForceN: number;
  /** From the clamp's pad to the nearest glue line: the outer board and its caul; null leaves spacing out. */
  readonly padToLineNm: number | null;
}

export interface ClampCount {
  readonly count: number;
  readonly byForce: number;
  readonly bySpacing: number;
  readonly forceN: number;
  /** What this many of these clamps reach on the line. */
  readonly reachedKPa: number;
}

/**
 * Clamps for a line: force = pressure × area, and pressure fans out about 45° from each pad so that the fans must meet
 * at the glue line (the angle is common practice, no source). Hard maple 60 × 7/8 in, 200 psi, clamps of 1,000 lbf,
 * outer board 4 in: 11 by force, 8 by spacing, so 11. Few hand clamps reach the printed pressures; sound joints are
 * made with less, so the pressure reached is told and nothing is forbidden.
 */
export function clampsNeeded(line: GlueLine, clamping: Clamping): ClampCount {
  requireWithin('clamp force', clamping.clampForceN, 1, 1e6);
  requireWithin('pressure', clamping.pressureKPa, 0, 10_000);
  const areaM2 = glueLineAreaM2(line);
  const forceN = clamping.pressureKPa * 1000 * areaM2;
  const byForce = Math.max(0, Math.ceil(forceN / clamping.clampForceN - 1e-9));
  const bySpacing = clamping.padToLineNm === null ? 1 : spacedClamps(line.lengthNm, clamping.padToLineNm);
  const count = Math.max(1, byForce, bySpacing);
  return { count, byForce, bySpacing, forceN, reachedKPa: pressureReachedKPa(count, clamping.clampForceN, line) };
}

function spacedClamps(lengthNm: number, padToLineNm: number): number {
  requireWithin('pad to glue line', padToLineNm, 1, LENGTH_NM_MAX);
  return Math.max(0, Math.ceil((lengthNm - 2 * padToLineNm) / (2 * padToLineNm))) + 1;
}

/** Pressure that so many clamps bring on a line, kPa. */
export function pressureReachedKPa(count: number, clampForceN: number, line: GlueLine): number {
  requireWithin('clamps', count, 0, 1e6);
  requireWithin('clamp force', clampForceN, 0, 1e6);
  const areaM2 = glueLineAreaM2(line);
  requireWithin('area of the glue line', areaM2, 1e-12, 1e12);
  return (count * clampForceN) / areaM2 / 1000;
}

export interface Plies {
  readonly count: number;
  /** Each ply planed to this, whole nanometres, so that together they are at least the finished thickness. */
  readonly plyNm: number;
  readonly glueLines: number;
}

/** The fewest equal plies of at most `plyMaxNm` (what the stock planes to) that make up a thickness. */
export function pliesFor(finishedNm: number, plyMaxNm: number): Plies {
  requireWithin('thickness', finishedNm, 1, LENGTH_NM_MAX);
  requireWithin('ply', plyMaxNm, NM_PER_MM / 2, LENGTH_NM_MAX);
  const count = Math.ceil(finishedNm / plyMaxNm);
  return { count, plyNm: Math.ceil(finishedNm / count), glueLines: count - 1 };
}

/**
 * Joints to close at once so that the first is still open when the last is clamped: whole batches, evenly filled.
 * Refused where not even one joint can be spread and clamped in the open time.
 */
export function glueBatches(work: {
  readonly joints: number;
  readonly openMinutes: number;
  readonly spreadMinutesPerJoint: number;
  readonly clampMinutes: number;
}): Result<readonly number[], 'too-slow'> {
  requireWithin('joints', work.joints, 0, 1000);
  requireWithin('open time', work.openMinutes, 0, 10_000);
  requireWithin('minutes to set the clamps', work.clampMinutes, 0, 10_000);
  requireWithin('minutes for a joint', work.spreadMinutesPerJoint, 0.01, 1000);
  const most = Math.floor((work.openMinutes - work.clampMinutes) / work.spreadMinutesPerJoint + 1e-9);
  if (most < 1) {
    return refuse(
      'too-slow',
      'one joint takes longer than this glue stays open: take a slower glue, or a second pair of hands',
    );
  }
  const batches = Math.ceil(work.joints / most);
  const fewest = batches === 0 ? 0 : Math.floor(work.joints / batches);
  const larger = work.joints - fewest * batches;
  return answer(Array.from({ length: batches }, (_, at) => fewest + (at < larger ? 1 : 0)));
}
