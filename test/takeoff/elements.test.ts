import { expect, test } from 'vitest';
import { elementKinds, elementsOf, laminationFaults, netVolumeM3 } from '../../worker/takeoff/elements.ts';
import { lengthText } from '../../worker/wood/length.ts';
import { boardFeetFromM3 } from '../../worker/wood/volume.ts';
import { inch, part, shopSettings } from './shop-cases.ts';

const settings = shopSettings();
const ply = (thickness: number, width: number, offset = 0) => ({
  thicknessNm: inch(thickness),
  widthNm: inch(width),
  offsetNm: inch(offset),
});
const show = (lengthNm: number) => lengthText(lengthNm, { system: 'in', denominator: 16 });

/** Three layers of 3/4 in; the middle one an inch narrower leaves a groove 3/4 in wide and 1 in deep. */
const groovedRail = part({
  lengthNm: inch(48),
  widthNm: inch(5),
  thicknessNm: inch(2.25),
  lamination: { kind: 'plies', plies: [ply(0.75, 5), ply(0.75, 4, 1), ply(0.75, 5)] },
});

test('a solid part is one element, the part itself', () => {
  const solid = part({ lengthNm: inch(30), widthNm: inch(4), thicknessNm: inch(1) });
  expect(elementsOf(solid, settings)).toEqual([
    { element: null, what: 'solid', finished: { lengthNm: inch(30), widthNm: inch(4), thicknessNm: inch(1) } },
  ]);
});

test('a grooved rail comes apart into two wide plies and a narrow one', () => {
  expect(elementKinds(groovedRail, settings).map((kind) => [kind.elements, kind.finished.widthNm])).toEqual([
    [[0, 2], inch(5)],
    [[1], inch(4)],
  ]);
});

test('the groove is no wood: 3 x 3/4 in of 48 in rail, 14 in of width in all', () => {
  const net = elementKinds(groovedRail, settings).reduce((sum, kind) => sum + netVolumeM3(groovedRail, kind), 0);
  // 0.75 x 14 x 48 / 144 bf
  expect(boardFeetFromM3(net)).toBeCloseTo(3.5, 9);
});

test('five staves of a 24 in top are 4.9 in wide before their four joints are planed', () => {
  const top = part({
    lengthNm: inch(60),
    widthNm: inch(24),
    thicknessNm: inch(1),
    lamination: { kind: 'staves', count: 5 },
  });
  // (24 + 4 x 1/8) / 5; 1/8 in a joint is common practice, no source.
  expect(elementsOf(top, settings).map((stave) => stave.finished.widthNm)).toEqual(Array(5).fill(inch(4.9)));
  const [kind] = elementKinds(top, settings);
  expect(kind && boardFeetFromM3(netVolumeM3(top, kind))).toBeCloseTo(10, 9);
});

test('plies that do not stack to the part, or reach beside it, are named', () => {
  const wrong = { ...groovedRail, thicknessNm: inch(2), widthNm: inch(4.5) };
  expect(laminationFaults(wrong, show)).toEqual([
    'its plies stack to 2 1/4", the part is 2" thick',
    'ply 1 reaches 5" across a part 4 1/2" wide',
    'ply 2 reaches 5" across a part 4 1/2" wide',
    'ply 3 reaches 5" across a part 4 1/2" wide',
  ]);
  expect(laminationFaults(groovedRail, show)).toEqual([]);
});
