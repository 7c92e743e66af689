/** Cell addresses as a person names them: 0-based row 6, column 8 is "I7". */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column; rest >= 0; rest = Math.floor(rest / 26) - 1) {
    letters = String.fromCharCode(65 + (rest % 26)) + letters;
  }
  return letters;
}

export function cellAddress(row: number, column: number): string {
  return `${columnLetters(column)}${row + 1}`;
}
