/** The page opened before the yard behind it is filled for the first time: it waits, and asks for no address or key. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openDemoYard, publishConnection, servedOf } from '../../addon/bench/demo-yard.ts';
import { localSecrets, startLocalServer } from '../../addon/bench/local-server.ts';
import { SITE } from '../../addon/build/build.ts';
import { freePort } from './support/bench.ts';
import { openBrowser } from './support/browser.ts';

test('a page that comes too early waits for the yard', async () => {
  const stateFolder = await mkdtemp(join(tmpdir(), 'heartside-first-'));
  const secrets = await localSecrets(stateFolder);
  const [browser, port] = await Promise.all([openBrowser(), freePort()]);
  const served = { port, stateFolder, siteFolder: SITE, servedToo: servedOf(null) };
  const server = await startLocalServer(served, secrets);
  try {
    const page = await (await browser.newContext()).newPage();
    const panelTexts: string[] = [];
    await page.goto(server.address);
    await page.getByText('The yard is being filled for the first time').waitFor({ timeout: 60_000 });
    panelTexts.push((await page.locator('#panel').textContent()) ?? '');
    const yard = await openDemoYard(server.address, stateFolder, secrets);
    await publishConnection(server.address, stateFolder, yard);
    await page.locator('#panel').getByRole('tab', { name: 'Stock' }).waitFor({ timeout: 60_000 });
    panelTexts.push((await page.locator('#panel').textContent()) ?? '');
    expect(panelTexts.map((text) => text.includes('Connect'))).toEqual([false, false]);
    expect(await page.getByText('The yard is being filled').count()).toBe(0);
  } finally {
    await browser.close();
    await server.stop();
    await rm(stateFolder, { recursive: true, force: true });
  }
});
