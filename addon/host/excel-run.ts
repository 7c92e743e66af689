/** One batch against Excel: it waits until a cell being edited is done, and says Excel's faults in plain words. */
import { HostError, type HostErrorCode } from './host.ts';

export type Batch<T> = (context: Excel.RequestContext) => Promise<T>;

export const EXCEL_ROWS_MAX = 1_048_576;
export const EXCEL_COLUMNS_MAX = 16_384;

export function readExcel<T>(batch: Batch<T>): Promise<T> {
  return translated(() => Excel.run({ delayForCellEdit: true }, batch));
}

/** All changes of the batch are one step of the user's own undo, where this Excel can. */
export function changeExcel<T>(batch: Batch<T>): Promise<T> {
  const options: Excel.RunOptions = mergesUndo()
    ? { delayForCellEdit: true, mergeUndoGroup: true }
    : { delayForCellEdit: true };
  return translated(() => Excel.run(options, batch));
}

export const mergesUndo = (): boolean => supports('1.20');
/** The library of an older page may lack what the program itself can. */
export const writesNotes = (): boolean => supports('1.18') && 'notes' in Excel.Worksheet.prototype;
/** A page opened outside Excel has nothing to ask. */
const supports = (version: string) => Office.context.requirements?.isSetSupported('ExcelApi', version) ?? false;

const FAULTS: Readonly<Record<string, readonly [code: HostErrorCode, help: string]>> = {
  ItemNotFound: ['gone', 'That sheet is no longer there. Open the sheet you want and try again.'],
  InvalidSelection: ['nothing-selected', 'Select one block of cells.'],
  AccessDenied: ['protected', 'The sheet is protected. Unprotect it under Review, or write to a new sheet.'],
  InvalidOperationInCellEditMode: ['busy-editing', 'A cell is being edited. Press Enter in it and try again.'],
  RequestPayloadSizeLimitExceeded: ['too-large', 'That is more than Excel takes at once. Select fewer rows.'],
  ResponsePayloadSizeLimitExceeded: ['too-large', 'That is more than Excel gives at once. Select fewer rows.'],
  Timeout: ['busy-editing', 'Excel is busy. Try again in a moment.'],
  HttpRequestTimeout: ['busy-editing', 'Excel is busy. Try again in a moment.'],
  ActivityLimitReached: ['quota', 'Excel takes no more for the moment. Wait a little and try again.'],
  NotImplemented: ['unsupported', 'This Excel is too old for that.'],
  ApiNotAvailable: ['unsupported', 'This Excel is too old for that.'],
  ApiNotFound: ['unsupported', 'This Excel is too old for that.'],
};

async function translated<T>(run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (fault) {
    if (fault instanceof HostError) throw fault;
    const known = fault instanceof OfficeExtension.Error ? FAULTS[fault.code] : undefined;
    const [code, help] = known ?? [
      'unknown',
      'Excel did not do that. Try again; if it stays so, close the pane and open it anew.',
    ];
    throw new HostError(code, help);
  }
}
