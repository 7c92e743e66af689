/**
 * Where the wood of one board goes, in exact cubic nanometres: in = parts + failed + offcuts + kerf + scrap + write-off.
 * The same account that the yard keeps, worked out beforehand so that a count that cannot be right is seen while typing.
 */
import type { Cut, Layout } from '../../../worker/contract/plan.ts';
import type { WoodBalance } from '../../../worker/contract/session.ts';

export interface WoodAccount {
  readonly inNm3: bigint;
  readonly partsNm3: bigint;
  readonly failedNm3: bigint;
  readonly offcutsNm3: bigint;
  readonly kerfNm3: bigint;
  readonly scrapNm3: bigint;
  readonly writeOffNm3: bigint;
}

export type AccountLine = 'parts' | 'failed' | 'offcuts' | 'kerf' | 'scrap' | 'writeOff';
export const accountLines: readonly AccountLine[] = ['parts', 'failed', 'offcuts', 'kerf', 'scrap', 'writeOff'];

export function accountOf(balance: WoodBalance): WoodAccount {
  return {
    inNm3: BigInt(balance.inNm3),
    partsNm3: BigInt(balance.partsNm3),
    failedNm3: BigInt(balance.failedNm3),
    offcutsNm3: BigInt(balance.offcutsNm3),
    kerfNm3: BigInt(balance.kerfNm3),
    scrapNm3: BigInt(balance.scrapNm3),
    writeOffNm3: BigInt(balance.writeOffNm3),
  };
}

export function line(account: WoodAccount, name: AccountLine): bigint {
  return account[`${name}Nm3`];
}

/** What goes in and is not accounted for; below zero where more is claimed than there was. */
export function openNm3(account: WoodAccount): bigint {
  return account.inNm3 - accountLines.reduce((sum, name) => sum + line(account, name), 0n);
}

export function sumOfAccounts(accounts: readonly WoodAccount[]): WoodAccount {
  const sum = (pick: (account: WoodAccount) => bigint) => accounts.reduce((total, one) => total + pick(one), 0n);
  return {
    inNm3: sum((a) => a.inNm3),
    partsNm3: sum((a) => a.partsNm3),
    failedNm3: sum((a) => a.failedNm3),
    offcutsNm3: sum((a) => a.offcutsNm3),
    kerfNm3: sum((a) => a.kerfNm3),
    scrapNm3: sum((a) => a.scrapNm3),
    writeOffNm3: sum((a) => a.writeOffNm3),
  };
}

/** The wood that a saw cut turns to dust; what of the blade runs past the stock cuts air. */
export function kerfAreaNm2(cut: Cut): bigint {
  const { of } = cut;
  const [near, far, across] =
    cut.axis === 'crosscut'
      ? [of.fromNm, of.toNm, of.rightNm - of.leftNm]
      : [of.leftNm, of.rightNm, of.toNm - of.fromNm];
  const width = Math.min(far, cut.atNm + cut.kerfNm) - Math.max(near, cut.atNm);
  return BigInt(Math.max(0, width)) * BigInt(across);
}

export function plannedKerfNm3(layout: Layout): bigint {
  return layout.cuts.reduce((sum, cut) => sum + kerfAreaNm2(cut), 0n) * BigInt(layout.thicknessNm);
}

/**
 * Board feet of each line, in hundredths, so that the lines as shown add up to the total as shown: the largest
 * remainders are rounded up until the sum is right.
 */
export function shownHundredths(totalNm3: bigint, partsNm3: readonly bigint[]): { total: number; lines: number[] } {
  const total = Number((totalNm3 * 200n + NM3_PER_BOARD_FOOT) / (2n * NM3_PER_BOARD_FOOT));
  const exact = partsNm3.map((nm3, index) => {
    const scaled = nm3 * 100n;
    return { index, whole: Number(scaled / NM3_PER_BOARD_FOOT), rest: scaled % NM3_PER_BOARD_FOOT };
  });
  const lines = exact.map((one) => one.whole);
  let missing = total - lines.reduce((sum, value) => sum + value, 0);
  const byRest = exact.toSorted((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest < b.rest ? 1 : -1));
  for (const one of byRest) {
    if (missing <= 0) break;
    lines[one.index] = (lines[one.index] ?? 0) + 1;
    missing -= 1;
  }
  return { total, lines };
}

/** 144 cubic inches, by definition; exact. */
export const NM3_PER_BOARD_FOOT = 144n * 25_400_000n ** 3n;
