/** The pane in Excel: the shared panel over Office.js, and our formulas in the same page. */

import { ownWoodsOf } from '../formulas/own-woods.ts';
import { associateCommands } from '../host/excel-commands.ts';
import { excelHost } from '../host/excel-host.ts';
import { readLocale } from '../host/excel-read.ts';
import type { Locale } from '../host/host.ts';
import { localeOf } from '../host/locale-of.ts';
import { mountPanel } from '../panel/main.tsx';
import { FORMULA_WOODS_KEPT_AS } from '../panel/state/yard.ts';

Office.onReady(async ({ host: program }) => {
  const root = document.getElementById('panel');
  if (!root) throw new Error('The pane has no place for the panel.');
  if (program !== Office.HostType.Excel) {
    root.textContent = 'This page is the pane of an Excel add-in. Open it from the Home tab of Excel.';
    return;
  }
  associateCommands();
  const host = excelHost(new URL('print.html', location.href).href);
  mountPanel(root, { host, api: null });
  // The formulas carry the figures of every wood; the panel need not wait for them.
  const formulas = Promise.all([import('./functions.ts'), import('./yard-link.ts')]);
  const { decimal, dateOrder } = await readLocale().catch(
    (): Locale => localeOf(Office.context.contentLanguage ?? 'en-US'),
  );
  const unit = (await host.settings.get('formula-unit', 'file').catch(() => null)) === 'mm' ? 'mm' : 'in';
  const ownWoods = ownWoodsOf(await host.settings.get(FORMULA_WOODS_KEPT_AS, 'file').catch(() => null));
  const [{ associateFormulas }, { yardLink }] = await formulas;
  associateFormulas({ unit, decimal, dateOrder, ownWoods }, yardLink(host));
});
