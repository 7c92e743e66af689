/** One board's card: what it is, how it is cut, step by step, what comes off it, and what goes back to the rack. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout, PlacedPiece } from '../../contract/plan.ts';
import type { Settings } from '../../contract/settings.ts';
import { boardWeight, weightText } from '../../planner/board-warnings.ts';
import { type CutStep, cutsInWords, tape } from '../../planner/cut-words.ts';
import { type BoardFace, drawLayoutForCard } from '../../planner/drawing.ts';
import { pieceMarks, pieceRows, roughSize } from '../../planner/drawing-pieces.ts';
import { drawingSvg } from '../../planner/drawing-svg.ts';
import { trimReasons } from '../../planner/trim-reason.ts';
import { comparedStyle } from '../../takeoff/grid.ts';
import { dayText } from '../../wood/day.ts';
import { lengthText } from '../../wood/length.ts';
import { bookWith } from '../../wood/own-wood.ts';
import { pieceName } from '../../wood/piece-name.ts';
import { cardWarnings, finishedSize, moistureText, restText } from './facts.ts';
import { html, type Markup, nothing, ready, unbroken } from './html.ts';
import { BOX, factList } from './paper.ts';

export interface CardInput {
  readonly layout: Layout;
  /** Null when the board has left the stock since it was planned. */
  readonly board: Board | null;
  readonly job: JobWithParts;
  readonly settings: Settings;
  /** 1 is cut first; a rest lies between phases. */
  readonly phaseNo: number;
  readonly sessionDay: string;
  readonly no: number;
  readonly of: number;
  readonly isDone: boolean;
  /** Stands above the drawing. */
  readonly head: Markup;
  /** Stands under the card. */
  readonly foot: Markup;
}

const LINE = html`<span class="line"></span>`;

export function cutCard(input: CardInput): Markup {
  const { layout, board, job, settings } = input;
  const face: BoardFace = board ?? { ...layout, defects: [] };
  const warnings = board
    ? cardWarnings(board, layout, settings)
    : ['This board is no longer in stock as planned. Check with the stock list before you cut.', ...layout.warnings];
  const drawing = drawingSvg(drawLayoutForCard(face, layout, settings), { idPrefix: `c${input.no}` });
  return html`<article class="card">
<header><h1>${layout.tag}</h1><p><span class="job">${job.name}</span><br>Cut card ${input.no} of ${input.of} · session of ${dayText(input.sessionDay)}${
    job.dueOn === null ? '' : ` · due ${dayText(job.dueOn)}`
  }${input.isDone ? ' · already written down' : ''}</p></header>
${facts(input)}
${warnings.length === 0 ? nothing : html`<ul class="warn">${warnings.map((warning) => html`<li>${unbroken(warning)}</li>`)}</ul>`}
${layout.reserves.length === 0 ? nothing : html`<ul class="warn">${layout.reserves.map(({ words }) => html`<li>${unbroken(words)}</li>`)}</ul>`}
${input.head}
<div class="drawing">${ready(drawing)}</div>
${steps(input)}
${pieces(input)}
${offcuts(input)}
${input.foot}
</article>`;
}

function facts({ layout, board, settings, phaseNo }: CardInput): Markup {
  const weight = board && boardWeight(board, settings);
  const rows: [string, string][] = [
    [
      'Size',
      `${tape(layout.thicknessNm, settings)} × ${tape(layout.widthNm, settings)} × ${tape(layout.lengthNm, settings)}`,
    ],
  ];
  if (board) {
    rows.unshift(['Species', bookWith(settings.ownWoods).byKey(board.species)?.name ?? board.species]);
    if (board.thicknessCall !== null) rows.push(['Call', board.thicknessCall]);
    rows.push(['Place', board.place || 'not noted'], ['MC', moistureText(board)]);
    if (weight) rows.push(['Weight', `about ${weightText(weight.massKg, settings)}`]);
  }
  if (phaseNo > 1) rows.push(['Phase', `${phaseNo}: after the parts of phase ${phaseNo - 1} have rested`]);
  return factList(rows);
}

