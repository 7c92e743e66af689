/** Sizes, days and tags within a text, which no line end may tear apart: 84 1/2", 8' 4 1/2", 600 mm, 5/4, 3 Dec, JB-111. */
import { MONTHS } from './day.ts';

export interface Stretch {
  readonly text: string;
  readonly whole: boolean;
}

const inches = String.raw`\d+ \d+/\d+"|\d+(?:/\d+)?"`;
const WHOLE = new RegExp(
  [
    String.raw`(?:≈ )?\d+'(?: (?:${inches}))?`,
    `(?:≈ )?(?:${inches})`,
    String.raw`(?:≈ )?\d[\d.,]* (?:mm|cm|m³|m²|m|bf|lb|kg|%)(?![\p{L}\p{N}])`,
    String.raw`\d{1,2} (?:${MONTHS.join('|')})(?: \d{4})?(?![\p{L}\d])`,
    // What a step of the saw names by its number.
    String.raw`(?<![\p{L}-])(?:ply|stave|length|strip) \d+(?![\d/"']|[.,]\d| (?:\d|[cm]?m\b))`,
    String.raw`\d+/\d+`,
    // A long name with hyphens may break: it would not fit a narrow sidebar in one line.
    String.raw`(?<![\p{L}\d-])\p{L}{1,6}-\d[\p{L}\d]{0,9}(?:[-/]\d{1,4})*`,
  ].join('|'),
  'gu',
);

export function stretchesOf(text: string): Stretch[] {
  const stretches: Stretch[] = [];
  let from = 0;
  for (const { 0: found, index } of text.matchAll(WHOLE)) {
    if (index > from) stretches.push({ text: text.slice(from, index), whole: false });
    stretches.push({ text: found, whole: true });
    from = index + found.length;
  }
  if (from < text.length) stretches.push({ text: text.slice(from), whole: false });
  return stretches;
}
