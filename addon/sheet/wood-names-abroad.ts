/**
 * Woods by their names in other languages of the trade (from memory), each to the name that the list of woods knows. Where
 * a word means two woods of the trade (walnut, cherry), it leads to both, and the reader asks.
 */
import { straight } from './heading.ts';

const names: Readonly<Record<string, readonly string[]>> = {
  'European oak': [
    'eiche',
    'eichen',
    'eichenholz',
    'chene',
    'roble',
    'rovere',
    'quercia',
    'carvalho',
    'eiken',
    'eik',
    'ek',
    'eg',
    'eik',
  ],
  'European ash': ['esche', 'eschen', 'eschenholz', 'frene', 'fresno', 'frassino', 'freixo', 'essen', 'es', 'ask'],
  'European beech': ['buche', 'buchen', 'rotbuche', 'hetre', 'haya', 'faggio', 'faia', 'beuken', 'beuk', 'bok', 'bog'],
  'sycamore maple': [
    'ahorn',
    'bergahorn',
    'erable',
    'erable sycomore',
    'arce',
    'acero',
    'esdoorn',
    'lonn',
    'aer',
    'platanlonn',
  ],
  'black walnut': [
    'amerikanischer nussbaum',
    'amerikanische nuss',
    'amerik nussbaum',
    'us nussbaum',
    'noyer americain',
    'noyer noir',
    'noyer d amerique',
    'nogal americano',
    'nogal negro',
    'noce americano',
    'noce nero',
    'amerikaans noten',
    'amerikansk valnot',
    'amerikansk valnod',
  ],
  'European walnut': [
    'europaischer nussbaum',
    'noyer d europe',
    'noyer francais',
    'nogal europeo',
    'noce europeo',
    'europees noten',
  ],
  'black cherry': [
    'amerikanische kirsche',
    'amerikanischer kirschbaum',
    'cerisier americain',
    'cerezo americano',
    'ciliegio americano',
  ],
  'European cherry': ['europaische kirsche', 'vogelkirsche', 'merisier'],
  'European lime': ['linde', 'lindenholz', 'tilleul', 'tilo', 'tiglio', 'lind'],
  'Norway spruce': ['fichte', 'epicea', 'abete rosso', 'vuren', 'gran'],
  'European larch': ['larche', 'laerche', 'meleze', 'alerce', 'larice', 'lariks', 'lark'],
  'European elm': ['ulme', 'ruster', 'orme', 'olmo', 'iepen', 'alm', 'elm europaisch'],
  'white oak': [
    'amerikanische weisseiche',
    'weisseiche',
    'chene blanc',
    'chene blanc americain',
    'roble blanco',
    'rovere bianco',
  ],
  'northern red oak': ['roteiche', 'chene rouge', 'roble rojo', 'rovere rosso'],
};

const walnuts = ['European walnut', 'black walnut'];
const cherries = ['European cherry', 'black cherry'];
const several: Readonly<Record<string, readonly string[]>> = {
  nussbaum: walnuts,
  nuss: walnuts,
  noyer: walnuts,
  nogal: walnuts,
  noce: walnuts,
  nogueira: walnuts,
  noten: walnuts,
  notenhout: walnuts,
  valnot: walnuts,
  valnod: walnuts,
  kirsche: cherries,
  kirschbaum: cherries,
  cerisier: cherries,
  cerezo: cherries,
  ciliegio: cherries,
  cerejeira: cherries,
  kersen: cherries,
  korsbar: cherries,
  kirsebaer: cherries,
};

const byWord = new Map<string, readonly string[]>([
  ...Object.entries(names).flatMap(([name, words]) => words.map((word) => [word, [name]] as const)),
  ...Object.entries(several),
]);

/** "Eiche" is "European oak", "Nussbaum" one of two; empty for a word that is in no list. */
export function woodsNamedAbroad(words: string): readonly string[] {
  const plain = straight(words)
    .replaceAll(/[^a-z]+/g, ' ')
    .trim();
  return byWord.get(plain) ?? [];
}
