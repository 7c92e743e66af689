/** Small texts kept by the bench in this browser: for the user, or for the open workbook. */
import { deviceSettings } from './device-settings.ts';
import type { SheetHost } from './host.ts';

export function benchSettings(workbookId: string): SheetHost['settings'] {
  const keyOf = (key: string, scope: 'user' | 'file') =>
    scope === 'user' ? `heartside.user.${key}` : `${filePrefix(workbookId)}${key}`;
  const device = deviceSettings(() => '');
  return {
    forgetFile: async () => forgetFileSettings(workbookId),
    async get(key, scope) {
      if (scope === 'device') return device.get(key);
      return localStorage.getItem(keyOf(key, scope));
    },
    async set(key, value, scope) {
      if (scope === 'device') device.set(key, value);
      else if (value === null) localStorage.removeItem(keyOf(key, scope));
      else localStorage.setItem(keyOf(key, scope), value);
    },
  };
}

/** A workbook that starts over is a new file: what was kept for the old one goes. */
export function forgetFileSettings(workbookId: string): void {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(filePrefix(workbookId)));
  for (const key of keys) localStorage.removeItem(key);
}

function filePrefix(workbookId: string): string {
  return `heartside.file.${workbookId}.`;
}
