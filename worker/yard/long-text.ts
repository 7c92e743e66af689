/** Texts that may pass the platform's 2 MB a row (a plan with its drawings, a movement of 2,000 boards), kept in pieces. */
import type { Sql } from './sql.ts';

/** At most three bytes a character, so a piece stays under 1 MB. */
const PIECE_CHARS = 300_000;

const statements = {
  plan_text: {
    write: 'INSERT INTO plan_text (id, no, text) VALUES (?, ?, ?)',
    read: 'SELECT text FROM plan_text WHERE id = ? ORDER BY no',
  },
  journal_text: {
    write: 'INSERT INTO journal_text (id, no, text) VALUES (?, ?, ?)',
    read: 'SELECT text FROM journal_text WHERE id = ? ORDER BY no',
  },
  receipt_text: {
    write: 'INSERT INTO receipt_text (id, no, text) VALUES (?, ?, ?)',
    read: 'SELECT text FROM receipt_text WHERE id = ? ORDER BY no',
  },
} as const;
type TextTable = keyof typeof statements;

/** Cuts a text into pieces, never through the two halves of one character. */
export function textPieces(text: string, chars: number): readonly string[] {
  const pieces: string[] = [];
  let from = 0;
  do {
    let to = Math.min(from + chars, text.length);
    const last = text.charCodeAt(to - 1);
    if (to < text.length && last >= 0xd800 && last <= 0xdbff) to -= 1;
    pieces.push(text.slice(from, to));
    from = to;
  } while (from < text.length);
  return pieces;
}

export function writeLongText(sql: Sql, table: TextTable, id: string | number, text: string): void {
  for (const [no, piece] of textPieces(text, PIECE_CHARS).entries()) sql.run(statements[table].write, id, no, piece);
}

/** Null where nothing was written under this id. */
export function readLongText(sql: Sql, table: TextTable, id: string | number): string | null {
  const pieces = sql.rows<{ text: string }>(statements[table].read, id);
  return pieces.length === 0 ? null : pieces.map((piece) => piece.text).join('');
}
