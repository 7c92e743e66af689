/**
 * The rough thickness to look for or buy. The table of calls and their surfaced sizes is for dry lumber, so a call is
 * chosen by what is planed off alone; a wetter board is measured against the blank when the cutting is planned.
 */
import type { Settings } from '../contract/settings.ts';
import { callCovering } from '../wood/thickness.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { planingAllowanceNm } from './blank.ts';

export interface RoughCall {
  readonly call: string;
  readonly roughNm: number;
  /** Beyond 16/4: nobody stocks it as one board. */
  readonly beyondCalls: boolean;
}

export function callFor(finishedThicknessNm: number, settings: Pick<Settings, 'allowances'>): RoughCall {
  const roughNm = finishedThicknessNm + planingAllowanceNm(finishedThicknessNm, settings);
  const covering = callCovering(roughNm);
  if (covering) return { ...covering, beyondCalls: false };
  const quarters = 2 * Math.ceil(roughNm / (NM_PER_INCH / 2));
  return { call: `${quarters}/4`, roughNm: (quarters / 4) * NM_PER_INCH, beyondCalls: true };
}
