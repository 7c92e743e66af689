/** A part too wide for any free board, glued up from staves that the boards do give: from how many, and how wide. */
import type { Part } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import type { BlankRow } from '../contract/takeoff.ts';
import { demandBlank } from './demand.ts';
import { elementKinds } from './elements.ts';
import { laidOnRests, type Rests } from './lay-out.ts';
import { wantOf } from './want.ts';
import type { Wood } from './which-wood.ts';

/** A panel of more is glued up from glued-up panels. Common practice, no source. */
const STAVES_MOST = 12;

export interface GluedInstead {
  readonly staves: NonNullable<BlankRow['staves']>;
  /** What the boards have left once they are cut. */
  readonly rests: Rests;
}

/** The fewest staves that all copies of a solid part can be glued up from, out of what other blanks leave; null for none. */
export function gluedInstead(part: Part, wood: Wood, rests: Rests, settings: Settings): GluedInstead | null {
  const boards = [...rests.keys()];
  const stavesOf = (count: number) => {
    const glued: Part = { ...part, lamination: { kind: 'staves', count } };
    const [kind] = elementKinds(glued, settings);
    return kind ? wantOf(demandBlank(glued, kind, wood, settings), boards, wood.species, settings) : null;
  };
  // Where even the narrowest find no board, width is not what is in the way.
  if (!stavesOf(STAVES_MOST)?.able.some(({ isDry }) => isDry)) return null;
  for (let count = 2; count <= STAVES_MOST; count += 1) {
    const want = stavesOf(count);
    const left = want && laidOnRests(want, rests, settings);
    if (want && left) return { staves: { count, roughWidthNm: want.blank.rough.widthNm }, rests: left };
  }
  return null;
}
