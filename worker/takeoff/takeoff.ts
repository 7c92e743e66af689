/**
 * What a cut list needs: every part taken apart into its blanks, counted by species and thickness call, weighed,
 * priced, and set against the stock that no other job holds. Net is finished wood and rough is blanks, both true
 * volumes; gross is what to have or buy, rough faces at the called thickness times the shop's waste factor.
 */
import type { BoardView } from '../contract/board.ts';
import type { Part } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import type { BlankRow, Takeoff, TakeoffRow, Volume } from '../contract/takeoff.ts';
import { lengthText } from '../wood/length.ts';
import { boardFeetFromM3, cubicMetres, M3_PER_BOARD_FOOT } from '../wood/volume.ts';
import { densityKgPerM3 } from '../wood/weight.ts';
import { assumptionsOf } from './assumptions.ts';
import { blankFor } from './blank.ts';
import { callFor } from './call.ts';
import { demandBlank } from './demand.ts';
import { elementKinds, laminationFaults, netVolumeM3 } from './elements.ts';
import { type FreeBoard, freeBoard } from './free-board.ts';
import { type GluedInstead, gluedInstead } from './glue-up-instead.ts';
import { tapeStyle } from './grid.ts';
import { type Group, groupKey, groupLots, type Lot } from './group.ts';
import { priceMinorPerBoardFoot } from './price.ts';
import { type Cover, coverDemands, shortM3 } from './stock-cover.ts';
import { groupWarnings, rowStockWarnings } from './stock-warnings.ts';
import { type Wood, woodReader } from './which-wood.ts';

export interface TakeoffInput {
  /** Rows of a cut list; pieces already cut or milled make no difference: the list is counted in full. */
  readonly parts: readonly Part[];
  /** Boards in stock, each with every held run. */
  readonly boards: readonly BoardView[];
  readonly settings: Settings;
  /** What this job holds counts as free for it. null for a list that belongs to no job yet. */
  readonly jobId: string | null;
}

/** One row, worked out but not yet set against the stock. */
interface CountedRow {
  readonly part: Part;
  readonly row: Omit<TakeoffRow, 'warnings' | 'blanks'>;
  /** One for each lot, in its order. */
  readonly blanks: readonly Omit<BlankRow, 'missing' | 'short' | 'staves'>[];
  readonly wood: Wood;
  readonly warnings: readonly string[];
  readonly lots: readonly Lot[];
}

export function takeoff(input: TakeoffInput): Takeoff {
  const { parts, boards, settings, jobId } = input;
  const woodOf = woodReader(settings);
  const priceOf = (wood: Wood, call: string) =>
    priceMinorPerBoardFoot(settings.prices, (species) => woodOf(species).key === wood.key, call);
  const counted = parts.map((part) => countRow(part, settings, woodOf(part.species), priceOf));
  const groups = groupLots(counted);
  const byKey = new Map(groups.map((group) => [groupKey(group.wood, group.call), group]));
  const { covers, staves } = coverGroups(groups, counted, boards, settings, jobId, woodOf);

  const rows = counted.map(({ row, blanks, wood, warnings, lots }): TakeoffRow => {
    const stock = lots.flatMap((lot) => {
      const group = byKey.get(groupKey(wood, lot.call));
      return group ? rowStockWarnings(lot, group, covers.get(group), staves.get(lot) ?? null, settings) : [];
    });
    const found = lots.map((lot) => {
      const group = byKey.get(groupKey(wood, lot.call));
      const missing = (group && covers.get(group)?.missing.get(lot)) ?? 0;
      return { missing, short: volume(shortM3(lot, missing)), staves: staves.get(lot) ?? null };
    });
    return {
      ...row,
      blanks: blanks.map((blank, at) => ({ ...blank, ...(found[at] ?? NOTHING_SHORT) })),
      warnings: [...warnings, ...new Set(stock)],
    };
  });
  const groupRows = groups.map((group) => groupRow(group, covers.get(group), settings, priceOf));
  const total = {
    net: volume(sum(groupRows, (group) => group.net.m3)),
    rough: volume(sum(groupRows, (group) => group.rough.m3)),
    gross: volume(sum(groupRows, (group) => group.gross.m3)),
    toBuy: volume(sum(groupRows, (group) => group.toBuy.m3)),
    weightKg: sum(rows, (row) => row.weightKg),
    costMinor: pricedSum(groupRows.map((group) => group.costMinor)),
    buyMinor: pricedSum(groupRows.map((group) => group.buyMinor)),
    unpriced: groupRows.flatMap((group) =>
      group.costMinor === null ? [`${group.speciesName} ${group.thicknessCall}`] : [],
    ),
  };
  return { jobId, rows, groups: groupRows, total, assumptions: assumptionsOf(settings) };
}

