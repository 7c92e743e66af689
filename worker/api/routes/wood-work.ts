/** Routes about a board's shape and worth: what a warped one still gives, and the grade that its clear cuttings make. */
import type { Defect } from '../../contract/board.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Answer } from '../../contract/wire.ts';
import { tape } from '../../planner/cut-words.ts';
import { drawLayout } from '../../planner/drawing.ts';
import { type FaceAdvice, gradeAdvice, gradeIsAtLeast, type HardwoodGrade, readGrade } from '../../wood/grade.ts';
import { cuttingUnits } from '../../wood/grade-cuttings.ts';
import { NM_PER_MM } from '../../wood/unit.ts';
import {
  type BoardWarp,
  CLEANUP_EDGE_NM,
  CLEANUP_FACES_NM,
  flatThicknessNm,
  kinkDepthNm,
  likelyCrookNm,
  stationDepthNm,
  straightWidthNm,
  warpOver,
} from '../../wood/warp.ts';
import { type Call, good, type Handler, refuse } from '../serve.ts';
import { worked } from './wood-call.ts';
import { cite } from './wood-source.ts';

type WarpBody = Call<'woodWarp'>['body'];
interface Cut {
  readonly fromNm: number;
  readonly lengthNm: number;
  readonly widthNm: number;
}

/** The warp of a piece: the even curve's share, or what its stations show, and the kink where it holds one. */
function warpIn(body: WarpBody, cut: Cut): BoardWarp {
  const even = warpOver(body.warp, body, cut);
  const reach = { fromNm: cut.fromNm, toNm: cut.fromNm + cut.lengthNm };
  const kinkNm = body.kink ? kinkDepthNm(body.kink, body.lengthNm, reach) : 0;
  const measuredNm = body.stations ? stationDepthNm(body.stations.places, reach) : 0;
  const bowNm = body.stations?.form === 'bow' ? measuredNm : even.bowNm;
  const crookNm = body.stations?.form === 'crook' ? measuredNm : even.crookNm;
  return { ...even, bowNm, crookNm: crookNm + kinkNm };
}

function givenBy(body: WarpBody, cut: Cut) {
  const warp = warpIn(body, cut);
  const thicknessNm = flatThicknessNm(body.thicknessNm, warp, body.cleanupFacesNm ?? CLEANUP_FACES_NM);
  const widthNm = straightWidthNm(cut.widthNm, warp, body.cleanupEdgeNm ?? CLEANUP_EDGE_NM);
  const gives = {
    lengthNm: cut.lengthNm,
    thicknessNm,
    widthNm,
    lostThicknessNm: body.thicknessNm - thicknessNm,
    lostWidthNm: cut.widthNm - widthNm,
    enough: body.need ? thicknessNm >= body.need.thicknessNm && widthNm >= (body.need.widthNm ?? 1) : null,
  };
  return { warp, gives };
}

const CROSSCUTS_MAX = 8;

/** The board in so many equal lengths at full width; of the lengths, the one that gives least stands for all. */
function crosscutInto(body: WarpBody, count: number, kerfNm: number) {
  const lengthNm = Math.floor((body.lengthNm - (count - 1) * kerfNm) / count);
  if (lengthNm <= 0) return [];
  const cuts = Array.from({ length: count }, (_, at) => ({
    fromNm: at * (lengthNm + kerfNm),
    lengthNm,
    widthNm: body.widthNm,
  }));
  const all = cuts.map((cut) => givenBy(body, cut).gives);
  const thicknessNm = Math.min(...all.map((one) => one.thicknessNm));
  const widthNm = Math.min(...all.map((one) => one.widthNm));
  return [
    {
      count,
      lengthNm,
      thicknessNm,
      widthNm,
      lostThicknessNm: body.thicknessNm - thicknessNm,
      lostWidthNm: body.widthNm - widthNm,
      enough: body.need ? all.every((one) => one.enough === true) : null,
    },
  ];
}

/** The longest length, in whole millimetres, that still gives what is needed; an even curve only gets worse with length. */
function longestNm(body: WarpBody): number | null {
  if (!body.need || body.kink || body.stations) return null;
  const enough = (lengthNm: number) => givenBy(body, { fromNm: 0, lengthNm, widthNm: body.widthNm }).gives.enough;
  if (enough(body.lengthNm)) return body.lengthNm;
  let least = 0;
  let most = Math.floor(body.lengthNm / NM_PER_MM);
  while (most - least > 1) {
    const middle = Math.floor((least + most) / 2);
    if (enough(middle * NM_PER_MM)) least = middle;
    else most = middle;
  }
  return least === 0 ? null : least * NM_PER_MM;
}

