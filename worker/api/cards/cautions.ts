/**
 * Cautions for the whole visit to the saw, once on the page. Practice from OSHA 3157 (guards, spreader, push stick) and
 * common practice without a source; the machine's own manual and the local rules come first.
 */
import { html, type Markup } from './html.ts';

const CAUTIONS: readonly string[] = [
  'Guard on, riving knife or spreader in line, push stick within reach. Stand out of the line of the stock.',
  'Crosscut long boards on the miter saw, radial arm saw or with a track saw, not on the table saw. Never use fence and miter gauge as one stop: set a stop block clear of the blade.',
  'Let waste strips fall free of the fence. Wait for the blade to stop before you clear offcuts.',
  'Look and feel for nails, staples and grit before the first cut. Measure the first piece before you cut the rest.',
  'Dust extraction on, eyes and ears covered, a fitting mask for fine dust.',
];

export const cautions: Markup = html`<section class="cautions">
<p><strong>At the saw.</strong> The machine's manual and your local safety rules come before anything on this card.</p>
<ul>${CAUTIONS.map((caution) => html`<li>${caution}</li>`)}</ul>
</section>`;
