/** What a piece asks of wood by what it is for: how urgent it is, and which faces it shows. */
import type { Part } from '../contract/job.ts';
import { qualityIndex } from './bad-wood.ts';
import type { Element } from './elements.ts';

/** 1 critical parts, 2 visible parts and the layers of critical ones, 3 casework and all other layers. */
export function tierOf(part: Pick<Part, 'use'>, what: Element['what']): number {
  if (part.use === 'critical') return what === 'solid' ? 1 : 2;
  return part.use === 'visible' && what === 'solid' ? 2 : 3;
}

/** A ply shows one face at most; staves and solid parts show what the part shows. */
export const qualityAsked = (part: Pick<Part, 'faces'>, what: Element['what']): number =>
  qualityIndex(what === 'ply' && part.faces === 'clear-both' ? 'clear-one' : part.faces);