const woodWarp = worked<'woodWarp'>((body, settings) => {
  const whole = givenBy(body, { fromNm: 0, lengthNm: body.lengthNm, widthNm: body.widthNm });
  const longest = longestNm(body);
  const likely = body.drying
    ? likelyCrookNm(body.warp.crookNm, body.drying.nowPercent, body.drying.targetPercent)
    : null;
  const kerfNm = settings.kerf.crosscutNm;
  const counts = Array.from({ length: CROSSCUTS_MAX }, (_, at) => at + 1);
  return good({
    whole: whole.gives,
    pieces: body.pieces.map((cut) => {
      const { warp, gives } = givenBy(body, cut);
      return { ...gives, fromNm: cut.fromNm, warp };
    }),
    crosscut: counts.flatMap((count) => crosscutInto(body, count, kerfNm)),
    longestNm: longest,
    likelyCrookNm: likely,
    sources: [
      cite.warp,
      cite.cleanup,
      ...(body.kink ? [cite.kink] : []),
      ...(body.stations ? [cite.stations] : []),
      ...(likely === null ? [] : [cite.likelyCrook]),
    ],
    notes: warpNotes(body, longest, settings),
  });
});

function warpNotes(body: WarpBody, longest: number | null, settings: Settings): string[] {
  const uneven = body.kink !== undefined || body.stations !== undefined;
  return [
    'Crosscut crooked, bowed or twisted boards to rough length first, then joint and rip; rip cupped boards before flattening; cut kinked boards at the kink.',
    ...(longest === null ? [] : [`Crosscut no longer than ${tape(longest, settings)} to keep what is needed.`]),
    ...(body.need && longest === null && !uneven
      ? ['At full width no length gives what is needed: rip it first.']
      : []),
    ...(body.need && uneven
      ? ['With a kink or stations the longest length depends on the place: read the crosscut table.']
      : []),
    ...(body.drying ? ['A likely crook is an inference: measure again before cutting.'] : []),
    'Unflattened cup and twist bind at the saw and kick back: flatten first, or rip on the band saw.',
  ];
}

type GradeBody = Call<'woodGrade'>['body'];

function drawnFace(advice: FaceAdvice, body: GradeBody, settings: Settings): Answer<'woodGrade'>['better'] {
  const shown: Defect[] = body.defects.filter((d) => d.face === advice.face || d.face === 'through');
  const pieces = advice.cuttings.map((cutting, at) => ({
    ...cutting,
    partKey: 'cutting',
    label: 'Clear cutting',
    no: at + 1,
    element: null,
    what: 'solid' as const,
    showFace: null,
    attempt: 1,
  }));
  const { lengthNm, widthNm, tag } = body;
  const layout = { lengthNm, widthNm, pieces, cuts: [], offcuts: [], scrap: [], unevenEdges: [] };
  const drawing = drawLayout({ tag, lengthNm, widthNm, defects: shown }, layout, settings);
  return {
    face: advice.face,
    grade: advice.grade,
    units: advice.units,
    need: advice.need && { ...advice.need },
    cuttings: advice.cuttings.map((cutting) => ({ ...cutting, units: cuttingUnits(cutting) })),
    drawing: {
      ...drawing,
      title: `${drawing.title}, face ${advice.face}: ${advice.grade ?? 'no grade'}`,
      description: `Face ${advice.face} makes ${advice.grade ?? 'no grade'}. ${drawing.description}`,
    },
  };
}

function graded(body: GradeBody, settings: Settings): Answer<'woodGrade'> {
  const advice = gradeAdvice(body, body.defects);
  const paid: HardwoodGrade | undefined = body.gradePaid;
  return {
    grade: advice.grade,
    surfaceMeasureFt2: advice.surfaceMeasure,
    better: drawnFace(advice.better, body, settings),
    poorer: drawnFace(advice.poorer, body, settings),
    paid: paid ? { grade: paid, reached: gradeIsAtLeast(advice.grade, paid) } : null,
    sources: [cite.gradeTable, cite.gradeFaces, cite.surfaceMeasure],
    notes: [
      ...advice.notes,
      'On the poorer face a cutting must be sound on its reverse too; only the defects of the face itself are drawn.',
      'Advice, not a certificate: only the defects that were measured count, and better cuttings might be found.',
    ],
  };
}

const woodGrade = worked<'woodGrade'>((body, settings) => good(graded(body, settings)));

const gradeBoard: Handler<'gradeBoard'> = async (call) => {
  const board = await call.ask('board', { boardId: call.path.id ?? '' });
  if (!board.ok) return board;
  const facts = await call.ask('yard-facts', {});
  if (!facts.ok) return facts;
  if (!board.value || !facts.value) return refuse('not-found', 'There is no such board in this yard.');
  const { tag, lengthNm, widthNm, defects, grade } = board.value;
  const paid = call.body.gradePaid ?? (grade === null ? null : readGrade(grade));
  return good(graded({ tag, lengthNm, widthNm, defects, ...(paid ? { gradePaid: paid } : {}) }, facts.value.settings));
};

export const woodWorkHandlers = { woodWarp, woodGrade, gradeBoard };
