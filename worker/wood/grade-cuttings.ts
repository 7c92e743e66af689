/**
 * The best clear cuttings of a face: rectangles, clear of every blocked one and of each other, that hold the most face.
 * The search tries the largest few places at each step, so what it finds is there, and more might be.
 */

import type { FaceRect } from './face-rect.ts';
import type { CuttingMin } from './grade-rule.ts';
import { NM_PER_FOOT, NM_PER_INCH } from './unit.ts';
import type { Face } from './volume.ts';

/** Cutting units: inches of width × feet of length (12 in² of face each). */
export function cuttingUnits(rect: FaceRect): number {
  return ((rect.rightNm - rect.leftNm) / NM_PER_INCH) * ((rect.toNm - rect.fromNm) / NM_PER_FOOT);
}

export const totalUnits = (cuttings: readonly FaceRect[]): number =>
  cuttings.reduce((sum, cutting) => sum + cuttingUnits(cutting), 0);

/** Above so many blocked rectangles, places are only taken greedily. */
const BLOCKED_FOR_SEARCH_MAX = 25;
/** Places that the search weighs, cuttings that it combines, and steps that it may take. */
const POOL_MAX = 1500;
const COMBINED_MAX = 4;
const STEPS_MAX = 150_000;

/**
 * The best found for each number of cuttings: the first entry has at most one, the next at most two, up to `countMax`.
 * Same input, same answer: the work is bounded by steps.
 */
export function bestCuttings(
  face: Face,
  blocked: readonly FaceRect[],
  mins: readonly CuttingMin[],
  countMax: number,
): readonly (readonly FaceRect[])[] {
  const best: (readonly FaceRect[])[] = Array.from({ length: countMax }, () => []);
  const keep = (taken: readonly FaceRect[]) => {
    for (let at = Math.max(0, taken.length - 1); at < countMax; at += 1) {
      if (totalUnits(taken) > totalUnits(best[at] ?? [])) best[at] = taken;
    }
  };
  takeGreedily(face, blocked, mins, countMax, [], keep);
  if (blocked.length <= BLOCKED_FOR_SEARCH_MAX) {
    combine(pool(face, blocked, mins), Math.min(COMBINED_MAX, countMax), best, keep);
    takeGreedily(face, blocked, mins, countMax, best[Math.min(COMBINED_MAX, countMax) - 1] ?? [], keep);
  }
  return best;
}

/** The largest place, then the largest of what is left, and so on. */
function takeGreedily(
  face: Face,
  blocked: readonly FaceRect[],
  mins: readonly CuttingMin[],
  countMax: number,
  start: readonly FaceRect[],
  keep: (taken: readonly FaceRect[]) => void,
): void {
  let taken = start;
  while (taken.length < countMax) {
    const place = clearPlaces(face, [...blocked, ...taken], mins)[0];
    if (!place) return;
    taken = [...taken, place];
    keep(taken);
  }
}

/**
 * The largest clear places, and each of them cut back on one side to where another cutting could begin: at a blocked
 * edge, or one smallest width or length away from it. Two strips side by side need such places.
 */
function pool(face: Face, blocked: readonly FaceRect[], mins: readonly CuttingMin[]): FaceRect[] {
  const largest = withoutContained(clearPlaces(face, blocked, mins));
  const along = trims(
    [0, face.lengthNm, ...blocked.flatMap((b) => [b.fromNm, b.toNm])],
    mins.map((m) => m.lengthNm),
  );
  const across = trims(
    [0, face.widthNm, ...blocked.flatMap((b) => [b.leftNm, b.rightNm])],
    mins.map((m) => m.widthNm),
  );
  const found = new Map<string, FaceRect>();
  const add = (p: FaceRect) => {
    if (mins.some((min) => reaches(p, min))) found.set(`${p.fromNm} ${p.toNm} ${p.leftNm} ${p.rightNm}`, p);
  };
  for (const place of largest) {
    add(place);
    for (const x of along.filter((x) => x > place.fromNm && x < place.toNm)) {
      add({ ...place, fromNm: x });
      add({ ...place, toNm: x });
    }
    for (const y of across.filter((y) => y > place.leftNm && y < place.rightNm)) {
      add({ ...place, leftNm: y });
      add({ ...place, rightNm: y });
    }
  }
  return [...found.values()].sort(byFace).slice(0, POOL_MAX);
}

