/**
 * Replays a layout's cuts on a whole board as a saw would make them. Knows nothing of parts or of how the layout was
 * found; the blade takes what it covers, and what is left on either side is stock for the next cut.
 */
import type { Rect, SawCut } from './problem.ts';

/** A piece of stock on the bench: where it lay in the board, and how many changes of axis it took to free it. */
export interface StockPiece {
  readonly at: Rect;
  readonly stages: number;
  readonly lastAxis: SawCut['axis'] | null;
}

export interface Replay {
  readonly faults: readonly string[];
  /** What lies on the bench after the last cut. */
  readonly left: readonly Rect[];
  /** Face area turned to sawdust. */
  readonly kerfArea: bigint;
  /** The most changes of axis on the way to any piece. */
  readonly stages: number;
}

export const rectText = (r: Rect): string => `${r.from}-${r.to} along, ${r.left}-${r.right} across`;

export const rectArea = (r: Rect): bigint => BigInt(r.to - r.from) * BigInt(r.right - r.left);

/** Whole numbers, and some wood in it. */
export const rectIsSound = (r: Rect): boolean =>
  [r.from, r.to, r.left, r.right].every(Number.isSafeInteger) && r.from < r.to && r.left < r.right;

export function replayCuts(
  board: { readonly length: number; readonly width: number },
  cuts: readonly SawCut[],
  kerf: { readonly rip: number; readonly crosscut: number },
): Replay {
  const whole: Rect = { from: 0, to: board.length, left: 0, right: board.width };
  const bench = new Map<string, StockPiece>([[rectText(whole), { at: whole, stages: 0, lastAxis: null }]]);
  const faults: string[] = [];
  let kerfArea = 0n;
  let stagesMost = 0;

  for (const [index, cut] of cuts.entries()) {
    const name = `cut ${index + 1} (${cut.axis} at ${cut.at})`;
    const stock = bench.get(rectText(cut.of));
    if (!stock) {
      faults.push(`${name}: there is no piece of stock ${rectText(cut.of)} on the bench at that time`);
      continue;
    }
    if (cut.axis !== 'rip' && cut.axis !== 'crosscut') {
      faults.push(`${name}: a cut is a rip or a crosscut, not ${String(cut.axis)}`);
      continue;
    }
    if (cut.kerf !== kerf[cut.axis])
      faults.push(`${name}: its blade takes ${cut.kerf}, a ${cut.axis} takes ${kerf[cut.axis]}`);
    if (!Number.isSafeInteger(cut.at) || !Number.isSafeInteger(cut.kerf) || cut.kerf < 0) {
      faults.push(`${name}: the blade from ${cut.at} over ${cut.kerf} is not on the grid`);
      continue;
    }
    const sides = sawApart(stock.at, cut);
    if (sides.fault !== null) {
      faults.push(`${name}: ${sides.fault}`);
      continue;
    }
    const stages = stock.stages + (stock.lastAxis === cut.axis ? 0 : 1);
    stagesMost = Math.max(stagesMost, stages);
    bench.delete(rectText(stock.at));
    kerfArea += rectArea(sawdust(stock.at, cut));
    for (const side of sides.left) bench.set(rectText(side), { at: side, stages, lastAxis: cut.axis });
  }
  return { faults, left: [...bench.values()].map((stock) => stock.at), kerfArea, stages: stagesMost };
}

/** The one or two pieces that a cut leaves; the blade may run off either side of the stock but must meet wood and leave some. */
function sawApart(of: Rect, cut: SawCut): { readonly left: readonly Rect[]; readonly fault: string | null } {
  const near = cut.axis === 'crosscut' ? of.from : of.left;
  const far = cut.axis === 'crosscut' ? of.to : of.right;
  const bladeEnd = cut.at + cut.kerf;
  const meetsWood = cut.kerf === 0 ? cut.at > near && cut.at < far : cut.at < far && bladeEnd > near;
  if (!meetsWood) return { left: [], fault: `the blade ${cut.at}-${bladeEnd} passes beside the stock ${near}-${far}` };
  const left: Rect[] = [];
  if (cut.at > near) left.push(cut.axis === 'crosscut' ? { ...bare(of), to: cut.at } : { ...bare(of), right: cut.at });
  if (bladeEnd < far)
    left.push(cut.axis === 'crosscut' ? { ...bare(of), from: bladeEnd } : { ...bare(of), left: bladeEnd });
  if (left.length === 0)
    return { left, fault: `the blade ${cut.at}-${bladeEnd} turns all of the stock ${near}-${far} to sawdust` };
  return { left, fault: null };
}

/** What of the blade's path lies in the stock. */
function sawdust(of: Rect, cut: SawCut): Rect {
  const bladeEnd = cut.at + cut.kerf;
  return cut.axis === 'crosscut'
    ? { ...bare(of), from: Math.max(cut.at, of.from), to: Math.min(bladeEnd, of.to) }
    : { ...bare(of), left: Math.max(cut.at, of.left), right: Math.min(bladeEnd, of.right) };
}

const bare = (r: Rect): Rect => ({ from: r.from, to: r.to, left: r.left, right: r.right });
