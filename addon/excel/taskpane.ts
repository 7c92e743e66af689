/** The pane in Excel: the shared panel over Office.js, and our formulas in the same page. */

import { ownWoodsOf } from '../formulas/own-woods.ts';
import { excelHost } from '../host/excel-host.ts';
import { readLocale } from '../host/excel-read.ts';
import type { Locale } from '../host/host.ts';
import { localeOf } from '../host/locale-of.ts';
import { mountPanel } from '../panel/main.tsx';
import { FORMULA_WOODS_KEPT_AS } from '../panel/state/yard.ts';
import { associateFormulas } from './functions.ts';
import { yardLink } from './yard-link.ts';

Office.onReady(async ({ host: program }) => {
  const root = document.getElementById('panel');
  if (!root) throw new Error('The pane has no place for the panel.');
  if (program !== Office.HostType.Excel) {
    root.textContent = 'This page is the pane of an Excel add-in. Open it from the Home tab of Excel.';
    return;
  }
  const host = excelHost(new URL('print.html', location.href).href);
  mountPanel(root, { host, api: null });
  const { decimal, dateOrder } = await readLocale().catch((): Locale => localeOf(Office.context.contentLanguage));
  const unit = (await host.settings.get('formula-unit', 'file').catch(() => null)) === 'mm' ? 'mm' : 'in';
  const ownWoods = ownWoodsOf(await host.settings.get(FORMULA_WOODS_KEPT_AS, 'file').catch(() => null));
  associateFormulas({ unit, decimal, dateOrder, ownWoods }, yardLink(host));
});
