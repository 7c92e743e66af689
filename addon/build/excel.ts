/**
 * Builds dist/excel: the pages of the add-in to be served at one https address, and its two manifests. Where the site
 * is built already, the pages are put beside it under /excel, so that one server gives both.
 */
import { existsSync } from 'node:fs';
import { appendFile, copyFile, cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, type Metafile } from 'esbuild';
import { excelMetadata } from '../formulas/excel-metadata.ts';
import { helpPage } from '../formulas/help-page.ts';
import { type ExcelPages, ICON_PX, unifiedManifest, xmlManifest } from './excel-manifest.ts';
import { iconPng } from './icon.ts';
import { withoutRouteNotes } from './route-notes.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const SOURCE = join(ROOT, 'addon/excel');
export const EXCEL = join(ROOT, 'dist/excel');
const SITE = join(ROOT, 'dist/site');

/** Where the pages will be served; `npm run build` reads HEARTSIDE_ADDRESS, and this is a server on this machine. */
const ADDRESS_HERE = 'https://localhost:8787';
const VERSION = '0.1.0.0';
/** What opens before anything else, Excel's host with it, as on the bench. */
const PANE_GZ_BYTES_MAX = 80 * 1024;

export const excelPages = (address = process.env.HEARTSIDE_ADDRESS ?? ADDRESS_HERE): ExcelPages => ({
  address: `${address.replace(/\/+$/, '')}/excel`,
  version: VERSION,
});

/** Excel on the web opens the pane in a frame of these; scripts come from us and from the office library alone. */
const PANE_HEADERS = `
/excel/*
  ! Content-Security-Policy
  ! Cross-Origin-Opener-Policy
  Content-Security-Policy: default-src 'none'; script-src 'self' https://appsforoffice.microsoft.com; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self' https:; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors https://*.officeapps.live.com https://*.office.com https://*.microsoft365.com https://*.cloud.microsoft https://*.sharepoint.com https://*.live.com
`;

export async function buildExcel(report: (line: string) => void, pages = excelPages()): Promise<void> {
  const web = join(EXCEL, 'web');
  await rm(EXCEL, { recursive: true, force: true });
  await mkdir(web, { recursive: true });
  const { metafile } = await build({
    absWorkingDir: ROOT,
    entryPoints: [join(SOURCE, 'taskpane.ts'), join(SOURCE, 'print.ts')],
    outdir: web,
    bundle: true,
    // The screens that are not in front come behind, as on the bench.
    splitting: true,
    format: 'esm',
    chunkNames: 'part-[hash]',
    target: 'es2020',
    minify: true,
    metafile: true,
    legalComments: 'none',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    define: { 'process.env.NODE_ENV': '"production"' },
    plugins: [withoutRouteNotes],
    logLevel: 'warning',
  });
  await Promise.all([
    page('taskpane', web, true),
    page('print', web, false),
    copyFile(join(SOURCE, 'privacy.html'), join(web, 'privacy.html')),
    writeFile(join(web, 'formulas.html'), helpPage('point')),
    writeFile(join(web, 'functions.json'), JSON.stringify(excelMetadata(), null, 2)),
    ...ICON_PX.map((sizePx) => writeFile(join(web, `icon-${sizePx}.png`), iconPng(sizePx))),
    writeFile(join(EXCEL, 'color.png'), iconPng(192)),
    writeFile(join(EXCEL, 'outline.png'), iconPng(32, true)),
    writeFile(join(EXCEL, 'manifest.json'), `${JSON.stringify(unifiedManifest(pages), null, 2)}\n`),
    writeFile(join(EXCEL, 'manifest.xml'), xmlManifest(pages)),
    copyFile(join(SOURCE, 'install.md'), join(EXCEL, 'install.md')),
  ]);
  if (existsSync(join(SITE, '_headers'))) await putBesideSite(web);
  const paneBytes = await gzBytesAtOnce(metafile, 'taskpane.js');
  report(`excel    ${(paneBytes / 1024).toFixed(1)} kB gz pane, manifests for ${pages.address}`);
  if (paneBytes > PANE_GZ_BYTES_MAX) {
    throw new Error(
      `The pane opens with ${(paneBytes / 1024).toFixed(1)} kB gzipped; ${PANE_GZ_BYTES_MAX / 1024} is the limit.`,
    );
  }
}

/** A script with its style and everything that it loads at once. */
async function gzBytesAtOnce(metafile: Metafile, name: string): Promise<number> {
  const entry = Object.keys(metafile.outputs).find((path) => path.endsWith(`/${name}`)) ?? '';
  const paths = new Set([entry, metafile.outputs[entry]?.cssBundle ?? entry]);
  for (const path of paths) {
    for (const used of metafile.outputs[path]?.imports ?? []) {
      if (used.kind === 'import-statement' && !used.external) paths.add(used.path);
    }
  }
  let total = 0;
  for (const path of paths) total += gzipSync(await readFile(join(ROOT, path)), { level: 9 }).byteLength;
  return total;
}

async function page(name: string, web: string, styled: boolean): Promise<void> {
  const source = await readFile(join(SOURCE, `${name}.html`), 'utf8');
  const style = styled ? `<link rel="stylesheet" href="${name}.css">` : '';
  const script = `<script type="module" src="${name}.js"></script>`;
  await writeFile(
    join(web, `${name}.html`),
    source.replace('<!-- styles -->', style).replace('<!-- script -->', script),
  );
}

async function putBesideSite(web: string): Promise<void> {
  await cp(web, join(SITE, 'excel'), { recursive: true });
  const headers = join(SITE, '_headers');
  if (!(await readFile(headers, 'utf8')).includes(PANE_HEADERS)) await appendFile(headers, PANE_HEADERS);
}

if (import.meta.main) await buildExcel((line) => console.log(line));
