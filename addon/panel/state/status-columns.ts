/** What the yard knows of the rows of a sheet, as columns beside them. Words are short and steady, because people count them. */
import type { JobWithParts } from '../../../worker/contract/job.ts';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { Block } from '../../host/host.ts';
import type { Mapping } from '../../sheet/mapping.ts';
import { rowKeyFolded } from '../../sheet/row-keys.ts';
import { hasHeading, type OwnColumn, ownHeadings } from '../../sheet/write-back.ts';
import { standingText, untilText } from '../words/standing.ts';
import type { SheetTag } from './sheet-tags.ts';

/** Under this name the file keeps what a sheet's status columns are about: "boards", or the id of a job. */
export const statusKeptAs = (sheet: string) => `status of ${sheet}`;

type TagStatus = Answer<'boardStatus'>['rows'][number];
type Short = Answer<'jobStatus'>['short'];

/** When boards are ready gets a column once one is not, and keeps it. */
export function boardColumns(
  table: { readonly block: Block; readonly mapping: Mapping },
  tags: readonly SheetTag[],
  rows: readonly TagStatus[],
  today: string,
): OwnColumn[] {
  const statusOf = new Map(rows.map((row) => [row.tag, row]));
  const column = <T extends string | null>(heading: string, of: (status: TagStatus | undefined) => T): OwnColumn => ({
    heading,
    values: new Map(tags.map((one) => [one.sheetRow, of(statusOf.get(one.tag))])),
  });
  const waits = rows.some(({ ready }) => ready === 'drying' || ready === 'never');
  const ready = waits || hasHeading(table.block, table.mapping, ownHeadings.readyOn);
  return [
    column(ownHeadings.status, statusWord),
    column(ownHeadings.heldBy, (status) => status?.heldBy.join(', ') || null),
    ...(ready ? [column(ownHeadings.readyOn, (status) => readyText(status, today))] : []),
  ];
}

/** Dry enough: "ready", for which parts where not for all; the likely day, that the day is past and only a reading tells, or that the air there never brings it so far. */
function readyText(status: TagStatus | undefined, today: string): string | null {
  if (status?.ready === 'ready') return status.dryFor === 'visible' ? 'ready, not for long parts' : 'ready';
  if (status?.ready === 'never') return 'not where it stands';
  const day = status?.readyOn ?? null;
  return day !== null && day < today ? `due since ${day}, measure` : day;
}

/** The job's name stands in its own column. */
function statusWord(status: TagStatus | undefined): string {
  if (status === undefined || !status.found) return 'not in the yard';
  return status.heldBy.length > 0 ? 'held' : status.words;
}

export function partColumns(
  table: { readonly block: Block; readonly mapping: Mapping },
  job: JobWithParts,
  short: Short,
  rowOf: ReadonlyMap<string, number>,
  today: string,
): OwnColumn[] {
  const status = new Map<number, string>();
  const ready = new Map<number, string | null>();
  const lacks = new Map<number, string | null>();
  const shortOf = new Map<string, Short>();
  for (const one of short) shortOf.set(rowKeyFolded(one.key), [...(shortOf.get(rowKeyFolded(one.key)) ?? []), one]);
  for (const part of job.parts) {
    const at = rowOf.get(rowKeyFolded(part.key));
    if (at === undefined) continue;
    status.set(at, standingText(part));
    ready.set(at, untilText(part.pieces, today));
    const words = (shortOf.get(rowKeyFolded(part.key)) ?? []).map(
      (one) => `${Math.ceil(one.boardFeet * 10) / 10} bf ${one.speciesName} ${one.thicknessCall}`,
    );
    lacks.set(at, words.length === 0 ? null : words.join('; '));
  }
  const anyShort = short.length > 0 || hasHeading(table.block, table.mapping, ownHeadings.short);
  return [
    { heading: ownHeadings.status, values: status },
    { heading: ownHeadings.readyOn, values: ready },
    ...(anyShort ? [{ heading: ownHeadings.short, values: lacks }] : []),
  ];
}
