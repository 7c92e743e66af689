/** The longest clear stretch of a board for a blank of some width: what a person finds with a tape between the knots. */
import type { RectNm } from '../contract/plan.ts';
import { overlaps } from '../wood/face-rect.ts';

/** Longest run along the rectangle in which a strip of the width is clear of all that is blocked; 0 when there is none. */
export function longestClearNm(within: RectNm, blocked: readonly RectNm[], widthNm: number): number {
  if (within.rightNm - within.leftNm < widthNm) return 0;
  const inside = blocked.filter((bad) => overlaps(bad, within));
  // A strip that can be pushed left without touching anything new stands against the edge or against a defect.
  const starts = [within.leftNm, ...inside.map((b) => b.rightNm)];
  let longestNm = 0;
  for (const leftNm of starts) {
    const rightNm = leftNm + widthNm;
    if (rightNm > within.rightNm) continue;
    const across = inside.filter((b) => b.leftNm < rightNm && b.rightNm > leftNm);
    longestNm = Math.max(longestNm, longestGapNm(within, across));
  }
  return longestNm;
}

function longestGapNm(within: RectNm, across: readonly RectNm[]): number {
  let atNm = within.fromNm;
  let longestNm = 0;
  for (const b of [...across].sort((a, c) => a.fromNm - c.fromNm)) {
    longestNm = Math.max(longestNm, b.fromNm - atNm);
    atNm = Math.max(atNm, b.toNm);
  }
  return Math.max(longestNm, within.toNm - atNm);
}
