/**
 * The cut list between the sheet and the job: rows keep their key ("Yard ref") through sorting and editing, so that a
 * part stays the same part; takeoff and standing go back beside the rows.
 */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { JobWithParts } from '../../../worker/contract/job.ts';
import type { TakeoffRow } from '../../../worker/contract/takeoff.ts';
import type { SheetHost } from '../../host/host.ts';
import { type PartInput, readPartRows } from '../../sheet/read-parts.ts';
import type { RowsRead } from '../../sheet/read-rows.ts';
import { assignRowKeys, matchRows, partFingerprint, type RowMatches, rowKeyFolded } from '../../sheet/row-keys.ts';
import { type OwnColumn, ownHeadings } from '../../sheet/write-back.ts';
import { standingText, untilText } from '../words/standing.ts';
import type { JobState } from './job.ts';
import { makeSheetReading, type SheetReading } from './sheet-reading.ts';
import type { Shell } from './shell.ts';
import type { WriteBack } from './write-back.ts';

export interface CutListState {
  readonly reading: SheetReading<PartInput>;
  readonly allOrNothing: Signal<boolean>;
  /** How the rows compare with the parts that the job has; null until both are there. */
  readonly matches: ReadonlySignal<RowMatches | null>;
  /** Gives each row its Yard ref in the sheet, then sets the job's cut list. */
  set(): Promise<boolean>;
  /** Takeoff of the rows as they stand in the sheet, without a job. */
  takeOffRows(): Promise<boolean>;
  writeTakeoff(shownSize: (nm: number) => string): Promise<boolean>;
  writeStanding(): Promise<boolean>;
}

export function makeCutList(
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

  /** Rows by their key, as the sheet stands now. */
  async function rowsByKey() {
    const table = await reading.fresh();
    if ('told' in table) return table;
    const rowOf = new Map<string, number>();
    for (const row of table.rows.rows) {
      if (row.draft.key !== null) rowOf.set(rowKeyFolded(row.draft.key), row.sheetRow);
    }
    if (rowOf.size === 0) {
      return { told: 'These rows have no Yard ref yet. Set the cut list of the job from this table first.' };
    }
    return { ...table, rowOf };
  }

  return {
    reading,
    allOrNothing,
    matches,
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
      return job.takeOffRows(rows.rows.map((row) => ({ ...row.draft, key: keys.get(row.sheetRow) ?? '' })));
    },
    writeTakeoff: (shownSize) =>
      writeBack.preview('Takeoff beside the parts', async () => {
        const takeoff = job.takeoff.value;
        if (takeoff === null) return { told: 'Take off the cut list first.' };
        const table = await rowsByKey();
        if ('told' in table) return table;
        return { ...table, columns: takeoffColumns(takeoff.rows, table.rowOf, shownSize) };
      }),
    writeStanding: () =>
      writeBack.preview('Where the parts stand', async () => {
        const now = job.job.value;
        if (now === null) return { told: 'Choose a job first.' };
        const table = await rowsByKey();
        if ('told' in table) return table;
        return { ...table, columns: standingColumns(now, table.rowOf, shell.today()) };
      }),
  };
}

function factsOf(rows: RowsRead<PartInput>) {
  return rows.rows.map((row) => ({
    sheetRow: row.sheetRow,
    key: row.draft.key,
    fingerprint: partFingerprint(row.draft),
  }));
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

export function standingColumns(job: JobWithParts, rowOf: ReadonlyMap<string, number>, today: string): OwnColumn[] {
  const status = new Map<number, string>();
  const ready = new Map<number, string | null>();
  for (const part of job.parts) {
    const at = rowOf.get(rowKeyFolded(part.key));
    if (at === undefined) continue;
    status.set(at, standingText(part));
    ready.set(at, untilText(part.pieces, today));
  }
  return [
    { heading: ownHeadings.status, values: status },
    { heading: ownHeadings.readyOn, values: ready },
  ];
}
