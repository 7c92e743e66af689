/** What shops write over a column, by role: whole headings as shops word them. Common practice, no source. */
import type { BoardRole, PartRole, Role, Want } from './mapping.ts';
import { boardWordsAbroad, partWordsAbroad } from './role-words-abroad.ts';

const sizes = {
  length: ['length', 'len', 'lgth', 'lngth', 'lnth', 'lnght', 'lng', 'long', 'l', 'ft', 'feet'],
  lengthInches: ['in', 'ins', 'inch', 'inches', 'and inches', 'plus inches'],
  width: ['width', 'wid', 'wdth', 'wide', 'breadth', 'w', 'wd'],
  thickness: ['thickness', 'thick', 'thk', 'thck', 'thickn', 'thkn', 'thkness', 'gauge', 'quarters', 't', 'th', '/4'],
  size: [
    ...['size', 'sizes', 'dimensions', 'dims', 'dim', 'section', 'cross section'],
    ...['l x w x t', 'lxwxt', 't x w x l', 'txwxl', 'l x w', 'lxw', 'w x l', 'wxl', 'w x t', 'wxt', 't x w', 'txw'],
    ...['length x width', 'width x length', 'width x thickness', 'thickness x width'],
  ],
};

const wood = [
  'species',
  'wood',
  'timber',
  'lumber',
  'wood species',
  'wood type',
  'material',
  'matl',
  'sp',
  'spp',
  'kind',
  'w',
];
const notes = ['note', 'notes', 'remark', 'remarks', 'comment', 'comments', 'memo'];

const boardWords: Readonly<Record<BoardRole, readonly string[]>> = {
  tag: [
    'tag',
    'tags',
    'tag no',
    'tag number',
    'board',
    'board no',
    'board nr',
    'board number',
    'board id',
    'board tag',
    'board ref',
    'plank',
    'plank no',
    'id',
    'no',
    'nr',
    'number',
    '#',
    'board #',
    'bd',
    'bd #',
    'bd no',
    'brd',
    'piece #',
    'stick',
    'stick no',
    'stick #',
    'pc #',
    'brd no',
    'tag #',
    'label',
    'ref',
    'code',
    'mark',
  ],
  species: wood,
  ...sizes,
  moisture: [
    'mc',
    'mc %',
    'm c',
    'm/c',
    'moisture',
    'moisture content',
    'moisture content %',
    'mc reading',
    'meter',
    'moist',
    'moisture %',
    'wet %',
    '% mc',
    'humidity',
  ],
  readOn: ['read', 'read on', 'date', 'date read', 'reading date', 'mc date', 'measured', 'measured on', 'metered'],
  grain: ['grain', 'cut', 'sawn', 'grain pattern', 'orientation', 'saw cut', 'figure'],
  grade: ['grade', 'quality', 'grading', 'class'],
  place: [
    'place',
    'location',
    'loc',
    'rack',
    'bay',
    'shelf',
    'stack',
    'stand',
    'bin',
    'store',
    'where',
    'stored',
    'stored at',
    'storage',
    'position',
  ],
  cost: ['cost', 'paid', 'price', 'price paid', 'board cost', 'value', 'amount', '$', 'cost $', 'paid $', 'total cost'],
  delivery: [
    'delivery',
    'supplier',
    'source',
    'mill',
    'lot',
    'log',
    'batch',
    'invoice',
    'vendor',
    'from',
    'bought from',
  ],
  note: [...notes, 'defects', 'description', 'condition'],
  crook: ['crook', 'spring', 'sweep', 'edge bend'],
  bow: ['bow', 'bowed'],
  cup: ['cup', 'cupping'],
  twist: ['twist', 'wind', 'winding'],
};

