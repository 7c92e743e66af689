/** The many marks that people and their keyboards write a length with, brought to one kind each before it is read. */

/** One kind of quote, dash and space, small letters, and vulgar fractions opened: 23⅝″ becomes 23 5/8". */
export function plainLength(text: string): string {
  return text
    .replaceAll(/[⁰¹²³⁴-⁹]+[⁄/][₀-₉]+/g, (c) => ` ${c.normalize('NFKC')}`)
    .replaceAll(/[¼-¾⅐-⅞]/g, (c) => ` ${c.normalize('NFKC')}`)
    .replaceAll('⁄', '/')
    .replaceAll(/[‘’′ʹ´`＇‵]/g, "'")
    .replaceAll(/[“”″ʺ˝〃＂]|''/g, '"')
    .replaceAll(/[‐‑‒–—−]/g, '-')
    .replaceAll(/[\s\u200b\u2060]+/g, ' ')
    .replaceAll(/ ?- ?(?=\d+ ?\/)/g, (_, at: number) => (at === 0 ? '-' : ' '))
    .trim()
    .toLowerCase();
}
