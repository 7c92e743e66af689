/**
 * The cut list between the sheet and the job: rows keep their key ("Yard ref") through sorting and editing, so that a
 * part stays the same part; takeoff and standing go back beside the rows.
 */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { JobWithParts, PartWithPieces } from '../../../worker/contract/job.ts';
import type { Takeoff, TakeoffRow } from '../../../worker/contract/takeoff.ts';
import type { SheetHost } from '../../host/host.ts';
import { type PartInput, readPartRows } from '../../sheet/read-parts.ts';
import type { RowsRead } from '../../sheet/read-rows.ts';
import {
  assignRowKeys,
  matchRows,
  partFingerprint,
  type RowMatches,
  rowKeyFolded,
  standUnread,
} from '../../sheet/row-keys.ts';
import { type OwnColumn, ownHeadings } from '../../sheet/write-back.ts';
import type { YardApi } from '../api.ts';
import type { JobState } from './job.ts';
import { makeSheetReading, type SheetReading } from './sheet-reading.ts';
import type { Shell } from './shell.ts';
import { partColumns, statusKeptAs } from './status-columns.ts';
import type { Wanted, WriteBack } from './write-back.ts';

export interface CutListState {
  readonly reading: SheetReading<PartInput>;
  readonly allOrNothing: Signal<boolean>;
  /** How the rows compare with the parts that the job has; null until both are there. */
  readonly matches: ReadonlySignal<RowMatches | null>;
  /** Rows that are parts of the job as before, but for what they are used for, their faces, grain, layers or note. */
  readonly altered: ReadonlySignal<number>;
  /** Parts of the job whose row stands in the sheet but could not be read; setting the good rows takes them off its list. */
  readonly unread: ReadonlySignal<readonly PartWithPieces[]>;
  /** Parts that the job has and no row here names; setting the rows takes them off its list. */
  readonly lost: ReadonlySignal<readonly PartWithPieces[]>;
  /** The job that the sheet's name speaks of while another is in front; id is null where it must be opened first. */
  readonly jobOfSheet: ReadonlySignal<{ readonly id: string | null; readonly name: string } | null>;
  /** Gives each row its Yard ref in the sheet, then sets the job's cut list. */
  set(): Promise<boolean>;
  /** Takeoff of the rows as they stand in the sheet, without a job. */
  takeOffRows(): Promise<boolean>;
  /** That takeoff, while the rows are those it was made of. */
  readonly takeoffOfRows: ReadonlySignal<Takeoff | null>;
  writeTakeoff(shownSize: (nm: number) => string): Promise<boolean>;
  writeStanding(): Promise<boolean>;
  /** Where the parts of a job stand, beside the rows that bear their keys. */
  statusColumns(jobId: string): Promise<Wanted>;
}

