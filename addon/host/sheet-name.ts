/** Names of sheets: a wanted name made fit for every spreadsheet, and never one that is taken. */

/** Spreadsheets take 31 characters; four are left for " 999". */
const NAME_CHARS_MAX = 27;

export function freeSheetName(wanted: string, taken: readonly string[]): string {
  const takenLower = new Set(taken.map((name) => name.toLowerCase()));
  const base =
    wanted
      // Characters that spreadsheets refuse in a sheet's name.
      .replace(/[\\/?*[\]:]/g, '-')
      .slice(0, NAME_CHARS_MAX)
      .trim() || 'Sheet';
  let name = base;
  for (let count = 2; takenLower.has(name.toLowerCase()); count += 1) name = `${base} ${count}`;
  return name;
}

export function sheetGone(name: string): string {
  return `The sheet “${name}” is no longer there. Open the sheet you want and try again.`;
}
