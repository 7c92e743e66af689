/** Comparing and ordering what is written on the boards' ends. */

/** Two tags are the same when they fold to the same text. */
export function tagFold(tag: string): string {
  return tag.normalize('NFKC').trim().toLowerCase();
}

/** Orders tags as a person does: A-2 before A-10. */
export function tagSort(tag: string): string {
  return tagFold(tag).replace(/\d+/g, (digits) => digits.padStart(8, '0'));
}
