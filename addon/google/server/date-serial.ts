/** A date as Google hands it over, turned into the day number that every other spreadsheet stores. */

const DAY_MS = 86_400_000;
/** Day 0 of the sheets' calendar, 30 December 1899. */
const EPOCH_MS = Date.UTC(1899, 11, 30);

/** Null for anything but a date. The file's own time zone decides which day it is, never the script's. */
export function serialOf(value: unknown): number | null {
  if (!isDate(value)) return null;
  const zone = SpreadsheetApp.getActiveSpreadsheet().getSpreadsheetTimeZone();
  const written = Utilities.formatDate(value, zone, "yyyy-MM-dd'T'HH:mm:ss'Z'");
  return (Date.parse(written) - EPOCH_MS) / DAY_MS;
}

/** By name, because a date of another realm is no instance of ours. */
function isDate(value: unknown): value is GoogleAppsScript.Base.Date & Date {
  return Object.prototype.toString.call(value) === '[object Date]';
}