const partWords: Readonly<Record<PartRole, readonly string[]>> = {
  key: ['yard ref', 'key', 'ref', 'part ref', 'part #', 'part no', 'part number', 'part id', 'id', 'code', 'mark'],
  label: [
    'part',
    'part name',
    'name',
    'item',
    'component',
    'piece',
    'description',
    'label',
    'member',
    'what',
    'element',
  ],
  quantity: [
    'qty',
    'quantity',
    'pcs',
    'pc',
    'pce',
    'pces',
    'pieces',
    'reqd',
    'req',
    'rqd',
    'no required',
    '# of',
    '# of pcs',
    '# reqd',
    'no',
    'nr',
    'no of',
    'no off',
    'off',
    'number',
    'number of',
    'count',
    'how many',
    'num',
    '#',
    'q',
    'n',
    'stk',
    'ea',
    'needed',
    'required',
    'amount',
    'no reqd',
    'qty reqd',
    'x',
  ],
  species: wood,
  ...sizes,
  use: [
    'use',
    'use class',
    'class',
    'purpose',
    'show',
    'seen',
    'visibility',
    'visible',
    'importance',
    'role',
    'priority',
  ],
  faces: ['faces', 'face', 'clear faces', 'clear sides', 'appearance', 'clear', 'surface', 'knots', 'face quality'],
  grain: ['grain', 'cut', 'sawn', 'grain pattern', 'orientation'],
  plies: ['plies', 'ply', 'layers', 'lams', 'laminations', 'lam', 'lay up', 'layup', 'no of plies', 'no of layers'],
  plyWidth: [
    'middle ply width',
    'middle width',
    'middle w',
    'middle',
    'mid ply width',
    'mid ply w',
    'mid ply',
    'mid layer w',
    'mid layer width',
    'middle layer width',
    'mid w',
    'inner ply width',
    'inner width',
    'inner w',
    'inner ply',
    'core width',
    'core w',
    'core',
    'centre ply width',
    'center ply width',
    'centre w',
    'center w',
  ],
  staves: ['staves', 'stave', 'strips', 'glue up', 'no of staves', 'boards wide', 'panel strips', 'edge glued'],
  note: [...notes, 'detail', 'details', 'shape', 'joinery'],
};

/** Words that say which length is meant, and how well that suits boards (rough) or parts (finished). */
export const qualifiers: Readonly<Record<string, Readonly<Record<Want, number>>>> = {
  finished: { boards: 0.8, parts: 1 },
  finish: { boards: 0.8, parts: 1 },
  fin: { boards: 0.8, parts: 1 },
  final: { boards: 0.8, parts: 1 },
  net: { boards: 0.8, parts: 1 },
  rough: { boards: 1, parts: 0.8 },
  raw: { boards: 1, parts: 0.8 },
  gross: { boards: 0.8, parts: 0.7 },
  actual: { boards: 1, parts: 0.95 },
  measured: { boards: 1, parts: 0.9 },
  nominal: { boards: 0.75, parts: 0.7 },
  nom: { boards: 0.75, parts: 0.7 },
  clear: { boards: 0.7, parts: 0.7 },
  usable: { boards: 0.75, parts: 0.7 },
  overall: { boards: 0.95, parts: 0.9 },
  avg: { boards: 0.95, parts: 0.7 },
  average: { boards: 0.95, parts: 0.7 },
  board: { boards: 0.95, parts: 0.6 },
  plank: { boards: 0.95, parts: 0.6 },
  part: { boards: 0.6, parts: 0.95 },
  cut: { boards: 0.7, parts: 0.85 },
  min: { boards: 0.9, parts: 0.8 },
  minimum: { boards: 0.9, parts: 0.8 },
  narrow: { boards: 0.9, parts: 0.8 },
  max: { boards: 0.8, parts: 0.7 },
  maximum: { boards: 0.8, parts: 0.7 },
  total: { boards: 0.5, parts: 0.4 },
};

