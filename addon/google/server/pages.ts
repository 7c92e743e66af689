/** What the script shows: the menu, the sidebar, pages to print, and the help on formulas. */
import { helpPage } from '../../formulas/help-page.ts';
import { PICKED_KEPT_AS } from '../../host/google-wire.ts';
import type { HostCommand } from '../../host/host.ts';

/** Runs while the add-on may know nothing yet (AuthMode.NONE): it draws the menu and touches nothing else. */
export function onOpen(): void {
  SpreadsheetApp.getUi()
    .createAddonMenu()
    .addItem('Open', 'heartOpen')
    .addItem('Use selection', 'heartUseSelection')
    .addItem('Refresh statuses', 'heartRefresh')
    .addItem('Undo last write', 'heartUndo')
    .addItem('Help', 'heartHelp')
    .addSeparator()
    .addItem('Formulas', 'heartFormulas')
    .addItem('Unit of plain numbers in formulas', 'heartFormulaUnit')
    .addItem('Let formulas ask the yard', 'heartFormulaAccess')
    .addToUi();
}

/** The sidebar opens anew and reads once what the menu asked for. */
function openFor(command: HostCommand): void {
  PropertiesService.getUserProperties().setProperty(PICKED_KEPT_AS, command);
  openSidebar();
}
export const useSelection = (): void => openFor('use-selection');
export const refreshStatus = (): void => openFor('refresh');
export const undoLastWrite = (): void => openFor('undo');
export const openHelp = (): void => openFor('help');

export function openSidebar(): void {
  // From a file as it is: nothing in it is read as a template.
  const page = HtmlService.createHtmlOutputFromFile('sidebar').setTitle('Heartside');
  SpreadsheetApp.getUi().showSidebar(page);
}

/** The part of the sidebar that it asks for once it stands: a script element, as text. */
export function restOfSidebar(): string {
  return HtmlService.createHtmlOutputFromFile('rest').getContent();
}

export function openFormulaHelp(): void {
  show('Formulas', helpPage('underscore'));
}

const PRINT_BAR =
  '<style>@media print{.heart-bar{display:none}}.heart-bar{position:sticky;top:0;padding:8px;background:Canvas;text-align:right}</style>' +
  '<div class="heart-bar"><button type="button" onclick="window.print()">Print</button></div>';

export function showPage(title: string, html: string): null {
  const printable = /<body[^>]*>/i.test(html)
    ? html.replace(/<body[^>]*>/i, (body) => body + PRINT_BAR)
    : html + PRINT_BAR;
  show(title, printable);
  return null;
}

function show(title: string, html: string): void {
  const page = HtmlService.createHtmlOutput(html).setWidth(900).setHeight(640);
  SpreadsheetApp.getUi().showModalDialog(page, title);
}