const trims = (edges: readonly number[], steps: readonly number[]) => [
  ...new Set(edges.flatMap((edge) => [edge, ...steps.flatMap((step) => [edge - step, edge + step])])),
];

function combine(
  places: readonly FaceRect[],
  countMax: number,
  best: readonly (readonly FaceRect[])[],
  keep: (taken: readonly FaceRect[]) => void,
): void {
  let steps = 0;
  const extend = (taken: readonly FaceRect[], units: number, start: number) => {
    for (let at = start; at < places.length; at += 1) {
      const place = places[at];
      if (!place || steps >= STEPS_MAX) return;
      steps += 1;
      const atMost = cuttingUnits(place);
      const mayWin = best
        .slice(taken.length, countMax)
        .some((known, more) => units + (more + 1) * atMost > totalUnits(known));
      if (!mayWin) return;
      if (taken.some((other) => overlap(place, other))) continue;
      const next = [...taken, place];
      keep(next);
      if (next.length < countMax) extend(next, units + atMost, at + 1);
    }
  };
  extend([], 0, 0);
}

const overlap = (a: FaceRect, b: FaceRect) =>
  a.fromNm < b.toNm && b.fromNm < a.toNm && a.leftNm < b.rightNm && b.leftNm < a.rightNm;

const holds = (a: FaceRect, b: FaceRect) =>
  a.fromNm <= b.fromNm && a.toNm >= b.toNm && a.leftNm <= b.leftNm && a.rightNm >= b.rightNm;

/** Sorted by size, a place can only lie inside one before it. */
function withoutContained(places: readonly FaceRect[]): FaceRect[] {
  const kept: FaceRect[] = [];
  for (const place of places) if (!kept.some((larger) => holds(larger, place))) kept.push(place);
  return kept;
}

/** Every largest clear rectangle that reaches a minimum size, the one with the most face first. */
export function clearPlaces(face: Face, blocked: readonly FaceRect[], mins: readonly CuttingMin[]): FaceRect[] {
  const edges = [0, face.widthNm, ...blocked.flatMap((b) => [b.leftNm, b.rightNm])];
  const across = [...new Set(edges)].filter((y) => y >= 0 && y <= face.widthNm).sort((a, b) => a - b);
  const byStart = [...blocked].sort((a, b) => a.fromNm - b.fromNm);
  const places: FaceRect[] = [];
  for (const leftNm of across) {
    for (const rightNm of across) {
      if (!mins.some((min) => rightNm - leftNm >= min.widthNm)) continue;
      for (const gap of gapsOfBand(face.lengthNm, byStart, leftNm, rightNm)) {
        const place = { ...gap, leftNm, rightNm };
        if (mins.some((min) => reaches(place, min))) places.push(place);
      }
    }
  }
  return places.sort(byFace);
}

const byFace = (a: FaceRect, b: FaceRect) =>
  cuttingUnits(b) - cuttingUnits(a) || a.fromNm - b.fromNm || a.leftNm - b.leftNm || a.toNm - b.toNm;

function gapsOfBand(lengthNm: number, byStart: readonly FaceRect[], leftNm: number, rightNm: number) {
  const gaps: { fromNm: number; toNm: number }[] = [];
  let clearFromNm = 0;
  for (const b of byStart) {
    if (b.rightNm <= leftNm || b.leftNm >= rightNm) continue;
    if (b.fromNm > clearFromNm) gaps.push({ fromNm: clearFromNm, toNm: b.fromNm });
    clearFromNm = Math.max(clearFromNm, b.toNm);
  }
  if (clearFromNm < lengthNm) gaps.push({ fromNm: clearFromNm, toNm: lengthNm });
  return gaps;
}

const reaches = (place: FaceRect, min: CuttingMin) =>
  place.rightNm - place.leftNm >= min.widthNm && place.toNm - place.fromNm >= min.lengthNm;
