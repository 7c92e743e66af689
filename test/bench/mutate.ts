/**
 * `node test/bench/mutate.ts FILE TEST…`: changes one operator, constant or condition of a source file at a time, runs the
 * tests named, and says which changes no test noticed. The file is put back after each. Strings and comments stay.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';

const [file, ...tests] = process.argv.slice(2);
if (!file || tests.length === 0) {
  console.error(
    'Say which file and which tests: node test/bench/mutate.ts worker/yard/receipts.ts test/yard/door.test.ts',
  );
  process.exit(2);
}
const MOST = Number(process.env.MUTANTS ?? 400);
const source = readFileSync(file, 'utf8');

/** What is written, and what a slip would have written instead. */
const slips: readonly (readonly [RegExp, string])[] = [
  [/===/g, '!=='],
  [/!==/g, '==='],
  [/ <= /g, ' < '],
  [/ >= /g, ' > '],
  [/ < /g, ' <= '],
  [/ > /g, ' >= '],
  [/ && /g, ' || '],
  [/ \|\| /g, ' && '],
  [/ \?\? /g, ' && '],
  [/ \+ /g, ' - '],
  [/ - /g, ' + '],
  [/\btrue\b/g, 'false'],
  [/\bfalse\b/g, 'true'],
  [/\bMath\.max\b/g, 'Math.min'],
  [/\bMath\.min\b/g, 'Math.max'],
  [/\.some\(/g, '.every('],
  [/\.every\(/g, '.some('],
  [/\bif \((?!!)/g, 'if (!'],
  [/\b0\b(?!['.])/g, '1'],
  [/\b1\b(?!['.])/g, '0'],
];

/** Places within strings, templates, comments and imports, where a change is no change of the rules. */
function quiet(text: string): (at: number) => boolean {
  const spans = [
    ...text.matchAll(
      /\/\*[\s\S]*?\*\/|\/\/[^\n]*|`(?:\\.|[^`\\])*`|'(?:\\.|[^'\\\n])*'|^import[\s\S]*?;$|^(?:export )?type [\s\S]*?;$/gm,
    ),
  ].map((match) => [match.index, match.index + match[0].length] as const);
  return (at) => spans.some(([from, to]) => at >= from && at < to);
}

const isQuiet = quiet(source);
const mutants = slips
  .flatMap(([pattern, slip]) =>
    [...source.matchAll(pattern)]
      .filter((match) => !isQuiet(match.index))
      .map((match) => ({ at: match.index, was: match[0], slip })),
  )
  .sort((a, b) => a.at - b.at)
  .slice(0, MOST);

function noticed(): boolean {
  const ran = spawnSync(
    'npx',
    [
      'vitest',
      'run',
      '--config',
      'test/vitest.config.ts',
      '--project',
      'node',
      '--bail',
      '1',
      '--reporter',
      'dot',
      ...tests,
    ],
    { stdio: 'ignore', timeout: 180_000 },
  );
  return ran.status !== 0;
}

if (noticed()) throw new Error('the tests fail before anything was changed');
let killed = 0;
const alive: string[] = [];
try {
  for (const { at, was, slip } of mutants) {
    writeFileSync(file, source.slice(0, at) + slip + source.slice(at + was.length));
    if (noticed()) killed += 1;
    else {
      const line = source.slice(0, at).split('\n').length;
      alive.push(`${file}:${line}: "${was.trim()}" as "${slip.trim()}": ${source.split('\n')[line - 1]?.trim()}`);
      console.log(`lives: ${alive.at(-1)}`);
    }
  }
} finally {
  writeFileSync(file, source);
}
console.log(
  JSON.stringify({
    file,
    mutants: mutants.length,
    killed,
    percent: Math.round((100 * killed) / Math.max(1, mutants.length)),
  }),
);
