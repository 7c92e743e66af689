/** Both manifests of the Excel add-in: the unified one under the vendor's own validator, offline, and its XML twin beside it. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { OfficeAddinManifest, validateManifest } from 'office-addin-manifest';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ICON_PX, unifiedManifest, xmlManifest } from '../../addon/build/excel-manifest.ts';
import { iconPng } from '../../addon/build/icon.ts';
import { formulas } from '../../addon/formulas/catalogue.ts';
import { excelMetadata } from '../../addon/formulas/excel-metadata.ts';

const pages = { address: 'https://yard.example.com/excel', version: '1.2.3.0' };
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'heartside-manifest-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function isValid(manifest: unknown): Promise<boolean> {
  const file = join(folder, 'manifest.json');
  await writeFile(file, JSON.stringify(manifest));
  // What it cannot even read, the validator throws.
  return validateManifest(file).then(
    (found) => found.isValid,
    () => false,
  );
}

describe('the unified manifest', () => {
  test('passes the vendor’s validator', async () => {
    expect(await isValid(unifiedManifest(pages))).toBe(true);
  });

  test.each([
    ['"workbook"', '"workbench"'],
    ['"TabHome"', '7'],
    ['"BOARDFEET"', '"BF"'],
  ])('which refuses it with %s written as %s', async (right, wrong) => {
    const text = JSON.stringify(unifiedManifest(pages));
    expect(text).toContain(right);
    expect(await isValid(JSON.parse(text.replaceAll(right, wrong)))).toBe(false);
  });

  test('is read by the vendor’s tool with our name and version', async () => {
    const file = join(folder, 'manifest.json');
    await writeFile(file, JSON.stringify(unifiedManifest(pages)));
    const info = await OfficeAddinManifest.readManifestFile(file);
    expect(info).toMatchObject({ displayName: 'Heartside', version: '1.2.3' });
  });

  test('carries every formula with its help', () => {
    expect(excelMetadata().functions.map(({ name }) => name)).toEqual(formulas.map(({ name }) => name));
    expect(JSON.stringify(unifiedManifest(pages))).toContain(JSON.stringify(excelMetadata().functions));
  });
});

describe('the XML twin', () => {
  test('is read by the vendor’s tool', async () => {
    const file = join(folder, 'manifest.xml');
    await writeFile(file, xmlManifest(pages));
    const info = await OfficeAddinManifest.readManifestFile(file);
    expect(info).toMatchObject({
      displayName: 'Heartside',
      version: '1.2.3.0',
      permissions: 'ReadWriteDocument',
      defaultSettings: { sourceLocation: 'https://yard.example.com/excel/taskpane.html' },
    });
    expect(info.id).toMatch(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
  });

  test('names no resource that is not there, and each that is', () => {
    const text = xmlManifest(pages);
    const named = new Set([...text.matchAll(/resid="([^"]+)"/g)].map(([, id]) => id));
    const there = new Set([...text.matchAll(/<bt:\w+ id="([^"]+)"/g)].map(([, id]) => id));
    expect(named).toEqual(there);
  });
});

test('both manifests speak only of our own pages, over https', () => {
  const text = JSON.stringify(unifiedManifest(pages)) + xmlManifest(pages);
  const foreign = [...text.matchAll(/https?:\/\/[^"<\s]+/g)]
    .map(([url]) => url)
    .filter((url) => !url.startsWith('https://yard.example.com'))
    // Names of schemas, which nothing opens.
    .filter((url) => !/^https?:\/\/(schemas\.microsoft\.com|www\.w3\.org|developer\.microsoft\.com)\//.test(url));
  expect(foreign).toEqual([]);
});

test.each([...ICON_PX, 192])('the icon of %i px is a PNG of that size, with wood and a clear corner', (sizePx) => {
  const png = iconPng(sizePx);
  expect(png.subarray(1, 4).toString()).toBe('PNG');
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([sizePx, sizePx]);
  const at = png.indexOf('IDAT');
  const pixels = inflateSync(png.subarray(at + 4, at + 4 + png.readUInt32BE(at - 4)));
  expect(pixels).toHaveLength(sizePx * (1 + 4 * sizePx));
  const coverAt = (x: number, y: number) => pixels[y * (1 + 4 * sizePx) + 1 + 4 * x + 3];
  expect(coverAt(0, 0)).toBeLessThan(60);
  expect(coverAt(Math.floor(sizePx / 2), Math.floor(sizePx / 2))).toBe(255);
});

test('the pane bears the name by which a file may open it, in both manifests', () => {
  // Microsoft, "Automatically open a task pane with a document".
  const name = 'Office.AutoShowTaskpaneWithDocument';
  expect(JSON.stringify(unifiedManifest(pages))).toContain(`"type":"openPage","view":"${name}"`);
  expect(xmlManifest(pages)).toContain(`<TaskpaneId>${name}</TaskpaneId>`);
});

test('the pane loads the office library from the vendor alone, as the vendor asks', async () => {
  const page = await readFile(join(import.meta.dirname, '../../addon/excel/taskpane.html'), 'utf8');
  const outside = [...page.matchAll(/src="(https:[^"]+)"/g)].map(([, url]) => url);
  expect(outside).toEqual(['https://appsforoffice.microsoft.com/lib/1/hosted/office.js']);
});
