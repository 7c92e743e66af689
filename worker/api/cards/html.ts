/** HTML as text: everything that is not markup of ours is escaped where it is put in. */
import { escapeXml } from '../../planner/drawing-svg.ts';
import { stretchesOf } from '../../wood/unbroken.ts';

/** Markup that is safe to put in as it stands. */
export interface Markup {
  readonly markup: string;
}
type Put = string | number | Markup | readonly Markup[];

const put = (value: Put): string =>
  typeof value === 'string' || typeof value === 'number'
    ? escapeXml(String(value))
    : 'markup' in value
      ? value.markup
      : value.map((one) => one.markup).join('');

/** A template whose values are escaped unless they are markup themselves. */
export function html(parts: TemplateStringsArray, ...values: readonly Put[]): Markup {
  return { markup: parts.reduce((text, part, index) => text + put(values[index - 1] ?? '') + part) };
}

/** Markup made elsewhere with its own escaping: a drawing, a style sheet. */
export const ready = (markup: string): Markup => ({ markup });
export const nothing: Markup = { markup: '' };

/** A text whose sizes, days and tags no line end tears apart. */
export const unbroken = (text: string): Markup => ({
  markup: stretchesOf(text)
    .map((one) => (one.whole ? `<span class="one">${escapeXml(one.text)}</span>` : escapeXml(one.text)))
    .join(''),
});
