/**
 * The grid itself, loaded after the frame: Univer without a toolbar, its formula bar and sheet tabs kept. Nothing here
 * knows the sidebar; it reaches the grid only as a SheetHost (host/bench-host.ts).
 */
import {
  CommandType,
  type IWorkbookData,
  LifecycleService,
  LifecycleStages,
  LocaleType,
  mergeLocales,
  Univer,
} from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import coreEnglish from '@univerjs/preset-sheets-core/locales/en-US';
import { UniverSheetsFilterPreset } from '@univerjs/preset-sheets-filter';
import filterEnglish from '@univerjs/preset-sheets-filter/locales/en-US';
import { UniverSheetsNotePreset } from '@univerjs/preset-sheets-note';
import noteEnglish from '@univerjs/preset-sheets-note/locales/en-US';
import { UniverSheetsSortPreset } from '@univerjs/preset-sheets-sort';
import sortEnglish from '@univerjs/preset-sheets-sort/locales/en-US';
import { defaultTheme } from '@univerjs/themes';
import { benchHost } from '../../host/bench-host.ts';
import { protectRange } from '../../host/bench-protect.ts';
import type { SheetHost } from '../../host/host.ts';
import { bookData, plainCell, sheetData } from './book.ts';
import type { PlainBook } from './plain-book.ts';

/** The accent of the page, from pale to deep, instead of the grid's own blue. */
const accent = {
  50: '#F2F7F4',
  100: '#E4ECE6',
  200: '#CBDDD2',
  300: '#B2CFC0',
  400: '#7FAA95',
  500: '#578670',
  600: '#3F7059',
  700: '#2F5D4C',
  800: '#264C3E',
  900: '#1E3C31',
};

/** The page's greys instead of the grid's bluish ones. */
const grey = {
  50: '#FAF9F5',
  100: '#F1EFE8',
  200: '#E2DFD5',
  300: '#B1AEA2',
  400: '#8D887B',
  500: '#5C5B52',
  600: '#3C3D37',
  700: '#2E2F2A',
  800: '#222320',
  900: '#1B1C1A',
};

/** What the page needs of the grid beside the host. */
export interface Grid {
  readonly host: SheetHost;
  focus(): void;
  setDark(dark: boolean): void;
  activeSheetName(): string;
  /** Calls back after anything in the workbook changed. */
  onEdit(listener: () => void): void;
  snapshot(): IWorkbookData;
}

export function openGrid(
  container: HTMLElement,
  book: PlainBook,
  kept: IWorkbookData | null,
  dark: boolean,
  menu: EventTarget,
): Grid {
  const univer = new Univer({
    theme: { ...defaultTheme, primary: accent, gray: grey },
    darkMode: dark,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: mergeLocales(coreEnglish, filterEnglish, noteEnglish, sortEnglish) },
  });
  const presets = [
    UniverSheetsCorePreset({
      container,
      toolbar: false,
      header: true,
      disableAutoFocus: true,
      // Sizes are text on purpose (5/4, 8' 2"); the grid need not warn of each.
      sheets: { disableForceStringAlert: true, disableForceStringMark: true },
      disableTextFormatAlert: true,
      disableTextFormatMark: true,
    }),
    UniverSheetsFilterPreset(),
    UniverSheetsSortPreset(),
    UniverSheetsNotePreset(),
  ];
  for (const preset of presets) {
    for (const plugin of preset.plugins) {
      if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
      else univer.registerPlugin(plugin);
    }
  }
  const api = FUniver.newAPI(univer);
  const workbook = api.createWorkbook(kept ?? bookData(book, '0.25.1', LocaleType.EN_US));
  // The grid draws itself in stages; before the last one, parts that the host calls are not there yet.
  const ready = univer.__getInjector().get(LifecycleService).onStage(LifecycleStages.Rendered);
  if (kept === null) void ready.then(() => protectSheets(workbook, book));
  const focus = () => focusGrid(container);
  const host = benchHost({
    api,
    workbook,
    ready,
    locale: book.locale,
    menu,
    focus,
    sheetFrom: (name, rows) => sheetData({ name, rows }, plainCell),
  });
  return {
    host,
    focus,
    setDark: (wanted) => api.toggleDarkMode(wanted),
    activeSheetName: () => workbook.getActiveSheet().getSheetName(),
    onEdit: (listener) => {
      workbook.onCommandExecuted((command) => {
        if (command.type === CommandType.MUTATION) listener();
      });
    },
    snapshot: () => workbook.save(),
  };
}

async function protectSheets(workbook: ReturnType<FUniver['createWorkbook']>, book: PlainBook): Promise<void> {
  for (const plain of book.sheets) {
    const sheet = workbook.getSheetByName(plain.name);
    for (const { name, ...area } of plain.protected ?? []) if (sheet) await protectRange(sheet, area, name);
  }
}

/** The grid listens through the hidden editor that would take typed text. */
function focusGrid(container: HTMLElement): void {
  const editor = container.querySelector<HTMLElement>('[contenteditable="true"]');
  (editor ?? container).focus();
}
