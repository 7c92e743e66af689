/**
 * Builds dist/site: the bench page with its bundles, ready to be served as static files. The sidebar is a bundle of its
 * own, measured with everything it loads; past its limit the build fails, because the sidebar also opens in other hosts.
 */
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, type Metafile, type Plugin } from 'esbuild';
import { secondWorkbook, secondWorkbookLocale } from '../../data-demo/second-workbook.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { buildExcel } from './excel.ts';
import { buildGoogle } from './google.ts';
import { withoutRouteNotes } from './route-notes.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const PAGE = join(ROOT, 'addon/bench/page');
export const SITE = join(ROOT, 'dist/site');
const PANEL_GZ_BYTES_MAX = 80 * 1024;

const SECURITY_HEADERS = `/*
  Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'
  X-Content-Type-Options: nosniff
  Referrer-Policy: no-referrer
  Strict-Transport-Security: max-age=31536000
  Permissions-Policy: camera=(), geolocation=(), microphone=(), payment=(), usb=()
  Cross-Origin-Opener-Policy: same-origin
  Cache-Control: no-cache

/bench/connection.json
  ! Cache-Control
  Cache-Control: no-store

/assets/*
  ! Cache-Control
  Cache-Control: public, max-age=31536000, immutable
`;

/** The grid carries hyphenation tables for its text documents; a sheet never hyphenates. */
const withoutHyphenation: Plugin = {
  name: 'without-hyphenation',
  setup(pluginBuild) {
    pluginBuild.onResolve({ filter: /^\.\/[a-z]{2,3}(-[a-z0-9]+)*-[\w-]+\.js$/ }, (args) =>
      /engine-render/.test(args.importer) && args.kind === 'dynamic-import'
        ? { path: 'none', namespace: 'no-hyphenation' }
        : null,
    );
    pluginBuild.onLoad({ filter: /.*/, namespace: 'no-hyphenation' }, () => ({ contents: 'export default {};' }));
  },
};

export async function buildSite(report: (line: string) => void): Promise<void> {
  const startedMs = performance.now();
  await rm(SITE, { recursive: true, force: true });
  const { metafile } = await build({
    absWorkingDir: ROOT,
    entryPoints: [join(PAGE, 'main.ts'), join(PAGE, 'grid.css'), join(PAGE, 'bench.css')],
    entryNames: 'assets/[name]-[hash]',
    chunkNames: 'assets/[name]-[hash]',
    assetNames: 'assets/[name]-[hash]',
    outdir: SITE,
    bundle: true,
    splitting: true,
    format: 'esm',
    target: 'es2022',
    minify: true,
    metafile: true,
    legalComments: 'none',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    define: { 'process.env.NODE_ENV': '"production"' },
    plugins: [withoutHyphenation, withoutRouteNotes],
    logLevel: 'warning',
  });
  await writePage(metafile);
  await reportSizes(metafile, report);
  report(`built in ${((performance.now() - startedMs) / 1000).toFixed(1)} s`);
}

async function writePage(metafile: Metafile): Promise<void> {
  const styles = stylesOf(metafile).map((path) => `<link rel="stylesheet" href="/assets/${basename(path)}">`);
  const script = `<script type="module" src="/assets/${basename(outputOf(metafile, 'page/main.ts'))}"></script>`;
  const page = (await readFile(join(PAGE, 'index.html'), 'utf8'))
    .replace('<!-- styles -->', styles.join('\n    '))
    .replace('<!-- scripts -->', script);
  const books = [
    {
      id: 'demo',
      name: 'Juniper Bend: boards and jobs',
      locale: { tag: 'en-US', decimal: '.', dateOrder: 'mdy' },
      sheets: demoWorkbook,
    },
    { id: 'second', name: 'Wall table: timber store', locale: secondWorkbookLocale, sheets: secondWorkbook },
  ];
  await mkdir(join(SITE, 'bench'), { recursive: true });
  await Promise.all([
    writeFile(join(SITE, 'index.html'), page),
    writeFile(join(SITE, 'favicon.svg'), await readFile(join(PAGE, 'favicon.svg'))),
    writeFile(join(SITE, 'bench/books.json'), JSON.stringify(books)),
    writeFile(join(SITE, '_headers'), SECURITY_HEADERS),
  ]);
}

/** The grid's own styles come first, so that the page and the sidebar may answer them. */
function stylesOf(metafile: Metafile): string[] {
  const panelStyle = metafile.outputs[outputOf(metafile, 'page/panel.ts')]?.cssBundle;
  return [outputOf(metafile, 'grid.css'), outputOf(metafile, 'bench.css'), ...(panelStyle ? [panelStyle] : [])];
}

function outputOf(metafile: Metafile, source: string): string {
  const found = Object.entries(metafile.outputs).find(([, output]) => output.entryPoint?.endsWith(source));
  if (!found) throw new Error(`The build made nothing of ${source}.`);
  return found[0];
}

type ImportKind = Metafile['outputs'][string]['imports'][number]['kind'];

/** What loads at once. */
const AT_ONCE: readonly ImportKind[] = ['import-statement'];
/** With what is fetched behind it: the screens that are not in front. */
const IN_THE_END: readonly ImportKind[] = ['import-statement', 'dynamic-import'];

/** An output with every output that it imports in these ways. */
function withImports(
  metafile: Metafile,
  path: string,
  kinds: readonly ImportKind[],
  seen = new Set<string>(),
): Set<string> {
  if (seen.has(path)) return seen;
  seen.add(path);
  const output = metafile.outputs[path];
  if (output?.cssBundle) seen.add(output.cssBundle);
  for (const used of output?.imports ?? []) {
    if (kinds.includes(used.kind) && !used.external) withImports(metafile, used.path, kinds, seen);
  }
  return seen;
}

async function gzBytesOf(paths: Iterable<string>): Promise<number> {
  let total = 0;
  for (const path of paths) total += gzipSync(await readFile(join(ROOT, path)), { level: 9 }).byteLength;
  return total;
}

async function reportSizes(metafile: Metafile, report: (line: string) => void): Promise<void> {
  const line = (name: string, bytes: number) => report(`${name.padEnd(8)} ${(bytes / 1024).toFixed(1)} kB gz`);
  const main = withImports(metafile, outputOf(metafile, 'page/main.ts'), AT_ONCE);
  const panelOutput = outputOf(metafile, 'page/panel.ts');
  const panel = await gzBytesOf(withImports(metafile, panelOutput, AT_ONCE));
  const grid = [...withImports(metafile, outputOf(metafile, 'page/grid.ts'), AT_ONCE)].filter(
    (path) => !main.has(path),
  );
  line('page', await gzBytesOf([...main].filter((path) => path.endsWith('.js'))));
  line('sidebar', panel);
  line('  whole', await gzBytesOf(withImports(metafile, panelOutput, IN_THE_END)));
  line('grid', await gzBytesOf(grid));
  line('styles', await gzBytesOf(stylesOf(metafile)));
  if (panel > PANEL_GZ_BYTES_MAX) {
    throw new Error(
      `The sidebar has ${(panel / 1024).toFixed(1)} kB gzipped; ${PANEL_GZ_BYTES_MAX / 1024} is the limit.`,
    );
  }
}

if (import.meta.main) {
  const report = (line: string) => console.log(line);
  await buildSite(report);
  await buildGoogle(report);
  await buildExcel(report);
}
