/** Routes of the glue-up: what one part needs, and all laminated parts of a job with the moisture of their boards. */
import type { Grain } from '../../contract/board.ts';
import type { PartWithPieces, Piece } from '../../contract/job.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { latestMoisturePercent, moistureLimitPercent } from '../../takeoff/dry-enough.ts';
import type { PartShape } from '../../takeoff/elements.ts';
import type { Adhesive } from '../../wood/adhesive.ts';
import { gluePreparation } from '../../wood/glue-preparation.ts';
import { pliesFor } from '../../wood/glue-up.ts';
import { bookWith } from '../../wood/own-wood.ts';
import { sourceWords } from '../../wood/source.ts';
import { endView } from '../cards/end-view.ts';
import { glueUpPage } from '../cards/glue-up-sheet.ts';
import { type Call, good, type Handler, type Outcome } from '../serve.ts';
import { noJob } from './jobs.ts';
import { woodNamed, worked } from './wood-call.ts';
import { adhesiveOf, apart, assemblyOf, type Facts, type Glue, needsOf, type Range } from './wood-glue-need.ts';
import { adhesiveSources, cite, gravityOf } from './wood-source.ts';

function checklistOf(adhesive: Adhesive, facts: Facts, limitPercent: number, moisturePercents: readonly number[]) {
  const known = {
    moisturePercents,
    limitPercent,
    temperatureC: facts.temperatureC ?? null,
    hoursSincePlaned: facts.hoursSincePlaned ?? null,
  };
  return gluePreparation(adhesive, known).map((item) => ({ ...item, source: sourceWords[item.source] }));
}

const cautionsOf = (adhesive: Adhesive) => [
  adhesive.caution,
  'The glue maker’s sheet and your local rules come before these figures.',
  'Beds, shelves, stairs and anything that carries people: strength is for local codes and licensed practice.',
];

const NOTES = [
  'Few hand clamps reach the printed pressures; sound joints are made with less where they close by hand.',
  'Neighbours of like moisture and ring angle keep a panel flat; alternate or match the rings as you choose (common practice, no source).',
  'Batches are the fewest that the times and the clamps allow.',
];

const ownFigures = (facts: Facts) => ({
  spread: facts.spreadGPerM2 !== undefined,
  open: facts.openMinutes !== undefined,
  pressure: facts.pressureKPa !== undefined,
});

function shapeOf(body: Call<'woodGlueUp'>['body']): PartShape {
  const { lengthNm, widthNm, thicknessNm, plyThicknessNmMax, staves } = body;
  const size = { lengthNm, widthNm, thicknessNm };
  if (staves !== undefined) return { ...size, lamination: { kind: 'staves', count: staves } };
  const { count, plyNm } = pliesFor(thicknessNm, plyThicknessNmMax ?? thicknessNm);
  if (count === 1) return { ...size, lamination: null };
  const plies = Array.from({ length: count }, () => ({ thicknessNm: plyNm, widthNm, offsetNm: 0 }));
  return { ...size, lamination: { kind: 'plies', plies } };
}

const woodGlueUp = worked<'woodGlueUp'>((body, settings) => {
  const wood = woodNamed(body.species, settings);
  if (!wood.ok) return wood;
  const adhesive = adhesiveOf(body);
  const glue = { adhesive, facts: body, wood: wood.value };
  return good({
    ...needsOf(assemblyOf(shapeOf(body), body, settings), body.copies, glue, body.moisturePercents),
    checklist: checklistOf(adhesive, body, settings.moistureMax.layer, body.moisturePercents),
    cautions: cautionsOf(adhesive),
    sources: [...adhesiveSources(adhesive, ownFigures(body)), gravityOf(wood.value), cite.clampFan, cite.glueDensity],
    notes: NOTES,
  });
});

const isPast = (piece: Piece) => piece.state === 'glued-up' || piece.state === 'milled' || piece.state === 'failed';

interface BoardMoisture {
  readonly tag: string;
  readonly moisturePercent: number | null;
  readonly grain: Grain;
}
type PartRow = Answer<'glueUpJob'>['parts'][number];

/** The boards that the layers of one copy come from; failed layers are out. */
function layerBoards(part: PartWithPieces, no: number, boards: ReadonlyMap<string, BoardMoisture>): BoardMoisture[] {
  const layers = part.pieces.filter((piece) => piece.no === no && piece.element !== null && piece.state !== 'failed');
  const ids = [...new Set(layers.flatMap((piece) => piece.boardId ?? []))];
  return ids.flatMap((id) => boards.get(id) ?? []);
}

const known = (boards: readonly BoardMoisture[]) => boards.flatMap((board) => board.moisturePercent ?? []);

