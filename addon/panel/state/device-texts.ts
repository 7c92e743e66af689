/** What the panel keeps on this device for one yard and key: texts by name, apart from those of any other. */
import type { SheetHost } from '../../host/host.ts';

export interface DeviceTexts {
  get(name: string): Promise<string | null>;
  set(name: string, text: string | null): Promise<void>;
}

/** `owner` names the yard and the key without its secret. */
export function deviceTexts(host: SheetHost, owner: string): DeviceTexts {
  return {
    get: (name) => host.settings.get(`${owner} ${name}`, 'device'),
    set: (name, text) => host.settings.set(`${owner} ${name}`, text, 'device'),
  };
}
