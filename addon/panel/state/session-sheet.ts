/** Keeps the sheet on which a session is written down: made once, found again by its name, read back on request. */
import type { SheetHost } from '../../host/host.ts';
import { formsFromSheet, type SheetForms, sheetRowsOf, type TaggedForm } from './reconcile-sheet.ts';

const keptAs = (sessionId: string) => `session sheet ${sessionId}`;

export async function putOnSheet(
  host: SheetHost,
  session: { readonly id: string; readonly jobName: string },
  boards: readonly TaggedForm[],
): Promise<string> {
  const made = await host.addSheet(`${session.jobName}, cut`.slice(0, SHEET_NAME_CHARS), sheetRowsOf(boards));
  await host.settings.set(keptAs(session.id), made.name, 'file');
  return made.name;
}

/** The shortest limit of the hosts for the name of a sheet, with room for a number. */
const SHEET_NAME_CHARS = 28;

export async function readFromSheet(
  host: SheetHost,
  session: { readonly id: string },
  boards: readonly TaggedForm[],
): Promise<SheetForms> {
  const name = await host.settings.get(keptAs(session.id), 'file');
  const sheet = name === null ? undefined : (await host.listSheets()).find((one) => one.name === name);
  if (sheet === undefined || sheet.used === null) {
    return { ok: false, help: 'This session is on no sheet of this file. Put it on one first.' };
  }
  return formsFromSheet(await host.readArea(sheet.used), boards);
}
