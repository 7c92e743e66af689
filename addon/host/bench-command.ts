/** The event by which the bench page tells its host of a picked item of the menu; the command is its detail. */
export const BENCH_COMMAND = 'heartside-command';
