/** The yard's sentences: lengths as the shop's tape shows them, runs of a board, lists of names. */
import type { Settings } from '../contract/settings.ts';
import { lengthText } from '../wood/length.ts';

export function tape(lengthNm: number, settings: Settings): string {
  return lengthText(lengthNm, { system: settings.shown, denominator: settings.denominator, feet: 'from-8-ft' });
}

/** "all of it", or "0" to 41 1/2"". */
export function runWords(run: { fromNm: number; toNm: number }, lengthNm: number, settings: Settings): string {
  if (run.fromNm === 0 && run.toNm === lengthNm) return 'all of it';
  return `${tape(run.fromNm, settings)} to ${tape(run.toNm, settings)} from the tagged end`;
}

export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "Q-1, Q-2 and 3 more". */
export function listed(names: readonly string[], most = 4): string {
  const shown = names.slice(0, most);
  const more = names.length - shown.length;
  return more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
}
