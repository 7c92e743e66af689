/** Which holds stand in a plan's way: those of other jobs, and runs whose own pieces still wait to be cut. */
import { expect, test } from 'vitest';
import { holdsInTheWay, shopBoard } from '../../worker/planner/shop-board.ts';
import { woodReader } from '../../worker/takeoff/which-wood.ts';
import { board, heldFor, inch, job, part, piece, shopSettings } from '../takeoff/shop-cases.ts';

const OURS = 'jb_00000001';
const rail = part({ lengthNm: inch(30), widthNm: inch(3), thicknessNm: inch(0.75), quantity: 2 });
/** A job with a row cut partly, and a row that nobody planned. */
const withPieces = (...pieces: ReturnType<typeof piece>[]) => {
  const owner = job([rail, { ...rail, key: 'B' }]);
  const [first, second] = owner.parts;
  if (!first || !second) throw new Error('no rows');
  return { ...owner, parts: [{ ...first, pieces }, second] };
};
const plank = (...held: ReturnType<typeof heldFor>[]) =>
  board({ lengthNm: inch(96), widthNm: inch(8), thicknessNm: inch(1), tag: 'P', held });
const byHand = heldFor(OURS, 0, inch(96));
const byPlan = heldFor(OURS, inch(40), inch(96), 'pl_00000001');
const byOthers = heldFor('jb_00000002', 0, inch(30));

test('without a job every hold stands in the way', () => {
  expect(holdsInTheWay(plank(byHand, byOthers), null)).toHaveLength(2);
});

test('a job takes what it holds by hand, never what another does', () => {
  const owner = withPieces(piece(1, null), piece(2, null));
  expect(holdsInTheWay(plank(byOthers, heldFor(OURS, inch(30), inch(96))), owner)).toEqual([byOthers]);
  // Pieces that are planned under another plan change nothing of that.
  const planned = withPieces(piece(1, null, { state: 'planned', planId: 'pl_00000009' }), piece(2, null));
  expect(holdsInTheWay(plank(byHand), planned)).toEqual([]);
});

test('a run held by a plan is taken as long as none of its pieces waits to be cut from it', () => {
  const waiting = piece(2, null, { state: 'planned', planId: 'pl_00000001' });
  expect(holdsInTheWay(plank(byPlan), withPieces(piece(1, null), waiting))).toEqual([byPlan]);
  const cut = piece(2, null, { state: 'roughed', planId: 'pl_00000001', boardId: 'bd_00000777' });
  expect(holdsInTheWay(plank(byPlan), withPieces(piece(1, null), cut))).toEqual([]);
  const ofAnother = piece(2, null, { state: 'planned', planId: 'pl_00000009' });
  expect(holdsInTheWay(plank(byPlan), withPieces(piece(1, null), ofAnother))).toEqual([]);
});

test('the longest run that is left is planned on, a blade away from what others hold', () => {
  const wood = woodReader(shopSettings())('white-oak');
  const settings = shopSettings();
  const on = (held: ReturnType<typeof heldFor>[], inTheWay = held) =>
    shopBoard(plank(...held), wood, inTheWay, settings);
  expect(on([byOthers]).run?.toNm).toBe(inch(96));
  expect(on([byOthers]).run?.fromNm).toBeGreaterThan(inch(30));
  expect(on([byOthers]).run?.fromNm).toBeLessThan(inch(30.5));
  expect(on([byOthers]).isOurs).toBe(false);
  expect(on([byHand], []).isOurs).toBe(true);
  expect(on([heldFor('jb_00000002', 0, inch(96))]).run).toBeNull();
  expect(on([heldFor('jb_00000002', 0, inch(96))]).trimmed).toBeNull();
});
