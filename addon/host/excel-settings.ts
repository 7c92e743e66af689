/**
 * Small texts in Excel. The user's own stay in this browser, apart for each document's origin; the file's travel with the
 * file to whoever gets it, so nothing secret is ever kept there.
 */
import { OPENS_WITH_FILE } from './command-actions.ts';
import { deviceSettings } from './device-settings.ts';
import { changeExcel, readExcel } from './excel-run.ts';
import type { OpensWithFile, SheetHost } from './host.ts';

const userKey = (key: string) => `${Office.context.partitionKey ?? ''}heartside.${key}`;
const fileKey = (key: string) => `heartside.${key}`;

const device = deviceSettings(() => Office.context.partitionKey ?? '');

export const excelSettings: SheetHost['settings'] = {
  async get(key, scope) {
    if (scope === 'device') return device.get(key);
    if (scope === 'user') return kept(() => localStorage.getItem(userKey(key)));
    return readExcel(async (context) => {
      const setting = context.workbook.settings.getItemOrNullObject(fileKey(key));
      setting.load('value');
      await context.sync();
      return setting.isNullObject ? null : String(setting.value);
    });
  },
  async forgetFile() {
    await changeExcel(async (context) => {
      const { settings } = context.workbook;
      settings.load('items/key');
      await context.sync();
      // Asked for by name: an item of the list is known by its place, which moves with each one deleted.
      const ours = settings.items
        .map(({ key }) => key)
        .filter((key) => key === OPENS_WITH_FILE || key.startsWith(fileKey('')));
      for (const key of ours) settings.getItem(key).delete();
      await context.sync();
    });
  },
  async set(key, value, scope) {
    if (scope === 'device') return device.set(key, value);
    if (scope === 'user') {
      kept(() => (value === null ? localStorage.removeItem(userKey(key)) : localStorage.setItem(userKey(key), value)));
      return;
    }
    await changeExcel(async (context) => {
      const { settings } = context.workbook;
      if (value !== null) settings.add(fileKey(key), value);
      else {
        const setting = settings.getItemOrNullObject(fileKey(key));
        setting.load('value');
        await context.sync();
        if (!setting.isNullObject) setting.delete();
      }
      await context.sync();
    });
  },
};

export const excelOpensWithFile: OpensWithFile = {
  get: () =>
    readExcel(async (context) => {
      const setting = context.workbook.settings.getItemOrNullObject(OPENS_WITH_FILE);
      setting.load('value');
      await context.sync();
      return !setting.isNullObject && setting.value === true;
    }),
  set: (on) =>
    changeExcel(async (context) => {
      const { settings } = context.workbook;
      if (on) settings.add(OPENS_WITH_FILE, true);
      else {
        const setting = settings.getItemOrNullObject(OPENS_WITH_FILE);
        setting.load('value');
        await context.sync();
        if (!setting.isNullObject) setting.delete();
      }
      await context.sync();
    }),
};

/** A browser may forbid storage to a page inside another; then nothing is kept, and the user is asked again. */
function kept<T>(use: () => T): T | null {
  try {
    return use();
  } catch {
    return null;
  }
}
