/** Drawings say what is there: every piece, cut and defect once, in its place, and nothing outside the sheet. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DefectKind, defectKind } from '../../worker/contract/board.ts';
import { type Drawing, drawing as drawingSchema, type Role } from '../../worker/contract/drawing.ts';
import { drawBoard, drawLayout, drawLayoutForCard } from '../../worker/planner/drawing.ts';
import { pieceMarks, pieceRows } from '../../worker/planner/drawing-pieces.ts';
import { drawingSvg, escapeXml } from '../../worker/planner/drawing-svg.ts';
import { sawnBoard } from './check-layouts.ts';
import { onTheBoard } from './cut-words-board.ts';

const shown = { shown: 'in', denominator: 16 } as const;
const IN = 25_400_000;
const board = {
  tag: 'W-07',
  lengthNm: 120 * IN,
  widthNm: 8 * IN,
  defects: [
    { kind: 'knot-loose', face: 'a', fromNm: 100 * IN, toNm: 102 * IN, leftNm: IN, rightNm: 2 * IN },
    { kind: 'wane', face: 'through', fromNm: 0, toNm: 40 * IN, leftNm: 7 * IN, rightNm: 8 * IN },
  ],
} as const;
const rects = (drawing: Drawing, role: Role) =>
  drawing.shapes.flatMap((shape) => (shape.shape === 'rect' && shape.role === role ? [shape] : []));
const texts = (drawing: Drawing) => drawing.shapes.flatMap((shape) => (shape.shape === 'text' ? [shape] : []));
const marks = (drawing: Drawing) => drawing.shapes.flatMap((shape) => (shape.shape === 'mark' ? [shape] : []));

describe('a board in the rack', () => {
  const drawing = drawBoard(board, [{ jobName: 'Hall bench', fromNm: 0, toNm: 50 * IN }], shown);
  test('is drawn with its size, its defects and who holds it', () => {
    expect(drawing.title).toBe(`W-07: 8" × 10'`);
    expect(drawing.description).toBe(
      `Board W-07, 8" × 10'. Defects: loose knot, face a from 8' 4" to 8' 6"; wane, through from 0" to 40". Hall bench holds 0" to 50" from the tagged end.`,
    );
    expect(texts(drawing).map((text) => text.text)).toEqual(
      expect.arrayContaining(['W-07', 'Hall bench', 'free 70"', `10'`, '8"']),
    );
    expect(drawing.legend).toEqual([
      { role: 'defect-knot', text: 'loose knot (crossed)' },
      { role: 'defect-wane', text: 'wane' },
      { role: 'ghost', text: 'held' },
    ]);
  });
  test('lies in real millimetres along the grain, wider than it is by the factor that the drawing states', () => {
    const outline = rects(drawing, 'outline')[0]!;
    // 120 in and 8 in are 3048 mm and 203.2 mm exactly.
    expect(outline.w).toBe(3048);
    expect(outline.h).toBeCloseTo(203.2 * drawing.crossFactor!, 1);
    expect(drawing.crossFactor).toBeGreaterThan(1);
    expect(texts(drawing).map((text) => text.text)).toContain(
      `Width drawn × ${drawing.crossFactor}, tagged end at left`,
    );
    const wane = rects(drawing, 'defect-wane')[0]!;
    expect(wane.x).toBe(outline.x);
    expect(wane.w).toBeCloseTo(1016, 1);
    expect(wane.y + wane.h).toBeCloseTo(outline.y + outline.h, 0);
  });
  test('with no one holding it is not called free', () => {
    expect(texts(drawBoard(board, [], shown)).map((text) => text.text)).not.toContain('free');
  });
  test('a square piece is drawn to scale', () => {
    const square = drawBoard({ tag: 'O-1', lengthNm: 12 * IN, widthNm: 12 * IN, defects: [] }, [], shown);
    expect(square.crossFactor).toBe(1);
    expect(texts(square).map((text) => text.text)).toContain('To scale, tagged end at left');
  });
});

test('each kind of defect has a hatching, and no two families share one', () => {
  const seen = new Map<string, string>();
  for (const kind of defectKind.options satisfies readonly DefectKind[]) {
    const drawing = drawBoard({ ...board, defects: [{ ...board.defects[0], kind }] }, [], shown);
    const role = drawing.legend[0]!.role;
    expect(rects(drawing, role)).toHaveLength(1);
    const pattern = new RegExp(`<pattern id="d-${role}"[^>]*>(.*?)</pattern>`).exec(
      drawingSvg(drawing, { idPrefix: 'd' }),
    )?.[1];
    expect(pattern).toBeTruthy();
    seen.set(role, pattern!);
  }
  expect(new Set(seen.values()).size).toBe(seen.size);
  expect(seen.size).toBe(6);
});

describe('a board cut up', () => {
  const cutUp = sawnBoard.map((sawn) => {
    const layout = onTheBoard(sawn.layout, sawn.problem.boards[0]!, (piece) => `Part ${piece.blank}`);
    return { layout, face: { tag: 'W-07', lengthNm: layout.lengthNm, widthNm: layout.widthNm, defects: [] } };
  });
  test.each([
    ['on the panel', drawLayout],
    ['on the card', drawLayoutForCard],
  ] as const)('%s shows every piece, rest and cut, all on the sheet', (_, draw) => {
    fc.assert(
      fc.property(cutUp, ({ layout, face }) => {
        const drawing = draw(face, layout, shown);
        expect(drawingSchema.safeParse(drawing).success).toBe(true);
        expect(rects(drawing, 'blank')).toHaveLength(layout.pieces.length);
        expect(rects(drawing, 'offcut')).toHaveLength(layout.offcuts.length);
        expect(rects(drawing, 'scrap')).toHaveLength(layout.scrap.length);
        const numbers = layout.cuts.map((_cut, index) => String(index + 1));
        expect(
          marks(drawing)
            .map((mark) => mark.text)
            .toSorted(),
        ).toEqual(numbers.toSorted());
        for (const mark of marks(drawing)) {
          expect(mark.x - mark.r).toBeGreaterThanOrEqual(-1);
          expect(mark.y - mark.r).toBeGreaterThanOrEqual(-1);
          expect(mark.x + mark.r).toBeLessThanOrEqual(drawing.widthMm + 1);
          expect(mark.y + mark.r).toBeLessThanOrEqual(drawing.heightMm + 1);
        }
        const outline = rects(drawing, 'outline')[0]!;
        for (const rect of [...rects(drawing, 'blank'), ...rects(drawing, 'offcut'), ...rects(drawing, 'scrap')]) {
          expect(rect.x).toBeGreaterThanOrEqual(outline.x - 0.2);
          expect(rect.x + rect.w).toBeLessThanOrEqual(outline.x + outline.w + 0.2);
          expect(rect.y).toBeGreaterThanOrEqual(outline.y - 0.2);
          expect(rect.y + rect.h).toBeLessThanOrEqual(outline.y + outline.h + 0.2);
        }
      }),
    );
  });

  test('numbers of cuts stand clear of each other where there is room', () => {
    const r = (fromIn: number, toIn: number, leftIn: number, rightIn: number) => ({
      fromNm: fromIn * IN,
      toNm: toIn * IN,
      leftNm: leftIn * IN,
      rightNm: rightIn * IN,
    });
    const cut = (axis: 'rip' | 'crosscut', of: ReturnType<typeof r>, atIn: number) => ({
      axis,
      of,
      atNm: atIn * IN,
      kerfNm: IN / 8,
    });
    const layout = {
      lengthNm: board.lengthNm,
      widthNm: board.widthNm,
      pieces: [],
      offcuts: [],
      scrap: [],
      unevenEdges: [],
      cuts: [
        cut('crosscut', r(0, 120, 0, 8), 1),
        cut('crosscut', r(1.125, 120, 0, 8), 2),
        cut('crosscut', r(2.125, 120, 0, 8), 3),
        cut('rip', r(3.125, 120, 0, 8), 3),
        cut('rip', r(3.125, 120, 3.125, 8), 4),
        cut('rip', r(3.125, 120, 4.125, 8), 5),
      ],
    };
    const placed = marks(drawLayout(board, layout, shown));
    for (const [index, a] of placed.entries())
      for (const b of placed.slice(index + 1))
        expect(Math.abs(a.x - b.x) >= a.r + b.r - 1 || Math.abs(a.y - b.y) >= a.r + b.r - 1).toBe(true);
  });
});

test('a small board is drawn with its whole tag', () => {
  const small = { tag: 'JB-031b-12', lengthNm: 20 * IN, widthNm: IN, defects: [] };
  const tag = texts(drawBoard(small, [], shown)).find((text) => text.turned)!;
  expect(tag.text).toBe('JB-031b-12');
  // Middle letters are 0.6 of their height wide: from memory, as in the drawing itself.
  expect(tag.y - (tag.text.length * 0.6 * tag.size) / 2).toBeGreaterThanOrEqual(-1);
});

test('an offcut has its word only where no number of a cut stands; the legend says what its line means', () => {
  const layoutWith = (widthIn: number) => {
    const whole = { fromNm: 0, toNm: 120 * IN, leftNm: 0, rightNm: 8 * IN };
    const rest = { ...whole, leftNm: (8 - widthIn) * IN, toNm: 14 * IN };
    const rip = { axis: 'rip' as const, of: { ...whole, toNm: 14 * IN }, atNm: rest.leftNm - IN / 8, kerfNm: IN / 8 };
    const cross = { axis: 'crosscut' as const, of: whole, atNm: 14 * IN, kerfNm: IN / 8 };
    return { ...board, pieces: [], offcuts: [rest], scrap: [], unevenEdges: [], cuts: [cross, rip] };
  };
  const says = (widthIn: number) =>
    texts(drawLayout({ ...board, defects: [] }, layoutWith(widthIn), shown)).map((t) => t.text);
  expect(says(6).join()).toContain('keep');
  expect(says(1).join()).not.toContain('keep');
  expect(drawLayout(board, layoutWith(1), shown).legend.map((one) => one.text)).toContain('offcut to keep');
});

describe('the marks of pieces', () => {
  const piece = (partKey: string, no: number, element: number | null = null) => ({
    partKey,
    label: `Part ${partKey}`,
    no,
    element,
    what: element === null ? ('solid' as const) : ('ply' as const),
    showFace: null,
    attempt: 1,
    fromNm: 0,
    toNm: 10 * IN,
    leftNm: 0,
    rightNm: 2 * IN,
  });
  test('are a letter a part and layer with the number of the copy', () => {
    expect(pieceMarks([piece('r', 1), piece('s', 3), piece('r', 2), piece('s', 3, 1)])).toEqual([
      'A1',
      'B3',
      'A2',
      'C3',
    ]);
    const many = pieceMarks(Array.from({ length: 28 }, (_, part) => piece(`p${part}`, 1)));
    expect(many.slice(25)).toEqual(['Z1', 'AA1', 'AB1']);
  });
  test('are explained in one row for copies of one size', () => {
    const rows = pieceRows([piece('r', 1), piece('r', 2), piece('r', 3), piece('r', 5), piece('s', 1, 0)], shown);
    expect(rows.map((row) => [row.letter, `${row.label} ${row.numbers}${row.layer}`, row.size])).toEqual([
      ['A', 'Part r 1-3, 5', '2" × 10"'],
      ['B', 'Part s 1, ply 1', '2" × 10"'],
    ]);
  });
});

test('a row of the key that just fits is written whole', () => {
  const key = (label: string) => {
    const piece = {
      ...{ partKey: 'a', label, no: 1, element: null, what: 'solid' as const, showFace: null, attempt: 1 },
    };
    const place = { fromNm: 0, toNm: 21.375 * IN, leftNm: 0, rightNm: 4.1875 * IN };
    const layout = { ...board, pieces: [{ ...piece, ...place }], offcuts: [], scrap: [], unevenEdges: [], cuts: [] };
    return texts(drawLayout(board, layout, shown)).map((text) => text.text);
  };
  for (let letters = 1; letters < 30; letters += 1)
    expect(key('n'.repeat(letters)).filter((text) => text.includes('…'))).toEqual([]);
});

test('the key under a drawing gives the size in full, on a second row where the name is long', () => {
  const piece = {
    partKey: 'a',
    label: 'Lower front stretcher with a long name',
    no: 1,
    element: 1,
    what: 'ply' as const,
    showFace: null,
    attempt: 1,
    fromNm: 0,
    toNm: 109.5 * IN,
    leftNm: 0,
    rightNm: 4.75 * IN,
  };
  const layout = {
    lengthNm: board.lengthNm,
    widthNm: board.widthNm,
    pieces: [piece],
    cuts: [],
    offcuts: [],
    scrap: [],
    unevenEdges: [],
  };
  const written = texts(drawLayout(board, layout, shown)).map((text) => text.text);
  expect(written).toContain(`4 3/4" × 9' 1 1/2"`);
  expect(written.some((text) => /^Lower front stretcher.*…$/.test(text))).toBe(true);
  const short = texts(drawLayout(board, { ...layout, pieces: [{ ...piece, label: 'Leg' }] }, shown));
  expect(short.map((text) => text.text)).toContain(`Leg 1, ply 2 · 4 3/4" × 9' 1 1/2"`);
});

describe('the SVG', () => {
  test('escapes whatever a shop writes on a board', () => {
    const tag = `<script>"W" & 'x'</script>\u0007`;
    const svg = drawingSvg(drawBoard({ ...board, tag }, [], shown), { idPrefix: 'a"><b' });
    for (const raw of ['<script', '"W"', '\u0007']) expect(svg).not.toContain(raw);
    expect(svg).toContain('&lt;script&gt;&quot;W&quot; &amp; &#39;x&#39;&lt;/script&gt;');
    expect(svg).toContain('id="a---b-t"');
    expect(escapeXml('5 < 6 & "7"')).toBe('5 &lt; 6 &amp; &quot;7&quot;');
  });
  test('uses no hatching that it does not define, and keeps two drawings on a page apart', () => {
    for (const idPrefix of ['a', 'b']) {
      const svg = drawingSvg(drawBoard(board, [{ jobName: 'x', fromNm: 0, toNm: IN }], shown), { idPrefix });
      const used = [...svg.matchAll(/url\(#([^)]+)\)/g)].map((match) => match[1]!);
      expect(used.length).toBeGreaterThan(0);
      for (const id of used) {
        expect(svg).toContain(`<pattern id="${id}"`);
        expect(id.startsWith(`${idPrefix}-`)).toBe(true);
      }
    }
  });
  test('has ink and paper only', () => {
    const svg = drawingSvg(drawBoard(board, [], shown), { idPrefix: 'a' });
    const inks = new Set([...svg.matchAll(/(?:fill|stroke)="(#[^"]+)"/g)].map((match) => match[1]));
    expect([...inks].toSorted()).toEqual(['#000', '#fff']);
  });
});
