/** Ids that need no one to be asked: twelve letters and digits that a person can read out. */

const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz';

const ID_LETTERS = 12;
/** Random bytes for many ids at once: asking the platform for each takes longer than making the id. */
const random = new Uint8Array(64 * ID_LETTERS);
let used = random.length;

/** 60 random bits after the prefix. */
export function newId(prefix: string): string {
  if (used >= random.length) {
    crypto.getRandomValues(random);
    used = 0;
  }
  let id = `${prefix}_`;
  for (const end = used + ID_LETTERS; used < end; used += 1) id += LETTERS[(random[used] ?? 0) & 31];
  return id;
}