const NOTHING_SHORT = { missing: 0, short: { m3: 0, boardFeet: 0 }, staves: null };

type PriceOf = (wood: Wood, call: string) => number | null;

function countRow(part: Part, settings: Settings, wood: Wood, priceOf: PriceOf): CountedRow {
  const show = (lengthNm: number) => lengthText(lengthNm, tapeStyle(settings));
  const lots: Lot[] = [];
  const blanks: Omit<BlankRow, 'missing' | 'short' | 'staves'>[] = [];
  for (const kind of elementKinds(part, settings)) {
    const blank = demandBlank(part, kind, wood, settings);
    const { count, finished, rough, limitPercent } = blank;
    const call = callFor(finished.thicknessNm, settings);
    const dryPercent = Math.min(limitPercent, settings.targetMoisturePercent);
    const dry = blankFor(finished, settings, {
      species: wood.species,
      moisturePercent: dryPercent,
      grain: part.grain,
    });
    const [element = null] = kind.elements;
    blanks.push({ element, what: kind.what, count, finished, rough, thicknessCall: call.call });
    lots.push({
      ...blank,
      call,
      netM3: part.quantity * netVolumeM3(part, kind),
      roughM3: count * cubicMetres(rough),
      dryWidthNm: dry.widthNm,
    });
  }
  const netM3 = sum(lots, (lot) => lot.netM3);
  const row = {
    key: part.key,
    label: part.label,
    quantity: part.quantity,
    species: wood.key,
    net: volume(netM3),
    rough: volume(sum(lots, (lot) => lot.roughM3)),
    gross: volume(sum(lots, (lot) => lot.grossM3)),
    weightKg: wood.species ? netM3 * densityKgPerM3(wood.species, settings.targetMoisturePercent) : 0,
    costMinor: sumOrNull(lots.map((lot) => minor(boardFeetFromM3(lot.grossM3), priceOf(wood, lot.call.call)))),
  };
  const warnings = wood.species ? [] : [`${wood.help}; its weight and shrinkage are left out`];
  return { part, row, blanks, wood, lots, warnings: [...warnings, ...laminationFaults(part, show)] };
}

/** Rows too wide that are looked at as glue-ups, of one wood: so that a long list stays quick. */
const GLUED_ASKED_MOST = 8;

interface Covered {
  readonly covers: ReadonlyMap<Group, Cover>;
  readonly staves: ReadonlyMap<Lot, GluedInstead['staves']>;
}

function coverGroups(
  groups: readonly Group[],
  rows: readonly CountedRow[],
  boards: readonly BoardView[],
  settings: Settings,
  jobId: string | null,
  woodOf: (name: string) => Wood,
): Covered {
  const stock = new Map<string, FreeBoard[]>();
  for (const board of boards) {
    if (board.state !== 'in-stock') continue;
    const { key } = woodOf(board.species);
    const free = freeBoard(board, jobId, settings);
    const ofWood = stock.get(key);
    if (ofWood) ofWood.push(free);
    else stock.set(key, [free]);
  }
  const covers = new Map<Group, Cover>();
  const staves = new Map<Lot, GluedInstead['staves']>();
  for (const key of new Set(groups.map((group) => group.wood.key))) {
    const ofWood = groups.filter((group) => group.wood.key === key);
    const demands = ofWood.map((group) => ({ callThicknessNm: group.call.roughNm, blanks: group.lots }));
    const species = ofWood[0]?.wood.species ?? null;
    const found = coverDemands(demands, stock.get(key) ?? [], species, settings);
    for (const [index, group] of ofWood.entries()) {
      const cover = found.covers[index];
      if (cover) covers.set(group, cover);
    }
    const withoutBoard = new Set(found.covers.flatMap((cover) => [...cover.withoutBoard]));
    let { rests } = found;
    let asked = 0;
    for (const { part, wood, lots } of rows) {
      const [lot] = lots;
      if (wood.key !== key || part.lamination !== null || !lot || !withoutBoard.has(lot)) continue;
      asked += 1;
      const glued = asked > GLUED_ASKED_MOST ? null : gluedInstead(part, wood, rests, settings);
      if (!glued) continue;
      rests = glued.rests;
      staves.set(lot, glued.staves);
    }
  }
  return { covers, staves };
}

