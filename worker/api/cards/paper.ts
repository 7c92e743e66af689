/** What every printable page of the shop shares: the sheet, the line that only the screen shows, a list of facts, a box to tick. */
import { html, type Markup, ready, unbroken } from './html.ts';
import { cardStyle } from './style.ts';

export const BOX = html`<span class="box"></span>`;

/** One file, no scripts, nothing fetched. onScreen is not printed. */
export function paper(title: string, onScreen: string, cards: readonly Markup[]): string {
  return html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title><style>${ready(cardStyle)}</style></head><body>
<p class="screen">${onScreen}</p>
${cards}
</body></html>`.markup;
}

export const factList = (rows: readonly (readonly [name: string, value: string])[]): Markup =>
  html`<dl class="facts">${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${unbroken(value)}</dd></div>`)}</dl>`;
