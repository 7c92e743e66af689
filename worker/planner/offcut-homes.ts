/** Boards ranked as homes for one piece: offcuts before whole boards, what wastes least before what wastes more. */
import type { BoardView } from '../contract/board.ts';
import type { JobWithParts } from '../contract/job.ts';
import type { HomesAnswer, Layout } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { blankFor } from '../takeoff/blank.ts';
import { roundedUpNm, tapeStepNm } from '../takeoff/grid.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { tape } from './cut-words.ts';
import { presentOneCut } from './offcut-present.ts';
import { cutForHome } from './offcut-search.ts';
import { faceM2 } from './present-layout.ts';
import { distance } from './present-unplaced.ts';
import { holdsInTheWay, type ShopBoard, shopBoard } from './shop-board.ts';
import { type FitOptions, placeOn } from './shop-fit.ts';
import { gridFits } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';

const HOMES_MOST = 20;
const NOT_MOST = 10;
const OPTIONS: FitOptions = { evenIfThick: false };

interface Able {
  readonly on: ShopBoard;
  readonly lengthNm: number;
  readonly widthNm: number;
  /** At which it is cut, once a crooked edge is straight. */
  readonly cutWidthNm: number;
}

interface Ranked {
  readonly home: Able;
  readonly layout: Layout;
  readonly wasteM2: number;
  readonly asks: Wanted;
}

export function homesAmong(
  asks: Wanted,
  boards: readonly BoardView[],
  job: JobWithParts | null,
  settings: Settings,
  worth: Worth,
): HomesAnswer {
  const woodOf = woodReader(settings);
  const able: Able[] = [];
  const not: { readonly tag: string; readonly why: string; readonly distance: number }[] = [];
  for (const board of boards) {
    const wood = woodOf(board.species);
    if (board.state !== 'in-stock' || wood.key !== asks.wood.key) continue;
    const on = shopBoard(board, wood, holdsInTheWay(board, job), settings);
    const fit = placeOn(asks, on, settings, OPTIONS);
    if (fit.ok) able.push({ on, lengthNm: fit.lengthNm, widthNm: fit.widthNm, cutWidthNm: fit.cutWidthNm });
    else
      not.push({
        tag: board.tag,
        why: fit.fails.map((fail) => fail.words).join('; '),
        distance: distance(fit.fails),
      });
  }
  const homes = able
    .sort((a, b) => rank(a, b) || leftoverM2(a, settings) - leftoverM2(b, settings) || volume(a) - volume(b))
    .slice(0, HOMES_MOST)
    .flatMap((home): Ranked[] => {
      const fits = gridFits([asks], home.on, settings, OPTIONS);
      const cut = cutForHome(asks, { on: home.on, fits }, settings, worth);
      const layout = cut && presentOneCut(cut, home.on, settings);
      return layout ? [{ home, layout, wasteM2: faceM2(layout.scrap), asks }] : [];
    })
    .sort((a, b) => rank(a.home, b.home) || wasteM3(a) - wasteM3(b) || volume(a.home) - volume(b.home));
  return {
    rough: blankFor(asks.finished, settings, {
      species: asks.wood.species,
      moisturePercent: asks.limitPercent,
      grain: asks.part.grain,
    }),
    homes: homes.map(({ home: { on, lengthNm, cutWidthNm }, layout, wasteM2 }) => ({
      boardId: on.board.id,
      tag: on.board.tag,
      isOffcut: isOffcut(on),
      place: on.board.place,
      needs: { lengthNm, widthNm: roundedUpNm(cutWidthNm, tapeStepNm(settings)) },
      wasteM2,
      why: whyHome(on, lengthNm, layout, settings),
      drawing: layout.drawing,
    })),
    not: not
      .sort((a, b) => a.distance - b.distance)
      .slice(0, NOT_MOST)
      .map(({ tag, why }) => ({ tag, why })),
  };
}

const isOffcut = (on: ShopBoard): boolean => on.board.origin.kind === 'offcut';

/** Offcuts, then boards that nobody else has a part of, then the rest. */
function rank(a: Able, b: Able): number {
  const of = ({ on }: Able) => (isOffcut(on) ? 0 : 1) + (on.held.length > 0 ? 2 : 0);
  return of(a) - of(b);
}

const volume = ({ on: { board } }: Able): number => (board.lengthNm / 1e9) * board.widthNm * board.thicknessNm;

/** Scrap through the whole thickness, and what is planed off the piece itself. */
function wasteM3({ home, layout, wasteM2, asks }: Ranked): number {
  const thicknessM = home.on.board.thicknessNm / 1e9;
  return wasteM2 * thicknessM + faceM2(layout.pieces) * (thicknessM - asks.finished.thicknessNm / 1e9);
}

/** What would be left too short or too narrow to keep, without working out the cuts. */
function leftoverM2({ on, lengthNm, widthNm }: Able, settings: Settings): number {
  const runNm = on.trimmed ? on.trimmed.toNm - on.trimmed.fromNm : 0;
  const alongNm = runNm - lengthNm;
  const acrossNm = on.board.widthNm - widthNm;
  const lost = (restNm: number, leastNm: number) => (restNm < leastNm ? restNm / 1e9 : 0);
  return (
    lost(alongNm, settings.offcutMin.lengthNm) * (on.board.widthNm / 1e9) +
    lost(acrossNm, settings.offcutMin.widthNm) * (lengthNm / 1e9)
  );
}

function whyHome(on: ShopBoard, lengthNm: number, layout: Layout, settings: Settings): string {
  const stepNm = tapeStepNm(settings);
  const runNm = on.trimmed ? on.trimmed.toNm - on.trimmed.fromNm : 0;
  // As the drawing beside it writes them.
  const down = (nm: number) => tape(Math.floor(nm / stepNm) * stepNm, settings);
  const spareNm = runNm - lengthNm;
  const exact = spareNm < settings.offcutMin.lengthNm ? `a near fit, ${down(spareNm)} longer than needed` : '';
  const kept = layout.offcuts.map((o) => `${down(o.rightNm - o.leftNm)} × ${down(o.toNm - o.fromNm)}`);
  const leaves = kept.length > 0 ? `leaves ${kept.join(' and ')} to keep` : 'leaves nothing to keep';
  return [isOffcut(on) ? 'an offcut' : '', exact, leaves].filter(Boolean).join('; ');
}
