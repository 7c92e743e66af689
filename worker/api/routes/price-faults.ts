/** Prices that could never be found again: for a thickness that is none, or a wood whose name was mistyped. */
import type { Fault } from '../../contract/problem.ts';
import type { Settings } from '../../contract/settings.ts';
import { callOf, readThicknessCall } from '../../wood/thickness.ts';
import { NM_PER_INCH } from '../../wood/unit.ts';
import { nameSlip } from './wood-call.ts';

type Price = Settings['prices'][number];

/** What a board thinner than every call counts as. */
const THINNEST = callOf(NM_PER_INCH / 8);

const isSame = (a: Price, b: Price) => a.species === b.species && a.thicknessCall === b.thicknessCall;

/**
 * A fault for each price that is new here, names a thickness other than in quarters, or a wood that is near to known ones. A
 * wood near to none is kept as it is written. Those that the shop has already stay, so that other figures can be changed.
 */
export function priceFaults(settings: Settings, kept: readonly Price[]): readonly Fault[] {
  return settings.prices.flatMap((price, at): Fault[] => {
    if (kept.some((one) => isSame(one, price))) return [];
    const { species, thicknessCall } = price;
    const fault = (field: string, read: string, help: string): Fault => ({
      pointer: `/prices/${at}/${field}`,
      field,
      read,
      help,
    });
    const slip = nameSlip(species, settings);
    const isCall = thicknessCall === null || thicknessCall === THINNEST || readThicknessCall(thicknessCall) !== null;
    return [
      ...(slip === null ? [] : [fault('species', species, slip)]),
      ...(isCall ? [] : [fault('thicknessCall', thicknessCall, 'a thickness in quarters, such as 8/4')]),
    ];
  });
}
