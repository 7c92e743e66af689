/** Keeps the user's edits of the bench workbook in this browser, until "Start over" asks for the demo sheet again. */
import type { IWorkbookData } from '@univerjs/core';

/** The workbook that was opened from a file; the browser keeps all of it. */
export const FILE_BOOK = 'file';

const keyOf = (bookId: string) => `heartside.book.${bookId}`;

export function keptBook(bookId: string): IWorkbookData | null {
  try {
    const text = localStorage.getItem(keyOf(bookId));
    if (!text) return null;
    const data: IWorkbookData = JSON.parse(text);
    return data.id === bookId && data.sheetOrder.length > 0 ? data : null;
  } catch {
    return null;
  }
}

/** False when the browser has no room or keeps nothing. */
export function keepBook(data: IWorkbookData): boolean {
  try {
    localStorage.setItem(keyOf(data.id), JSON.stringify(data));
    return true;
  } catch {
    return false;
  }
}

export function forgetBook(bookId: string): void {
  localStorage.removeItem(keyOf(bookId));
}
