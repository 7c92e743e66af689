/**
 * A new revision of a job's cut list. What was cut already stays, whatever the list now says, because the wood is spent;
 * what is only planned stands in the way, because the plan would cut a part that is no longer asked for.
 */
import type { Part } from '../../contract/job.ts';
import { limits } from '../../contract/limits.ts';
import type { Change } from '../../contract/movement.ts';
import type { Fault } from '../../contract/problem.ts';
import { changed, created, removed } from '../change.ts';
import { type CommandOf, type Decision, moved, refused } from '../decision.ts';
import { partId, type StoredPart, type YardReader } from '../state.ts';
import { counted } from '../words.ts';
import { openJobOf } from './jobs.ts';
import { mergePart, withoutUntouched } from './merge-part.ts';
import { copyPieces } from './parts-at-work.ts';

function duplicateFaults(
  parts: readonly Part[],
  rowsAreKnown: boolean,
): { readonly faults: Fault[]; readonly parts: Part[] } {
  const firstByKey = new Map<string, number>();
  const faults: Fault[] = [];
  const kept: Part[] = [];
  for (const [row, part] of parts.entries()) {
    const first = firstByKey.get(part.key);
    if (first === undefined) {
      firstByKey.set(part.key, row);
      kept.push(part);
      continue;
    }
    const where = rowsAreKnown ? `row ${first + 1}` : 'another row';
    faults.push({
      pointer: rowsAreKnown ? `/parts/${row}/key` : '/parts',
      ...(rowsAreKnown ? { row } : {}),
      field: 'key',
      read: part.key,
      help: `${where} has the same key; each row needs its own`,
    });
  }
  return { faults, parts: kept };
}

export function setCutList(state: YardReader, command: CommandOf<'set-cut-list'>): Decision {
  const open = openJobOf(state, command.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  if (command.ifVersion !== null && command.ifVersion !== job.version) {
    return refused(
      'version-stale',
      `The job ${job.name} was changed since you read it. Read it again, then set the list.`,
    );
  }
  const rowsAreKnown = command.faults.length === 0;
  const given = duplicateFaults(command.parts, rowsAreKnown);
  const faults: Fault[] = [...command.faults, ...given.faults];
  const notes: string[] = [];
  const changes: Change[] = [];
  const present = new Map(state.partsOfJob(job.id).map((part) => [part.key, part]));
  let pieceCount = 0;

  const set = (part: Part, place: number) => {
    const id = partId(job.id, part.key);
    const old = present.get(part.key);
    present.delete(part.key);
    if (!old) {
      const pieces = Array.from({ length: part.quantity }, (_, at) => copyPieces(part, at + 1)).flat();
      pieceCount += pieces.length;
      changes.push(created('part', id, { ...part, jobId: job.id, place, pieces }));
      return;
    }
    const merged = mergePart(old, part, rowsAreKnown ? place : null);
    faults.push(...merged.faults);
    notes.push(...merged.notes);
    pieceCount += merged.pieces.length;
    const wanted: Partial<StoredPart> = merged.faults.length > 0 ? {} : { ...part, pieces: [...merged.pieces] };
    changes.push(...changed('part', id, old, { ...wanted, place }));
  };
  for (const [place, part] of given.parts.entries()) set(part, place);

  let place = given.parts.length;
  for (const old of present.values()) {
    const id = partId(job.id, old.key);
    const rest = rowsAreKnown ? withoutUntouched(old) : { pieces: old.pieces, faults: [], notes: [] };
    faults.push(...rest.faults);
    notes.push(...rest.notes);
    pieceCount += rest.pieces.length;
    if (rest.pieces.length === 0) changes.push(removed('part', id, old));
    else {
      const quantity = rowsAreKnown ? new Set(rest.pieces.map((piece) => piece.no)).size : old.quantity;
      changes.push(...changed('part', id, old, { pieces: [...rest.pieces], quantity, place }));
      place += 1;
    }
  }
  if (!rowsAreKnown && present.size > 0)
    notes.push('Rows that could not be read left the list as it was in their place.');

  if (pieceCount > limits.piecesPerJob) {
    faults.push({
      pointer: '/parts',
      help: `the list asks for ${pieceCount} pieces, layers counted; a job takes ${limits.piecesPerJob}. Split it into two jobs`,
    });
  }
  if (faults.length > 0 && (command.allOrNothing || pieceCount > limits.piecesPerJob)) {
    return refused('invalid-input', `${counted(faults.length, 'fault')} in the cut list; nothing was changed.`, {
      faults,
    });
  }
  changes.push(...changed('job', job.id, job, { revision: job.revision + 1 }));
  const again = job.revision === 0 ? '' : ' anew';
  const summary = `Set the cut list of ${job.name}${again}: ${counted(given.parts.length, 'row')}`;
  return moved({ kind: 'cut-list-set', jobId: job.id, summary, changes }, { jobId: job.id, faults, notes });
}