export function makeCutList(
  api: YardApi,
  host: SheetHost,
  shell: Shell,
  job: JobState,
  writeBack: WriteBack,
  random: () => number,
): CutListState {
  const reading = makeSheetReading(host, 'parts', readPartRows);
  const allOrNothing = signal(true);
  const matches = computed(() => {
    const rows = reading.rows.value;
    return rows === null || job.job.value === null ? null : matchRows(factsOf(rows), knownOf(job.job.value));
  });

  const altered = computed(() => {
    const same = new Map(
      (matches.value?.rows ?? []).flatMap(({ sheetRow, how, key }) =>
        how === 'same' && key !== null ? [[sheetRow, key] as const] : [],
      ),
    );
    const partOf = new Map((job.job.value?.parts ?? []).map((part) => [part.key, part]));
    return (reading.rows.value?.rows ?? []).filter(({ sheetRow, draft }) => {
      const part = partOf.get(same.get(sheetRow) ?? '');
      return part !== undefined && !asksAlike(draft, part);
    }).length;
  });
  const notRead = computed(() => {
    const missing = new Set(matches.value?.missing ?? []);
    return (job.job.value?.parts ?? []).filter((part) => missing.has(part.key));
  });
  const unread = computed(() => standUnread(notRead.value, reading.rows.value?.unread ?? []));
  const lost = computed(() => {
    const inSheet = new Set(unread.value);
    return notRead.value.filter((part) => !inSheet.has(part));
  });
  const jobOfSheet = computed(() => {
    const name = reading.block.value?.area.sheet.trim() ?? '';
    const front = job.job.value;
    if (name === '' || (front !== null && sameName(front.name, name))) return null;
    const there = (job.jobs.items.value ?? []).find((one) => one.state === 'open' && sameName(one.name, name));
    if (there !== undefined) return { id: there.id, name: there.name };
    // A sheet that bears no job's name and takes nothing off the job in front is most likely that job's own.
    return front === null || lost.value.length > 0 ? { id: null, name } : null;
  });

  /** Rows by their key, as the sheet stands now. */
  async function rowsByKey() {
    const table = await reading.fresh();
    if ('told' in table) return table;
    const rowOf = keyedRows(table.rows);
    if (rowOf.size === 0) {
      return { told: 'These rows have no Yard ref yet. Set the cut list of the job from this table first.' };
    }
    return { ...table, rowOf };
  }

  /** Rows without keys are known by their place, as long as they still say what was taken off. */
  let takenOff: ReadonlyMap<string, { readonly sheetRow: number; readonly fingerprint: string }> = new Map();
  async function rowsTakenOff() {
    const table = await reading.fresh();
    if ('told' in table) return table;
    const rowOf = keyedRows(table.rows);
    const here = new Map(factsOf(table.rows).map((row) => [row.sheetRow, row.fingerprint]));
    for (const [key, row] of takenOff) {
      if (here.get(row.sheetRow) === row.fingerprint) rowOf.set(rowKeyFolded(key), row.sheetRow);
    }
    if (rowOf.size === 0) return { told: 'The rows have changed since they were taken off. Take them off again.' };
    return { ...table, rowOf };
  }

  const rowsOfTakeoff = signal<RowsRead<PartInput> | null>(null);
  const takeoffOfRows = computed(() =>
    rowsOfTakeoff.value !== null && rowsOfTakeoff.value === reading.rows.value ? job.takeoff.value : null,
  );

  async function statusColumns(jobId: string): Promise<Wanted> {
    const table = await rowsByKey();
    if ('told' in table) return table;
    const asked = await api.call('jobStatus', { path: { id: jobId } });
    if (!asked.ok) {
      return { told: 'offline' in asked ? 'The yard cannot be reached; nothing was written.' : asked.problem.detail };
    }
    await host.settings.set(statusKeptAs(table.block.area.sheet), jobId, 'file');
    return { ...table, columns: partColumns(table, asked.answer.job, asked.answer.short, table.rowOf, shell.today()) };
  }

  return {
    reading,
    allOrNothing,
    matches,
    altered,
    unread,
    lost,
    jobOfSheet,
    async set() {
      const rows = reading.rows.value;
      const now = job.job.value;
      if (rows === null || now === null || rows.rows.length === 0) return false;
      const keys = assignRowKeys(factsOf(rows), knownOf(now), random);
      const column: OwnColumn = { heading: ownHeadings.yardRef, values: keys };
      const block = reading.block.value;
      const mapping = reading.mapping.value;
      if (block === null || mapping === null) return false;
      const written = await writeBack.writeUnlessClash('Yard ref beside the parts', async () => ({
        block,
        mapping,
        columns: [column],
      }));
      if (!written) return false;
      const parts = rows.rows.map((row) => ({ ...row.draft, key: keys.get(row.sheetRow) ?? row.draft.key }));
      const done = await job.setCutList(parts, allOrNothing.value);
      if (done) {
        await reading.remember();
        await reading.read();
      }
      return done;
    },
    async takeOffRows() {
      const rows = reading.rows.value;
      if (rows === null || rows.rows.length === 0) return false;
      const keys = assignRowKeys(factsOf(rows), [], random);
      takenOff = new Map(factsOf(rows).map((row) => [keys.get(row.sheetRow) ?? '', row]));
      const done = await job.takeOffRows(rows.rows.map((row) => ({ ...row.draft, key: keys.get(row.sheetRow) ?? '' })));
      if (done) rowsOfTakeoff.value = rows;
      return done;
    },
    takeoffOfRows,
    writeTakeoff: (shownSize) =>
      writeBack.preview('Takeoff beside the parts', async () => {
        const takeoff = job.takeoff.value;
        if (takeoff === null) return { told: 'Take off the cut list first.' };
        const table = await rowsTakenOff();
        if ('told' in table) return table;
        return { ...table, columns: takeoffColumns(takeoff.rows, table.rowOf, shownSize) };
      }),
    statusColumns,
    writeStanding: () =>
      writeBack.preview('Where the parts stand', async () => {
        const now = job.job.value;
        return now === null ? { told: 'Choose a job first.' } : statusColumns(now.id);
      }),
  };
}

const sameName = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

function keyedRows(rows: RowsRead<PartInput>): Map<string, number> {
  const rowOf = new Map<string, number>();
  for (const row of rows.rows) {
    if (row.draft.key !== null) rowOf.set(rowKeyFolded(row.draft.key), row.sheetRow);
  }
  return rowOf;
}

function factsOf(rows: RowsRead<PartInput>) {
  return rows.rows.map((row) => ({
    sheetRow: row.sheetRow,
    key: row.draft.key,
    fingerprint: partFingerprint(row.draft),
  }));
}

/** Whether the row asks the same of the wood as the part: use, faces, grain, layers and note, as far as a sheet says them. */
function asksAlike(draft: PartInput, part: PartWithPieces): boolean {
  return (
    draft.use === part.use &&
    draft.faces === part.faces &&
    draft.grain === part.grain &&
    (draft.shapeNote ?? '') === part.shapeNote &&
    layersText(draft.lamination) === layersText(part.lamination)
  );
}

function layersText(lamination: PartInput['lamination']): string {
  if (!lamination) return '';
  if (lamination.kind === 'staves') return `${lamination.count} staves`;
  return lamination.plies.map((ply) => `${ply.thicknessNm} ${ply.widthNm} ${ply.offsetNm ?? 0}`).join(', ');
}

function knownOf(job: JobWithParts) {
  return job.parts.map((part) => ({ key: part.key, fingerprint: partFingerprint(part), sheetRow: null }));
}

export function takeoffColumns(
  rows: readonly TakeoffRow[],
  rowOf: ReadonlyMap<string, number>,
  shownSize: (nm: number) => string,
): OwnColumn[] {
  const boardFeet = new Map<number, number>();
  const rough = new Map<number, string>();
  for (const row of rows) {
    const at = rowOf.get(rowKeyFolded(row.key));
    if (at === undefined) continue;
    boardFeet.set(at, Math.round(row.gross.boardFeet * 100) / 100);
    const sizes = row.blanks.map(
      (blank) =>
        `${blank.count} × ${shownSize(blank.rough.lengthNm)} × ${shownSize(blank.rough.widthNm)} × ${blank.thicknessCall}`,
    );
    rough.set(at, sizes.join('; '));
  }
  return [
    { heading: ownHeadings.boardFeet, values: boardFeet },
    { heading: ownHeadings.roughSize, values: rough },
  ];
}
