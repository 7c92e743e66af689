/** Which rows of a board list say themselves that they are offcuts. */
import { describe, expect, test } from 'vitest';
import { saysOffcut } from '../../addon/sheet/read-boards.ts';

describe('a row that says it is an offcut', () => {
  const says = (note: string) => saysOffcut({ place: '', delivery: '', note });
  test.each(['offcut bin', 'Off-cuts rack', 'off cut', 'short remnant', 'OFFCUT'])('%s', (note) => {
    expect(says(note)).toBe(true);
    expect(saysOffcut({ place: note, delivery: '', note: '' })).toBe(true);
  });
  test.each(['', 'no offcuts kept', 'not an offcut', 'offcuts of it in the bin', 'cut off square', 'rack 2'])(
    '%s does not',
    (note) => {
      expect(says(note)).toBe(false);
    },
  );
});
