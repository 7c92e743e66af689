/** Where a figure of the trade comes from, so that every answer can say how far it may be trusted. */

export type SourceFlag =
  /** Read in the cited document. */
  | 'read'
  /** Read in a transcription or article that cites the document. */
  | 'second-hand'
  /** Recalled, and confirmed because it reproduces a figure that was read, to all its digits. */
  | 'reproduced'
  /** Read as the one value that the document gives for a commercial group of species. */
  | 'group'
  /** Worked out from another figure of the same row by a stated formula. */
  | 'computed'
  | 'from-memory'
  | 'common-practice'
  /** The shop's own figure. */
  | 'own';

/** What a person is told of a figure, by its flag. */
export const sourceWords: Readonly<Record<SourceFlag, string>> = {
  read: 'read in the source',
  'second-hand': 'from a copy that cites the source',
  reproduced: 'from memory, and agrees with a figure read in the source',
  group: 'read in the source, for the commercial group',
  computed: 'worked out from the source',
  'from-memory': 'from memory',
  'common-practice': 'common practice, no source',
  own: 'your own figure',
};
