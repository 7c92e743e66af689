/** Ids that need no one to be asked: twelve letters and digits that a person can read out. */

const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz';

/** 60 random bits after the prefix. */
export function newId(prefix: string): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return `${prefix}_${Array.from(bytes, (byte) => LETTERS[byte & 31]).join('')}`;
}
