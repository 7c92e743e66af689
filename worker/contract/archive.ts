/**
 * A whole yard as one file: JSON lines (one JSON value a line, UTF-8, "\n" after each, media type application/x-ndjson),
 * in this order: one header, a line a key, a line a movement from number 1 without a gap, one end. The journal is the
 * yard: every board, job, plan and hold is rebuilt from it. Keys are named so that an owner sees who had one; their
 * secrets are in no file, so they are not restored. Two yards with the same journal have the same end.
 */
import * as z from 'zod';
import { movement } from './movement.ts';

/** Raised when a line changes its meaning; older files stay readable. */
export const ARCHIVE_FORMAT = 1;
export const ARCHIVE_TYPE = 'application/x-ndjson';
export const ARCHIVE_NAME = 'heartside-yard.ndjson';

export const archiveHeader = z.strictObject({
  heartside: z.literal('yard'),
  format: z.number().int().min(1),
  name: z.string(),
  /** How many movements follow. */
  movements: z.number().int().min(1),
});
export const archiveKey = z.strictObject({
  key: z.strictObject({ id: z.string(), label: z.string(), scopes: z.array(z.string()) }),
});
export const archiveMovement = z.strictObject({ movement });
export const archiveEnd = z.strictObject({
  end: z.strictObject({
    movements: z.number().int().min(1),
    /** CRC-32 of the movement lines with their line ends, eight hex digits. */
    crc32: z.string().regex(/^[0-9a-f]{8}$/),
  }),
});
export type ArchiveHeader = z.output<typeof archiveHeader>;
export type ArchiveEnd = z.output<typeof archiveEnd>;

/** How far a restore has come. */
export const restored = z.strictObject({
  /** The last movement that is in the yard. */
  seq: z.number().int(),
  /** How many the file has. */
  movements: z.number().int(),
  /** Whether the end of the file came and fitted; until then the yard takes no other write. */
  done: z.boolean(),
});
export type Restored = z.output<typeof restored>;
