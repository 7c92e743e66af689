/**
 * Builds dist/google: the folder of an Apps Script project, ready to be pushed. The script is one file whose global
 * functions Google finds; the sidebar is one page, escaped against what Google's page service takes for comments, and
 * what it fetches behind its opening is a second file that it asks the script for.
 */
import { copyFile, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { type BuildOptions, build } from 'esbuild';
import { googleFunctions } from '../formulas/google-functions.ts';
import { withoutRouteNotes } from './route-notes.ts';
import { scriptParts } from './script-parts.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const SOURCE = join(ROOT, 'addon/google');
export const GOOGLE = join(ROOT, 'dist/google');

/** What opens before anything else, as on the bench. */
const PAGE_GZ_BYTES_MAX = 80 * 1024;

/** Global functions by the name that menus, Google and the sidebar call them, and what they call in the bundle. */
const ENTRIES: readonly (readonly [name: string, parameters: string, inner: string])[] = [
  ['onOpen', '', 'onOpen'],
  ['onInstall', '', 'onOpen'],
  ['heartOpen', '', 'openSidebar'],
  ['heartUseSelection', '', 'useSelection'],
  ['heartRefresh', '', 'refreshStatus'],
  ['heartUndo', '', 'undoLastWrite'],
  ['heartHelp', '', 'openHelp'],
  ['heartFormulas', '', 'openFormulaHelp'],
  ['heartFormulaUnit', '', 'askFormulaUnit'],
  ['heartFormulaAccess', '', 'askFormulaAccess'],
  ['heartHost', 'request', 'host'],
  ['heartRest', '', 'restOfSidebar'],
];

const shared: BuildOptions = {
  absWorkingDir: ROOT,
  bundle: true,
  write: false,
  format: 'iife',
  charset: 'ascii',
  legalComments: 'none',
  logLevel: 'warning',
};

export async function buildGoogle(report: (line: string) => void): Promise<void> {
  await rm(GOOGLE, { recursive: true, force: true });
  await mkdir(GOOGLE, { recursive: true });
  const [{ code }, sidebar] = await Promise.all([scriptText(), sidebarPages()]);
  await Promise.all([
    writeFile(join(GOOGLE, 'Code.js'), code),
    writeFile(join(GOOGLE, 'sidebar.html'), sidebar.page),
    writeFile(join(GOOGLE, 'rest.html'), sidebar.rest),
    copyFile(join(SOURCE, 'appsscript.json'), join(GOOGLE, 'appsscript.json')),
    copyFile(join(SOURCE, 'install.md'), join(GOOGLE, 'install.md')),
  ]);
  const gzBytes = gzipSync(sidebar.page, { level: 9 }).byteLength;
  const restGzBytes = gzipSync(sidebar.rest, { level: 9 }).byteLength;
  report(
    `google   ${kB(code)} kB script, ${(gzBytes / 1024).toFixed(1)} kB gz sidebar, ${(restGzBytes / 1024).toFixed(1)} kB gz behind it`,
  );
  if (gzBytes > PAGE_GZ_BYTES_MAX) {
    throw new Error(
      `Google's sidebar has ${(gzBytes / 1024).toFixed(1)} kB gzipped; ${PAGE_GZ_BYTES_MAX / 1024} is the limit.`,
    );
  }
}

const kB = (text: string) => (text.length / 1024).toFixed(0);

export interface BuiltScript {
  readonly code: string;
}

export async function scriptText(): Promise<BuiltScript> {
  const { outputFiles } = await build({
    ...shared,
    entryPoints: [join(SOURCE, 'server/entry.ts')],
    globalName: 'Heart',
    target: 'es2020',
  });
  const globals = ENTRIES.map(
    ([name, parameters, inner]) =>
      `function ${name}(${parameters}) {\n  return Heart.script.${inner}(${parameters});\n}\n`,
  );
  const code = `${outputFiles?.[0]?.text ?? ''}\n${globals.join('\n')}\n${googleFunctions('Heart.script')}`;
  return { code };
}

export interface SidebarPages {
  readonly page: string;
  /** A script element with the parts that the page asks for later. */
  readonly rest: string;
}

export async function sidebarPages(): Promise<SidebarPages> {
  const { outputFiles = [], metafile } = await build({
    ...shared,
    entryPoints: [join(SOURCE, 'sidebar.ts')],
    outdir: GOOGLE,
    format: 'esm',
    splitting: true,
    chunkNames: 'part-[hash]',
    metafile: true,
    target: 'es2020',
    minify: true,
    jsx: 'automatic',
    jsxImportSource: 'preact',
    define: { 'process.env.NODE_ENV': '"production"' },
    plugins: [withoutRouteNotes],
  });
  const textOf = (ending: string) => outputFiles.find((file) => file.path.endsWith(ending))?.text ?? '';
  const { atOnce, later } = await scriptParts({ outputFiles, metafile }, 'sidebar.js');
  const page = await readFile(join(SOURCE, 'sidebar.html'), 'utf8');
  return {
    page: page
      .replace('/* styles */', () => textOf('.css').replaceAll('</', '<\\/'))
      .replace('/* script */', () => inlineScript(atOnce)),
    rest: `<script>${inlineScript(later)}</script>`,
  };
}

/**
 * The rules of an inline script in Google's page service. Template literals are gone by then, so a back-tick or a tag
 * stands in a text or a pattern, where its escape means the same.
 */
export function inlineScript(script: string): string {
  const safe = script
    .replaceAll('`', '\\x60')
    .replaceAll('<!--', '\\x3C!--')
    .replaceAll('<?', '\\x3C?')
    .replaceAll(/<(\/?script)/gi, '\\x3C$1');
  // Compiled, never run: a mark that stood outside a text would show here.
  new Script(safe);
  return safe;
}

if (import.meta.main) await buildGoogle((line) => console.log(line));
