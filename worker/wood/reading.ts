/** What a board is now, of all the times that somebody read it. */

/**
 * The last reading by its day, ISO; of one day the later entry, which is the better informed. null without any. Days are
 * compared as texts, so the order in which they were written down does not matter.
 */
export function latestReading<R extends { readonly on: string }>(readings: readonly R[]): R | null {
  let latest: R | null = null;
  for (const reading of readings) if (latest === null || reading.on >= latest.on) latest = reading;
  return latest;
}