/** Headings over figures that are worked out, or a price by volume: never one of the roles. */
const workedOut =
  /(?:^| )(?:bf|bd ?ft|board f(?:ee|oo)t|area|volume|vol|weight|wt|sq ?ft|m2|m3|cu ?ft|flache|volumen|gewicht|lin(?:eal|ear)? ?(?:ft|feet)?)(?: |$)|\/ ?(?:bf|ft|m3)|(?:^| )(?:per|a) (?:bf|bd ft|board foot|m3|foot)/;

/** Headings of the add-on's own columns: results, never input (the row's key apart). */
const own = new Set([
  'board feet',
  'rough size',
  'status',
  'held by',
  'held board',
  'ready on',
  'short',
  'tag taken in',
]);

type Words = Readonly<Partial<Record<Role, readonly string[]>>>;

function rolesByWords(...tables: readonly Words[]): ReadonlyMap<string, readonly Role[]> {
  const found = new Map<string, Role[]>();
  for (const table of tables) {
    for (const [role, headings] of Object.entries(table) as [Role, readonly string[]][]) {
      for (const heading of headings) {
        const roles = found.get(heading) ?? [];
        if (!roles.includes(role)) found.set(heading, [...roles, role]);
      }
    }
  }
  return found;
}

const byWords: Record<Want, ReadonlyMap<string, readonly Role[]>> = {
  boards: rolesByWords(boardWords, boardWordsAbroad),
  parts: rolesByWords(partWords, partWordsAbroad),
};

/** Words that say nothing alone: they never decide a heading of several words. */
const weak = new Set([
  'no',
  'nr',
  'number',
  'of',
  'read',
  'from',
  'date',
  'board',
  'piece',
  'part',
  'cut',
  'x',
  'what',
  'off',
  'in',
  'ft',
  'feet',
  'inches',
]);

/** "Qty per chair" counts less than the "Total" beside it; either is asked about. */
const forOneSet = /^(?:qty|quantity|pcs|pieces|no|count) ?(?:\/|per|each|for each|in each|a) ?\w+(?: \w+)?$/;
const FOR_ONE_SET = 0.45;
const ALL_SETS = 0.48;

/** Each role that the words of a heading can mean, with how surely: 1 the very words, 0.55 a single letter. */
export function rolesOfWords(want: Want, words: string): ReadonlyMap<Role, number> {
  const found = new Map<Role, number>();
  const put = (role: Role, score: number) => found.set(role, Math.max(score, found.get(role) ?? 0));
  if (words === '' || (own.has(words) && !(want === 'parts' && words === 'yard ref')) || workedOut.test(words))
    return found;
  for (const role of byWords[want].get(words) ?? []) put(role, words.length === 1 ? 0.55 : 1);
  if (want === 'parts' && forOneSet.test(words)) return new Map([['quantity', FOR_ONE_SET]]);
  if (want === 'parts' && found.size === 0 && /^(?:total|gesamt|totaal|totale|i alt|totalt)$/.test(words))
    put('quantity', ALL_SETS);
  const tokens = words.split(/[ /]/).filter((token) => token !== '');
  const bare = tokens.filter((token) => qualifiers[token] === undefined);
  if (bare.length < tokens.length && bare.length > 0) {
    const suitsSize = Math.min(...tokens.map((token) => qualifiers[token]?.[want] ?? 1));
    const heading = bare.join(' ').length === 1 ? 0.55 : 1;
    for (const role of byWords[want].get(bare.join(' ')) ?? []) {
      // "Total qty" is the one that counts where "Qty" is for one set.
      if (role === 'quantity' && !tokens.includes('total')) continue;
      const suits = role === 'quantity' ? 1.05 : suitsSize;
      put(role, heading * suits);
    }
  }
  if (found.size === 0 && tokens.length > 1) {
    for (const token of bare) {
      if (token.length < 2 || weak.has(token)) continue;
      for (const role of byWords[want].get(token) ?? []) put(role, 0.6);
    }
  }
  return found;
}

/** Does a heading speak of how many? */
export function speaksOfCount(words: string): boolean {
  return words.length > 1 && (byWords.parts.get(words)?.includes('quantity') ?? false);
}
