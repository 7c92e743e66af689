/** What the panel fetches behind its opening: reading sheets, writing beside them, jobs, cutting plans and the journal. */
import type { Core, Panel } from './panel.ts';
import { makeBoardRows } from './state/board-rows.ts';
import { makeCutList } from './state/cut-list.ts';
import { makeCuts } from './state/cuts.ts';
import { makeDrying } from './state/drying.ts';
import { makeHeld } from './state/held.ts';
import { makeJobState } from './state/job.ts';
import { makeJournal } from './state/journal.ts';
import { makeOffcuts } from './state/offcuts.ts';
import { makeSelectedRows } from './state/selected-rows.ts';
import { readDefaultsOf } from './state/sheet-reading.ts';
import { makeSheetStatus } from './state/sheet-status.ts';
import { makeWriteBack } from './state/write-back.ts';

export function makeWhole(core: Core): Panel {
  const { api, host, outbox, shell, yard } = core;
  const writeBack = makeWriteBack(host, shell);
  const job = makeJobState(api, shell, outbox);
  const boardRows = makeBoardRows(api, host, shell, writeBack);
  const cutList = makeCutList(api, host, shell, job, writeBack, () => Math.random());
  return {
    ...core,
    boardRows,
    job,
    cutList,
    sheetStatus: makeSheetStatus(host, writeBack, boardRows, cutList),
    selectedRows: makeSelectedRows(host, shell, () => readDefaultsOf(yard.facts.value)),
    cuts: makeCuts(api, host, shell, outbox),
    held: makeHeld(api, shell),
    offcuts: makeOffcuts(api, shell),
    drying: makeDrying(api, shell),
    journal: makeJournal(api, shell),
    writeBack,
  };
}
