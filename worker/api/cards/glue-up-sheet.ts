/** The printable glue-up sheet of a job: what to glue, of which boards, with how much glue, under how many clamps, in which order. */
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { tape } from '../../planner/cut-words.ts';
import { drawingSvg } from '../../planner/drawing-svg.ts';
import { KPA_PER_PSI } from '../../wood/adhesive.ts';
import { staveOnTapeNm } from './facts.ts';
import { html, type Markup, nothing, ready, unbroken } from './html.ts';
import { BOX, factList, paper } from './paper.ts';

type GlueUp = Answer<'glueUpJob'>;
type Part = GlueUp['parts'][number];

export interface GlueUpSheet {
  readonly jobName: string;
  readonly glueName: string;
  readonly glueUp: GlueUp;
  readonly settings: Settings;
}

export function glueUpPage(sheet: GlueUpSheet): string {
  const { glueUp, jobName } = sheet;
  const { parts } = glueUp;
  const onScreen =
    parts.length === 0
      ? 'No part of this job is left to glue up.'
      : `Glue-up of ${jobName}: ${parts.length} ${parts.length === 1 ? 'part' : 'parts'}. Print this page from the browser.`;
  return paper(
    `Glue-up: ${jobName}`,
    onScreen,
    parts.map((part, at) => partCard(part, at, sheet)),
  );
}

function partCard(part: Part, at: number, sheet: GlueUpSheet): Markup {
  const { glueUp, jobName, glueName, settings } = sheet;
  return html`<article class="card">
<header><h1>${part.label}</h1><p><span class="job">${jobName}</span><br>Glue-up ${at + 1} of ${glueUp.parts.length} · ${glueName}</p></header>
${factList(factsOf(part, settings))}
${warningsOf(part).length === 0 ? nothing : html`<ul class="warn">${warningsOf(part).map((one) => html`<li>${unbroken(one)}</li>`)}</ul>`}
<div class="drawing">${ready(drawingSvg(part.drawing, { idPrefix: `g${at + 1}` }))}</div>
<p class="hint">Ring orientation is a suggestion (common practice, no source). Number the ends and mark the face before you spread.</p>
<h2>Pieces</h2><table><thead><tr><th></th><th>No</th><th>Boards of its layers, last reading</th><th>Apart</th><th>Read now, %</th></tr></thead>
<tbody>${part.pieces.map(
    (piece) =>
      html`<tr><td>${BOX}</td><td class="no">${piece.no}</td><td>${piece.boards.map(boardText).join(', ') || 'not cut yet'}</td><td>${
        piece.apartPoints === null ? '–' : `${piece.apartPoints.toFixed(1)} points`
      }</td><td class="fill"></td></tr>`,
  )}</tbody></table>
<h2>In this order</h2><table><tbody>${part.checklist.map(
    (item) =>
      html`<tr><td>${BOX}</td><td>${item.check}</td><td>${item.met === false ? html`<strong>not met: ${unbroken(item.detail)}</strong>` : unbroken(item.detail)}</td><td>${item.source}</td></tr>`,
  )}</tbody></table>
${at === 0 ? cautionsOf(glueUp) : nothing}
</article>`;
}

const boardText = (board: Part['pieces'][number]['boards'][number]) =>
  board.moisturePercent === null ? `${board.tag} (no reading)` : `${board.tag} ${board.moisturePercent} %`;

const span = ([least, most]: readonly [number, number], digits: number) =>
  least.toFixed(digits) === most.toFixed(digits)
    ? least.toFixed(digits)
    : `${least.toFixed(digits)} to ${most.toFixed(digits)}`;

function factsOf(part: Part, settings: Settings): [string, string][] {
  const { clamps, batches } = part;
  const [first] = part.elements;
  const facts: [string, string][] = [
    ['To glue', `${part.copies} ${part.copies === 1 ? 'piece' : 'pieces'}`],
    [
      part.kind === 'plies' ? 'Plies' : 'Staves',
      `${part.elements.length}${first ? ` of ${tape(first.thicknessNm, settings)} × ${tape(part.kind === 'staves' ? staveOnTapeNm(first.widthNm, settings) : first.widthNm, settings)}${jointText(part, settings)}` : ''}`,
    ],
    ['Glue lines', `${part.glueLinesPerPiece} a piece, ${part.glueLineAreaM2.toFixed(2)} m² in all`],
    ['Glue', `${span(part.glueG, 0)} g (${span(part.glueMl, 0)} mL)`],
  ];
  if (part.bottles !== null) facts.push(['Bottles', `${part.bottles}`]);
  if (clamps) facts.push(['Clamps a piece', span([clamps.least.count, clamps.most.count], 0)]);
  if (part.pressureKPa) facts.push(['Pressure', `${pressureText(part.pressureKPa, settings)}`]);
  if (part.reachedKPa !== null) {
    facts.push(['Your clamps reach', pressureText([part.reachedKPa, part.reachedKPa], settings)]);
  }
  facts.push(['In clamps', `${span(part.clampHours, 0)} hours`]);
  if (batches) {
    const lines = batches.glueLines.length > 1 ? ` of ${batches.glueLines.join(', ')} glue lines` : '';
    facts.push(['Batches', `${batches.count}${lines}`]);
  }
  return facts;
}

/** Staves are wider than the panel divided among them: what jointing takes is on them still. */
const jointText = ({ kind }: Part, { allowances, shown, denominator }: Settings) =>
  kind === 'staves'
    ? ` before jointing, which takes ${tape(allowances.glueJointWidthNm, { shown, denominator })} a joint`
    : '';

const pressureText = (kPa: readonly [number, number], settings: Settings) =>
  settings.shown === 'in'
    ? `${span([kPa[0] / KPA_PER_PSI, kPa[1] / KPA_PER_PSI], 0)} psi`
    : `${span([kPa[0] / 1000, kPa[1] / 1000], 2)} MPa`;

function warningsOf(part: Part): string[] {
  return [
    ...(part.moisture && part.moisture.apartPoints > 2
      ? [
          `Its layers read ${part.moisture.apartPoints.toFixed(1)} points apart: let them come together before you glue.`,
        ]
      : []),
    ...(part.batchesWhy ? [`Batches are not counted: ${part.batchesWhy}.`] : []),
  ];
}

function cautionsOf(glueUp: GlueUp): Markup {
  return html`<section class="cautions"><p><strong>Before you open the glue.</strong></p>
<ul>${glueUp.cautions.map((caution) => html`<li>${caution}</li>`)}</ul>
<p>${glueUp.notes.join(' ')}</p>
<p>Figures: ${glueUp.sources.map((source) => `${source.of} – ${source.words}`).join('; ')}.</p></section>`;
}