function groupRow(
  group: Group,
  cover: Cover | undefined,
  settings: Settings,
  priceOf: PriceOf,
): Takeoff['groups'][number] {
  const gross = volume(sum(group.lots, (lot) => lot.grossM3));
  const short = volume(cover?.shortM3 ?? gross.m3);
  const toBuy = volume(boughtM3(short.m3, settings));
  const price = priceOf(group.wood, group.call.call);
  const costMinor = minor(gross.boardFeet, price);
  const widest = group.lots.reduce((most, lot) => (lot.rough.widthNm > most.rough.widthNm ? lot : most));
  return {
    species: group.wood.key,
    speciesName: group.wood.name,
    thicknessCall: group.call.call,
    net: volume(sum(group.lots, (lot) => lot.netM3)),
    rough: volume(sum(group.lots, (lot) => lot.roughM3)),
    gross,
    inStock: volume(cover?.inStockM3 ?? 0),
    inStockThicker: volume(cover?.thickerM3 ?? 0),
    inStockWet: volume(cover?.inStockWetM3 ?? 0),
    short,
    mayStillFit: cover?.mayStillFit ?? false,
    toBuy,
    costMinor,
    buyMinor: toBuy.boardFeet === 0 ? 0 : minor(toBuy.boardFeet, price),
    longestBlankNm: Math.max(...group.lots.map((lot) => lot.rough.lengthNm)),
    longestBoardNm: cover?.longestRunNm ?? null,
    widestBlankNm: widest.rough.widthNm,
    widestBlankAtPercent: widest.limitPercent,
    widestBlankDryNm: widest.dryWidthNm,
    widestBoardNm: cover?.widestNm ?? null,
    warnings: [...groupWarnings(group, cover, settings), ...unpriced(costMinor, group.wood)],
  };
}

/** A yard sells whole board feet, or hundredths of a cubic metre. A sliver from summing fractions is no shortage. */
function boughtM3(wantedM3: number, settings: Settings): number {
  const step = settings.shown === 'in' ? M3_PER_BOARD_FOOT : 0.01;
  return Math.max(0, Math.ceil(wantedM3 / step - 1e-9)) * step;
}

const volume = (m3: number): Volume => ({ m3, boardFeet: boardFeetFromM3(m3) });

const minor = (boardFeet: number, perBoardFoot: number | null): number | null =>
  perBoardFoot === null ? null : Math.round(boardFeet * perBoardFoot);

function unpriced(costMinor: number | null, wood: Wood): readonly string[] {
  return costMinor === null ? [`no price for ${wood.name}: enter one in the shop's prices`] : [];
}

function sum<T>(list: readonly T[], of: (item: T) => number): number {
  return list.reduce((total, item) => total + of(item), 0);
}

/** null as soon as one is unknown: the sum of one row that leaves something out would read like the whole. */
function sumOrNull(list: readonly (number | null)[]): number | null {
  return list.includes(null) ? null : pricedSum(list);
}

/** Of what is known, which is said beside it; null where nothing is. */
function pricedSum(list: readonly (number | null)[]): number | null {
  const known = list.filter((one) => one !== null);
  return known.length === 0 ? null : sum(known, (one) => one);
}
