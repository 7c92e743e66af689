/** What the check of a whole yard finds. It comes in parts, so that a large yard costs no more at once than a small one. */
import * as z from 'zod';

export const doctorRule = z.enum([
  /** The journal's numbers run from 1 without a gap. */
  'journal-numbers',
  /** Every movement has its changes, in the form of the contract. */
  'movement-form',
  /** What a movement touched is found again by thing and by board. */
  'journal-index',
  /** A movement that undoes another names one that came before. */
  'undo',
  /** Wood in = parts + failed + offcuts + kerf + scrap + write-off, to the cubic nanometre, for every board that ended. */
  'wood-conserved',
  /** The journal alone gives each thing as it is, and nothing else. */
  'replay',
  /** Each thing has the form of the contract. */
  'form',
  /** The columns that lists are sorted and filtered by say what the thing says. */
  'columns',
  /** No two holds of a board overlap. */
  'overlap',
  /** Holds, jobs, plans, pieces and sessions fit each other. */
  'fit',
  /** A plan lies on its boards: pieces within them, apart from each other, as many as it says. */
  'plan',
  /** Each remembered answer is whole, and tells of a movement that is there. */
  'receipt',
  /** The database file itself is sound. */
  'database',
]);
export type DoctorRule = z.output<typeof doctorRule>;

export const finding = z.strictObject({
  rule: doctorRule,
  /** The thing, as "board bd_…" or "movement 12". */
  what: z.string(),
  words: z.string(),
});
export type Finding = z.output<typeof finding>;

export const doctorPage = z.strictObject({
  /** What was broken in this part; at most 200, since one fault often shows in many places. */
  findings: z.array(finding),
  looked: z.strictObject({ movements: z.number().int(), things: z.number().int(), receipts: z.number().int() }),
  /** Movements of the whole yard, to say how far it is. */
  movements: z.number().int(),
  /** Where to go on; null when all was looked at. */
  next: z.string().nullable(),
});
export type DoctorPage = z.output<typeof doctorPage>;
