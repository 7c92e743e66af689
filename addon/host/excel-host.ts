/** Excel as a SheetHost, over Office.js. */

import { deviceSettings } from './device-settings.ts';
import { listenToCommands } from './excel-commands.ts';
import { glanceAtTable, listSheets, rangeOf, readArea, readSelectedArea, readSelection } from './excel-read.ts';
import { mergesUndo, readExcel, writesNotes } from './excel-run.ts';
import { excelOpensWithFile, excelSettings } from './excel-settings.ts';
import { addSheet, planWrite, undo, write } from './excel-write.ts';
import { type Area, HostError, type SheetHost } from './host.ts';
import { writeTokens } from './write-tokens.ts';

const SELECTION_PAUSE_MS = 150;

/** `printPage` is the address of our page that prints what it is sent; Excel opens windows of our own origin only. */
export function excelHost(printPage: string): SheetHost {
  const tokens = writeTokens(deviceSettings(() => Office.context.partitionKey ?? ''));
  return {
    async capabilities() {
      return { host: 'excel', pushesSelection: true, undoesNatively: mergesUndo(), notes: writesNotes() };
    },
    readSelection: ({ expand, rowCountMax }) => readSelection(expand, rowCountMax),
    readArea: async (area) => readArea(area),
    listSheets,
    planWrite,
    write: (plan, over) => write(plan, over, tokens),
    undo: async (undoToken) => undo(undoToken, tokens),
    addSheet,
    async reveal(area) {
      await readExcel(async (context) => {
        const range = rangeOf(context, area);
        range.worksheet.activate();
        range.select();
        await context.sync();
      });
    },
    onSelection: listenToSelection,
    glanceAtTable,
    onCommand: listenToCommands,
    settings: excelSettings,
    opensWithFile: excelOpensWithFile,
    // Excel gives no way to put the keyboard back into the grid; F6 does, and the help says so.
    async focusSheet() {},
    showPage: (title, html) => openPrintPage(printPage, title, html),
  };
}

function listenToSelection(listener: (area: Area) => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  const changed = async () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      // A fault here is no news: whatever the user does next will say it.
      readSelectedArea().then(
        (area) => stopped || listener(area),
        () => undefined,
      );
    }, SELECTION_PAUSE_MS);
  };
  const adding = readExcel(async (context) => {
    const handler = context.workbook.onSelectionChanged.add(changed);
    await context.sync();
    return handler;
  }).catch(() => null);
  return () => {
    stopped = true;
    clearTimeout(timer);
    void adding.then(async (handler) => {
      if (!handler) return;
      handler.remove();
      await handler.context.sync();
    });
  };
}

/** Opens the window and hands the page over once the window says that it listens. */
function openPrintPage(address: string, title: string, html: string): Promise<void> {
  return new Promise((resolve, reject) => {
    Office.context.ui.displayDialogAsync(address, { height: 80, width: 60 }, (opened) => {
      if (opened.status !== Office.AsyncResultStatus.Succeeded) {
        reject(
          new HostError(
            'unsupported',
            'Excel did not open a window to print. Allow windows of this page and try again.',
          ),
        );
        return;
      }
      const dialog = opened.value;
      dialog.addEventHandler(Office.EventType.DialogMessageReceived, () => {
        dialog.messageChild(JSON.stringify({ title, html }));
      });
      resolve();
    });
  });
}