/** A laminated part's copies that are still to be glued up; null where none is. */
function partRow(
  part: PartWithPieces,
  boards: ReadonlyMap<string, BoardMoisture>,
  glue: Glue,
  settings: Settings,
): PartRow | null {
  const copies = part.pieces.filter((piece) => piece.element === null && !isPast(piece));
  if (part.lamination === null || copies.length === 0) return null;
  const pieces = copies.map(({ no }) => {
    const layers = layerBoards(part, no, boards);
    return { no, boards: layers, apartPoints: apart(known(layers))?.apartPoints ?? null };
  });
  const assembly = assemblyOf(part, glue.facts, settings);
  const furthestFirst = [...pieces].sort((a, b) => (b.apartPoints ?? -1) - (a.apartPoints ?? -1));
  const limitPercent = moistureLimitPercent(part, 'ply', settings);
  return {
    partKey: part.key,
    label: part.label,
    kind: part.lamination.kind,
    ...needsOf(assembly, copies.length, glue, known(furthestFirst[0]?.boards ?? [])),
    pieces,
    drawing: endView(
      { ...part, lamination: part.lamination, elements: assembly.elements, grain: grainOf(part, pieces) },
      settings,
    ),
    checklist: strictest(
      furthestFirst.map((piece) => checklistOf(glue.adhesive, glue.facts, limitPercent, known(piece.boards))),
    ),
  };
}

/** How its boards are sawn where they agree; else what the part asks for. */
function grainOf(part: PartWithPieces, pieces: PartRow['pieces']): Grain {
  const grains = new Set(pieces.flatMap(({ boards }) => boards.map(({ grain }) => grain)));
  const only = [...grains][0];
  return grains.size === 1 && only ? only : part.grain;
}

type Checklist = ReturnType<typeof checklistOf>;

/** One list for all copies, those whose layers stand furthest apart first: of each item the first that is not met, or else not known. */
function strictest(lists: readonly Checklist[]): Checklist {
  return (lists[0] ?? []).map((item, at) => {
    const all = lists.flatMap((list) => list[at] ?? []);
    return all.find(({ met }) => met === false) ?? all.find(({ met }) => met === null) ?? item;
  });
}

/** Boards by id, of any state: a board that is cut up still knows its last reading. */
async function boardsOf(call: Pick<Call<'glueUpJob'>, 'ask'>, parts: readonly PartWithPieces[]) {
  const ids = new Set(parts.flatMap((part) => part.pieces.flatMap((piece) => piece.boardId ?? [])));
  const found = new Map<string, BoardMoisture>();
  for (const boardId of ids) {
    const board = await call.ask('board', { boardId });
    if (!board.ok) return board;
    if (board.value) {
      const { tag, readings, grain } = board.value;
      found.set(boardId, { tag, moisturePercent: latestMoisturePercent(readings), grain });
    }
  }
  return good(found);
}

type GlueUpOfJob = {
  readonly answer: Answer<'glueUpJob'>;
  readonly jobName: string;
  readonly glueName: string;
  readonly settings: Settings;
};

async function glueUpOf(call: Pick<Call<'glueUpJob'>, 'body' | 'path' | 'ask'>): Promise<Outcome<GlueUpOfJob>> {
  const snapshot = await call.ask('snapshot', { jobIds: [call.path.id ?? ''], boards: { which: 'named', ids: [] } });
  if (!snapshot.ok) return snapshot;
  const job = snapshot.value?.jobs[0];
  if (!snapshot.value || !job) return noJob;
  const { settings } = snapshot.value;
  const facts = call.body;
  const adhesive = adhesiveOf(facts);
  const book = bookWith(settings.ownWoods);
  const laminated = job.parts.filter((part) => part.lamination !== null);
  const boards = await boardsOf(call, laminated);
  if (!boards.ok) return boards;
  const parts = laminated.flatMap((part) => {
    const row = partRow(part, boards.value, { adhesive, facts, wood: book.byKey(part.species) }, settings);
    return row ?? [];
  });
  const sum = (at: 0 | 1) => parts.reduce((total, part) => total + part.glueMl[at], 0);
  const glueMl: Range = [sum(0), sum(1)];
  const woods = new Set(laminated.flatMap((part) => book.byKey(part.species) ?? []));
  const answer: Answer<'glueUpJob'> = {
    parts,
    glueMl,
    bottles: facts.bottleMl === undefined ? null : Math.ceil(glueMl[1] / facts.bottleMl),
    cautions: cautionsOf(adhesive),
    sources: [
      ...adhesiveSources(adhesive, ownFigures(facts)),
      ...[...woods].map(gravityOf),
      cite.clampFan,
      cite.glueDensity,
    ],
    notes: [
      ...NOTES,
      'Moisture is the last reading of the board that each layer comes from; read the layers themselves before gluing.',
    ],
  };
  return good({ answer, jobName: job.name, glueName: adhesive.name, settings });
}

const glueUpJob: Handler<'glueUpJob'> = async (call) => {
  const glueUp = await glueUpOf(call);
  return glueUp.ok ? good(glueUp.value.answer) : glueUp;
};

const glueUpSheet: Handler<'glueUpSheet'> = async (call) => {
  const glueUp = await glueUpOf(call);
  if (!glueUp.ok) return glueUp;
  const { answer, ...of } = glueUp.value;
  return good(glueUpPage({ ...of, glueUp: answer }));
};

export const woodGlueUpHandlers = { woodGlueUp, glueUpJob, glueUpSheet };
