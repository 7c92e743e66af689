/** Where the wood of one board went, to the cubic nanometre. Volumes pass 2^53, so they are bigints throughout. */
import type { Board } from '../../contract/board.ts';
import type { Layout } from '../../contract/plan.ts';
import type { WoodBalance } from '../../contract/session.ts';
import { type Size, volumeNm3 } from '../../wood/unit.ts';
import { type Refused, refused } from '../decision.ts';

/** 144 cubic inches. */
const NM3_PER_BOARD_FOOT = 144n * 25_400_000n ** 3n;

function overlapNm(a: { from: number; to: number }, b: { from: number; to: number }): number {
  return Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));
}

/** What the blade turns to dust: the part of each cut that lies inside the stock it cuts. */
export function plannedKerfNm3(layout: Layout, thicknessNm: number): bigint {
  let sum = 0n;
  for (const cut of layout.cuts) {
    const blade = { from: cut.atNm, to: cut.atNm + cut.kerfNm };
    const along = { from: cut.of.fromNm, to: cut.of.toNm };
    const across = { from: cut.of.leftNm, to: cut.of.rightNm };
    const [kerfNm, cutNm] =
      cut.axis === 'crosscut'
        ? [overlapNm(blade, along), across.to - across.from]
        : [overlapNm(blade, across), along.to - along.from];
    sum += volumeNm3({ lengthNm: cutNm, widthNm: kerfNm, thicknessNm });
  }
  return sum;
}

export interface WoodOut {
  readonly partsNm3: bigint;
  readonly failedNm3: bigint;
  readonly offcuts: readonly Size[];
  /** Stated at the saw; null to work it out. */
  readonly kerfNm3: bigint | null;
  readonly scrapNm3: bigint | null;
}

function differenceWords(nm3: bigint): string {
  const boardFeet = Number(nm3) / Number(NM3_PER_BOARD_FOOT);
  return `${boardFeet.toFixed(3)} board feet (${nm3} cubic nanometres)`;
}

/**
 * Closes the balance or says by how much it fails. Kerf that nobody measured is the plan's, but never more than the
 * wood that is not accounted for: whoever made fewer cuts than planned kept a larger offcut instead. Scrap is the rest.
 */
export function closeBalance(board: Board, out: WoodOut, planned: bigint): { readonly balance: WoodBalance } | Refused {
  const inNm3 = volumeNm3(board);
  const offcutsNm3 = out.offcuts.reduce((sum, offcut) => sum + volumeNm3(offcut), 0n);
  const left = inNm3 - out.partsNm3 - out.failedNm3 - offcutsNm3;
  const capped = planned < left ? planned : left;
  const kerfNm3 = out.kerfNm3 ?? (out.scrapNm3 === null ? capped : planned);
  const scrapNm3 = out.scrapNm3 ?? left - kerfNm3;
  const difference = left - kerfNm3 - scrapNm3;
  if (left < 0n || scrapNm3 < 0n || difference < 0n) {
    const over = left < 0n ? -left : scrapNm3 < 0n ? -scrapNm3 : -difference;
    return refused(
      'wood-does-not-balance',
      `More comes out of ${board.tag} than it holds: ${differenceWords(over)} too much. Check the sizes and counts.`,
    );
  }
  if (difference > 0n) {
    return refused(
      'wood-does-not-balance',
      `${differenceWords(difference)} of ${board.tag} are not accounted for. Leave the scrap out to have it worked out.`,
    );
  }
  return {
    balance: {
      boardId: board.id,
      tag: board.tag,
      inNm3: String(inNm3),
      partsNm3: String(out.partsNm3),
      failedNm3: String(out.failedNm3),
      offcutsNm3: String(offcutsNm3),
      kerfNm3: String(kerfNm3),
      scrapNm3: String(scrapNm3),
      writeOffNm3: '0',
    },
  };
}

export function writeOffBalance(board: Board): WoodBalance {
  const all = String(volumeNm3(board));
  return {
    boardId: board.id,
    tag: board.tag,
    inNm3: all,
    partsNm3: '0',
    failedNm3: '0',
    offcutsNm3: '0',
    kerfNm3: '0',
    scrapNm3: '0',
    writeOffNm3: all,
  };
}
