/**
 * Moving pieces by hand, outside a session: passing or failing them after the rest, gluing up, milling, taking back. The
 * steps of one request happen in their order, so three layers can pass and be glued up in one go.
 */
import type { Piece, PieceStep } from '../../contract/job.ts';
import type { Fault } from '../../contract/problem.ts';
import { dayText } from '../../wood/day.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, type Decision, moved, refused } from '../decision.ts';
import { type StoredPart, type YardReader, yardSettings } from '../state.ts';
import { counted, listed } from '../words.ts';
import { openJobOf } from './jobs.ts';
import { layerCount, PartsAtWork } from './parts-at-work.ts';

const HOUR_MS = 3_600_000;

interface Bench {
  readonly parts: PartsAtWork;
  readonly occasion: Occasion;
  readonly cureHours: number;
}

/** Null when the step was taken, otherwise what is in its way. */
type Step = (bench: Bench, part: StoredPart, piece: Piece, step: PieceStep) => string | null;

function stateWords(piece: Piece): string {
  if (piece.state === 'roughed' && piece.restingUntil) return `roughed, resting until ${dayText(piece.restingUntil)}`;
  return piece.state;
}

function cureWords(curingUntilMs: number): string {
  const at = new Date(curingUntilMs).toISOString();
  return `${dayText(at.slice(0, 10))}, ${at.slice(11, 16)} UTC`;
}

const takeBack: Step = ({ parts }, part, piece) => {
  if (piece.state !== 'planned' && piece.state !== 'roughed')
    return `only a planned or roughed piece can be wanted again; this one is ${piece.state}`;
  parts.change(part.key, piece, {
    state: 'wanted',
    boardId: null,
    planId: null,
    sessionId: null,
    restingUntil: null,
    why: '',
  });
  return null;
};

const pass: Step = ({ parts, occasion }, part, piece, step) => {
  if (piece.state !== 'roughed') return `only a roughed piece can pass; this one is ${piece.state}`;
  const until = piece.restingUntil;
  if (until !== null && until > occasion.today && step.why === '')
    return `it rests until ${dayText(until)}; wait, or say why it passes before that day`;
  parts.change(part.key, piece, { state: 'passed', restingUntil: null, why: step.why });
  return null;
};

/** A failed glue-up takes its layers with it. */
const fail: Step = ({ parts }, part, piece, step) => {
  const canFail = ['roughed', 'passed', 'glued-up', 'milled'].includes(piece.state);
  if (!canFail) return `only a piece that was cut can fail; this one is ${piece.state}`;
  if (step.why === '') return 'say why it failed';
  parts.fail(part.key, piece, step.why);
  if (piece.element !== null) return null;
  for (let element = 0; element < layerCount(part); element++) {
    const layer = parts.current(part.key, piece.no, element);
    if (layer?.state === 'glued-up') parts.fail(part.key, layer, step.why);
  }
  return null;
};

const glueUp: Step = ({ parts, occasion, cureHours }, part, piece, step) => {
  const count = layerCount(part);
  if (count === 0) return 'it is one solid piece; there is nothing to glue up';
  if (piece.element !== null) return 'a layer is not glued up by itself; name the piece without a layer';
  if (piece.state !== 'wanted') return `it is ${stateWords(piece)} already`;
  const layers = Array.from({ length: count }, (_, element) => parts.current(part.key, piece.no, element));
  const waiting = layers.flatMap((layer, element) =>
    layer?.state === 'passed' ? [] : [`layer ${element + 1} is ${layer ? stateWords(layer) : 'not there'}`],
  );
  if (waiting.length > 0) return `all its layers must have passed: ${listed(waiting)}`;
  for (const layer of layers) if (layer) parts.change(part.key, layer, { state: 'glued-up' });
  const curingUntilMs = occasion.atMs + Math.round(cureHours * HOUR_MS);
  parts.change(part.key, piece, { state: 'glued-up', curingUntilMs, why: step.why });
  return null;
};

const mill: Step = ({ parts, occasion }, part, piece, step) => {
  if (piece.element !== null) return 'layers are planed for the glue-up; only the whole piece is milled';
  if (layerCount(part) > 0) {
    if (piece.state !== 'glued-up') return `it must be glued up first; it is ${stateWords(piece)}`;
    if (piece.curingUntilMs !== null && piece.curingUntilMs > occasion.atMs)
      return `its glue cures until ${cureWords(piece.curingUntilMs)}`;
  } else {
    const rested = piece.state === 'roughed' && (piece.restingUntil ?? '') <= occasion.today;
    if (piece.state !== 'passed' && !rested) return `it must have passed its rest; it is ${stateWords(piece)}`;
  }
  parts.change(part.key, piece, { state: 'milled', restingUntil: null, curingUntilMs: null, why: step.why });
  return null;
};

const steps: { readonly [S in PieceStep['to']]: Step } = {
  wanted: takeBack,
  passed: pass,
  failed: fail,
  'glued-up': glueUp,
  milled: mill,
};

function nameOf(part: StoredPart, step: PieceStep): string {
  return `${part.label} no. ${step.no}${step.element === null ? '' : `, layer ${step.element + 1}`}`;
}

export function movePieces(state: YardReader, command: CommandOf<'move-pieces'>, occasion: Occasion): Decision {
  const open = openJobOf(state, command.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  const parts = new PartsAtWork(state, job.id);
  const bench = { parts, occasion, cureHours: yardSettings(state).cureHours };
  const faults: Fault[] = [];
  const done: string[] = [];
  for (const [at, step] of command.steps.entries()) {
    const part = parts.part(step.partKey);
    const piece = parts.current(step.partKey, step.no, step.element);
    if (!part || !piece) {
      const read = `${step.partKey} no. ${step.no}`;
      faults.push({ pointer: `/steps/${at}`, row: at, read, help: 'this job has no such piece' });
      continue;
    }
    const help = steps[step.to](bench, part, piece, step);
    if (help === null) done.push(`${nameOf(part, step)} ${step.to}`);
    else
      faults.push({ pointer: `/steps/${at}`, row: at, field: 'to', read: `${nameOf(part, step)} to ${step.to}`, help });
  }
  if (faults.length > 0) {
    const detail = `${listed(
      faults.map((fault) => `${fault.read}: ${fault.help}`),
      2,
    )}. No piece was moved.`;
    return refused('piece-not-there', detail, { faults });
  }
  const summary = `${job.name}: ${done.length > 4 ? counted(done.length, 'step') : listed(done)}`;
  return moved({ kind: 'pieces-moved', jobId: job.id, summary, changes: parts.changes() }, { jobId: job.id });
}
