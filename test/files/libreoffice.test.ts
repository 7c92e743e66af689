/**
 * A real spreadsheet program: LibreOffice opens what we export, works the formulas out, saves, and nothing is lost on the
 * way back. Runs where LibreOffice is installed; .ci/run installs it.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { csvFromSheet, sheetFromCsv } from '../../addon/files/csv.ts';
import { sheetsFromXlsx, xlsxFromSheets } from '../../addon/files/xlsx.ts';
import type { FileSheet } from '../../addon/host/file-host.ts';
import { board, openShop } from '../api/shop.ts';
import { boardsFile, cellAt, temptingTexts, textsFile } from './sheets.ts';

const SOFFICE = ['/usr/bin/soffice', '/usr/lib/libreoffice/program/soffice', '/opt/libreoffice/program/soffice'].find(
  (path) => existsSync(path),
);
const OPENED_WITHIN_MS = 120_000;

/**
 * Commas, quotes, UTF-8, from the first line, as its dialogue is answered; the last says that the first column is text
 * (LibreOffice help, "Filter Options for the CSV Filter": tokens 1 to 5).
 */
const CSV_IN = '--infilter=CSV:44,34,76,1';
const FIRST_IS_TEXT = `${CSV_IN},1/2`;

describe.runIf(SOFFICE !== undefined)('LibreOffice', { timeout: 2 * OPENED_WITHIN_MS }, () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'heartside-office-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** Opens the file and saves it again in another form; gives the bytes. */
  async function through(name: string, bytes: Uint8Array | string, to: string, options: readonly string[] = []) {
    await writeFile(join(folder, name), bytes);
    const out = join(folder, 'out');
    const run = spawnSync(
      SOFFICE ?? '',
      [
        '--headless',
        '--norestore',
        `-env:UserInstallation=file://${folder}/profile`,
        ...options,
        '--convert-to',
        to,
        '--outdir',
        out,
        join(folder, name),
      ],
      { encoding: 'utf8', timeout: OPENED_WITHIN_MS },
    );
    const [ending = ''] = to.split(':');
    const made = join(out, name.replace(/\.\w+$/, `.${ending}`));
    if (!existsSync(made)) throw new Error(`LibreOffice made nothing: ${run.stdout} ${run.stderr}`);
    return new Uint8Array(await readFile(made));
  }

  const XLSX = 'xlsx:Calc MS Excel 2007 XML';
  const formulasIn = (sheet: FileSheet | undefined) =>
    (sheet?.rows ?? []).flat().filter((cell) => typeof cell === 'object' && cell?.formula !== undefined);

  test('opens the exported workbook, works it out, saves it, and it comes back without loss', async () => {
    const [boards, texts] = sheetsFromXlsx(await through('shop.xlsx', xlsxFromSheets([boardsFile, textsFile]), XLSX));
    expect(boards).toMatchObject({ name: 'Boards', hiddenRows: boardsFile.hiddenRows, merged: boardsFile.merged });
    expect(valuesOf(boards, 6, 6)).toEqual(valuesOf(boardsFile, 6, 6));
    // Ours holds no result of the formula; this one was worked out there.
    expect(cellAt(boards, 5, 2)).toMatchObject({ value: 300.25, formula: '=SUM(C3:C5)' });
    expect(cellAt(boards, 2, 5)).toMatchObject({ value: 46_146, text: '5/4/2026' });
    expect(temptingTexts.map((_, row) => cellAt(texts, row, 0).value)).toEqual([...temptingTexts]);
    expect(formulasIn(texts)).toEqual([]);
  });

  test('opens the exported CSV without making a formula of any text, and its texts come back', async () => {
    const csv = csvFromSheet(textsFile, '.');
    const [guessed] = sheetsFromXlsx(await through('guessed.csv', csv, XLSX, [CSV_IN]));
    expect(formulasIn(guessed)).toEqual([]);
    const saved = await through('texts.csv', csv, 'csv:Text - txt - csv (StarCalc):44,34,76,1', [FIRST_IS_TEXT]);
    const back = sheetFromCsv('Texts', saved, '.');
    expect(temptingTexts.map((_, row) => cellAt(back, row, 0).value)).toEqual([...temptingTexts]);
  });

  test('opens the feed of the yard, and its boards come back', async () => {
    const shop = openShop();
    const yard = await shop.foundYard('Office');
    await yard.send('POST', '/v1/boards', { boards: [board('WO-1'), board('5/4', { note: '=1+1' })] });
    const made = await yard.send('POST', '/v1/feeds', { label: 'Sheet', list: 'stock' });
    const feed = await shop.request('GET', new URL(made.json.secret).pathname, undefined, {});
    expect([made.status, feed.status]).toEqual([201, 200]);
    const [sheet] = sheetsFromXlsx(await through('feed.csv', feed.text, XLSX, [FIRST_IS_TEXT]));
    const written = sheetFromCsv('feed', new TextEncoder().encode(feed.text), '.');
    const column = (of: FileSheet | undefined, at: number) =>
      (of?.rows ?? []).map((_, row) => cellAt(of, row, at).value);
    // Tag, species, length, width, thickness, board feet.
    for (const at of [0, 1, 2, 3, 4, 6]) expect(column(sheet, at)).toEqual(column(written, at));
    expect(column(sheet, 0)).toEqual(['Tag', '5/4', 'WO-1']);
    expect(formulasIn(sheet)).toEqual([]);
  });
});

function valuesOf(sheet: FileSheet | undefined, rowCount: number, columnCount: number): unknown[][] {
  return Array.from({ length: rowCount }, (_, row) =>
    Array.from({ length: columnCount }, (__, column) => cellAt(sheet, row, column).value),
  );
}
