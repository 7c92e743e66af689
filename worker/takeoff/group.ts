/** Blanks gathered as they are bought: every blank of one wood in one thickness call. */
import type { RoughCall } from './call.ts';
import type { DemandBlank } from './want.ts';
import type { Wood } from './which-wood.ts';

/** Blanks of one kind of one row: what it adds to its group. */
export interface Lot extends DemandBlank {
  readonly call: RoughCall;
  readonly netM3: number;
  readonly roughM3: number;
  /** Rough width in wood that is at the shop's target moisture already. */
  readonly dryWidthNm: number;
}

export interface Group {
  readonly wood: Wood;
  readonly call: RoughCall;
  readonly lots: readonly Lot[];
}

/** By name of the wood, thin before thick. */
export function groupLots(rows: readonly { readonly wood: Wood; readonly lots: readonly Lot[] }[]): readonly Group[] {
  const groups = new Map<string, { wood: Wood; call: RoughCall; lots: Lot[] }>();
  for (const { wood, lots } of rows)
    for (const lot of lots) {
      const key = groupKey(wood, lot.call);
      const group = groups.get(key);
      if (group) group.lots.push(lot);
      else groups.set(key, { wood, call: lot.call, lots: [lot] });
    }
  return [...groups.values()].sort((a, b) => byText(a.wood.name, b.wood.name) || a.call.roughNm - b.call.roughNm);
}

export const groupKey = (wood: Wood, call: RoughCall): string => `${wood.key}\n${call.call}`;

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
