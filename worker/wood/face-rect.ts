/** A rectangle on a board's face, and how two of them lie. */

/** from–to along the grain, left–right across, from the tagged end and the left edge. */
export interface FaceRect {
  readonly fromNm: number;
  readonly toNm: number;
  readonly leftNm: number;
  readonly rightNm: number;
}

/** Edges may touch. */
export const isWithin = (inner: FaceRect, outer: FaceRect): boolean =>
  inner.fromNm >= outer.fromNm &&
  inner.toNm <= outer.toNm &&
  inner.leftNm >= outer.leftNm &&
  inner.rightNm <= outer.rightNm;

/** Rectangles that only touch do not overlap. */
export const overlaps = (a: FaceRect, b: FaceRect): boolean =>
  a.fromNm < b.toNm && b.fromNm < a.toNm && a.leftNm < b.rightNm && b.leftNm < a.rightNm;
