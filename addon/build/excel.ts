/**
 * Builds dist/excel: the pages of the add-in to be served at one https address, and its two manifests. Where the site
 * is built already, the pages are put beside it under /excel, so that one server gives both.
 */
import { existsSync } from 'node:fs';
import { appendFile, copyFile, cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';
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
    format: 'iife',
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
  const bytes = Object.entries(metafile.outputs).find(([path]) => path.endsWith('taskpane.js'))?.[1].bytes ?? 0;
  report(`excel    ${(bytes / 1024).toFixed(0)} kB pane, manifests for ${pages.address}`);
}

async function page(name: string, web: string, styled: boolean): Promise<void> {
  const source = await readFile(join(SOURCE, `${name}.html`), 'utf8');
  const style = styled ? `<link rel="stylesheet" href="${name}.css">` : '';
  const script = `<script src="${name}.js"></script>`;
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