function steps({ layout, board, settings }: CardInput): Markup {
  const marks = pieceMarks(layout.pieces);
  const markOf = new Map(layout.pieces.map((piece, index) => [piece, marks[index] ?? '']));
  const nameOf = (piece: PlacedPiece) => {
    const face = piece.showFace === null ? '' : `, show face ${piece.showFace}`;
    return `${pieceName(piece)} (${markOf.get(piece) ?? ''})${face}`;
  };
  const list = cutsInWords(layout, settings, nameOf, trimReasons(board ?? { ...layout, defects: [] }, settings));
  if (list.length === 0) return html`<p>No cuts: the board is used whole.</p>`;
  const rows = list.map((step, index) => {
    const before = list[index - 1];
    const again = before && before.axis === step.axis && before.setting === step.setting;
    return html`<tr><td>${BOX}</td><td class="no">${step.no}</td>
<td class="cut">${step.verb} ${step.stock}</td><td class="${again ? 'set again' : 'set'}">${capital(
      step.setting,
    )}</td><td class="cut">${step.toMark ? (step.axis === 'rip' ? 'from the ' : 'off the ') : ''}${step.against}</td><td>${unbroken(givesText(step))}</td></tr>`;
  });
  return html`<h2>Cuts</h2>
<p class="hint">Face a up; the left edge is away from you when the tag is at your left. A setting in bold is a new one.${
    board?.origin.kind === 'offcut'
      ? nothing
      : ' The edge against the fence must be straight: joint it, or snap a line and cut to it. The blanks are wider than finished for that.'
  }</p>
<table class="cuts"><thead><tr><th></th><th>No</th><th>Cut</th><th>Set</th><th>Held against</th><th>Gives</th></tr></thead>
<tbody>${rows}</tbody></table>`;
}

function pieces({ layout, job, settings }: CardInput): Markup {
  const rows = pieceRows(layout.pieces, settings).map((row) => {
    const part = job.parts.find((one) => one.key === row.piece.partKey);
    return html`<tr><td class="no">${row.letter}</td><td>${unbroken(row.label + row.layer)}</td><td>${row.numbers}</td><td>${unbroken(row.size)}</td><td>${unbroken(
      finishedSize(part, row.piece.element, settings) ?? 'no longer on the cut list',
    )}</td><td><span class="one">${restText(part, settings)}</span></td><td class="fill"></td><td class="fill"></td></tr>`;
  });
  return html`<h2>Pieces</h2><table><thead><tr><th></th><th>Part</th><th>No</th><th>Rough, width × length</th><th>Finished, T × W × L</th><th>Rest</th><th>Good</th><th>Failed, why</th></tr></thead>
<tbody>${rows}</tbody></table>
<p class="hint">Sticker the pieces as soon as they are cut. Resting until: ____________________</p>`;
}

function offcuts({ layout, settings }: CardInput): Markup {
  if (layout.offcuts.length === 0) return nothing;
  const rows = layout.offcuts.map((rect) => {
    const show = (alongNm: number) => lengthText(alongNm, comparedStyle(rect.toNm, settings));
    return html`<tr><td>${BOX}</td><td>${unbroken(roughSize(rect, settings))}</td><td>${unbroken(
      `${show(rect.fromNm)} to ${show(rect.toNm)}`,
    )}</td><td class="fill">${LINE}</td><td class="fill">${LINE}</td></tr>`;
  });
  return html`<h2>Offcuts to tag and put back</h2><table><thead><tr><th></th><th>Width × length</th><th>From the tagged end</th><th>New tag</th><th>Place</th></tr></thead>
<tbody>${rows}</tbody></table>`;
}

/** What comes off, and of a trim why. */
const givesText = ({ gives, why }: CutStep): string =>
  `${gives.join(', ') || 'goes on'}${why === null ? '' : ` (${why})`}`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
