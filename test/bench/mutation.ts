/**
 * `node test/bench/mutation.ts AREA [SHARE [SEED]]`: mutation testing of worker/AREA (wood, takeoff, yard or planner) by its own tests,
 * with StrykerJS (Apache-2.0). SHARE, over 0 and up to 1, takes that share of the source in blocks of four lines, where the
 * whole would take a night; which blocks, SEED says: another one takes others. What
 * survives is printed as it is found, and again at the end; the report goes to dist/mutation/AREA.json.
 *
 * It works on a copy of the tracked files, with the tool installed there only: the tool brings 170 packages that nobody who
 * just runs or tests the project should wait for. Texts are not mutated: what an error says is read by people, not by tests.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const STRYKER = '10.1.1';
const LINES_A_BLOCK = 4;

/** Tables of published figures have tests of their own, figure by figure; changing them line by line shows nothing new. */
const TABLES = ['worker/wood/species-data.ts', 'worker/wood/species-names.ts'];

const AREAS: Readonly<Record<string, readonly string[]>> = {
  wood: ['test/wood/**/*.test.ts'],
  takeoff: ['test/takeoff/**/*.test.ts'],
  // What the yard answers is asked through the API in part, page by page.
  yard: [
    'test/yard/!(history).test.ts',
    'test/api/{again,tagged,delivery,narrowed-stock,link-code,drying-boards,wood-yard,shared-board,front,replan}.test.ts',
  ],
  planner: ['test/planner/**/*.test.ts'],
};

/** Seconds each, for each mutant anew: histories at random and boards by the thousand. What they would notice is not counted. */
const LONG_TESTS = [
  'whatever a shop does',
  'whatever happened in it',
  'any history holds',
  'an undo brings the yard back as it was',
  'more than one question can look at',
  'the round comes in parts',
  'brought up to',
];
/** What runs on the platform only: the object itself and its database. Tests of the workerd project run them. */
const ON_THE_PLATFORM = ['worker/yard/yard.ts', 'worker/yard/sql-durable.ts'];

/** The tool's own reports come at the very end, which a run that is broken off never reaches. */
const AS_FOUND = `
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
class AsFound {
  onMutantTested({ status, fileName, location, mutatorName, replacement }) {
    if (status === 'Killed' || status === 'Timeout') return;
    console.log([status, fileName + ':' + location.start.line, mutatorName, replacement].join(' '));
  }
}
export const strykerPlugins = [declareClassPlugin(PluginKind.Reporter, 'as-found', AsFound)];
`;

type Mutant = {
  readonly mutatorName: string;
  readonly status: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number } };
};
type Report = {
  readonly files: Readonly<Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>>;
};

const [area = '', shareText = '1', seed = '1'] = process.argv.slice(2);
const tests = AREAS[area];
const share = Number(shareText);
if (!tests || !(share > 0 && share <= 1)) {
  console.error(
    `Say which area, of ${Object.keys(AREAS).join(', ')}, and which share: node test/bench/mutation.ts yard 0.2`,
  );
  process.exit(2);
}

/** The blocks of a file that a share takes: whichever a digest of name and line puts below it. */
function blocks(file: string): string[] {
  if (share === 1) {
    return [file];
  }
  const lineCount = readFileSync(file, 'utf8').split('\n').length;
  const taken: string[] = [];
  for (let line = 1; line <= lineCount; line += LINES_A_BLOCK) {
    const digest = createHash('sha256').update(`${seed}:${file}:${line}`).digest().readUInt32BE(0);
    if (digest < share * 2 ** 32) {
      taken.push(`${file}:${line}-${Math.min(lineCount, line + LINES_A_BLOCK - 1)}`);
    }
  }
  return taken;
}

const tracked = execFileSync('git', ['ls-files'], { encoding: 'utf8' }).trim().split('\n');
const mutate = tracked
  .filter(
    (file) =>
      file.startsWith(`worker/${area}/`) && file.endsWith('.ts') && ![...TABLES, ...ON_THE_PLATFORM].includes(file),
  )
  .flatMap(blocks);

const copy = mkdtempSync(join(tmpdir(), 'heartside-mutation-'));
for (const file of tracked) {
  mkdirSync(dirname(join(copy, file)), { recursive: true });
  cpSync(file, join(copy, file));
}
writeFileSync(join(copy, 'as-found.mjs'), AS_FOUND);
writeFileSync(
  join(copy, 'stryker.config.json'),
  JSON.stringify({
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner', './as-found.mjs'],
    vitest: { configFile: 'test/bench/mutation-vitest.config.ts', related: false },
    mutate,
    mutator: { excludedMutations: ['StringLiteral'] },
    coverageAnalysis: 'perTest',
    // A change of what is worked out once at loading would need every test for each mutant.
    ignoreStatic: true,
    concurrency: 1,
    timeoutMS: 4_000,
    timeoutFactor: 2.5,
    reporters: ['progress-append-only', 'json', 'as-found'],
    jsonReporter: { fileName: 'report.json' },
    // The tool reads tsconfig through an interface that TypeScript 7 no longer has; the tests run without it.
    tsconfigFile: 'none.json',
  }),
);
const at = {
  cwd: copy,
  stdio: 'inherit',
  env: { ...process.env, MUTATION_TESTS: tests.join(','), MUTATION_LEAVES_OUT: LONG_TESTS.join('|') },
} as const;
spawnSync('npm', ['ci', '--no-audit', '--no-fund'], at);
const packages = ['core', 'vitest-runner'].map((name) => `@stryker-mutator/${name}@${STRYKER}`);
spawnSync('npm', ['install', '--no-save', '--no-audit', '--no-fund', ...packages], at);
spawnSync('npx', ['stryker', 'run'], at);

const reportText = readFileSync(join(copy, 'report.json'), 'utf8');
mkdirSync('dist/mutation', { recursive: true });
writeFileSync(`dist/mutation/${area}.json`, reportText);
rmSync(copy, { recursive: true });

const report = JSON.parse(reportText) as Report;
const count = (mutants: readonly Mutant[], ...statuses: string[]) =>
  mutants.filter(({ status }) => statuses.includes(status)).length;
for (const [file, { source, mutants }] of Object.entries(report.files)) {
  const lines = source.split('\n');
  for (const mutant of mutants.filter(({ status }) => status === 'Survived' || status === 'NoCoverage')) {
    const { line } = mutant.location.start;
    console.log(
      `${file}:${line} ${mutant.status} ${mutant.mutatorName} | ${lines[line - 1]?.trim()} -> ${mutant.replacement ?? ''}`,
    );
  }
}
const rows = Object.entries(report.files).map(([file, { mutants }]) => [file, mutants] as const);
for (const [name, mutants] of [...rows, ['together', rows.flatMap(([, all]) => all)] as const]) {
  const killed = count(mutants, 'Killed', 'Timeout');
  const all = killed + count(mutants, 'Survived', 'NoCoverage');
  console.log(`${name}: ${killed} of ${all} noticed${all > 0 ? ` (${((100 * killed) / all).toFixed(1)} %)` : ''}`);
}
