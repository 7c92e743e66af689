/**
 * Small texts kept on this device, for what must be there without a connection. A browser may keep nothing for a page
 * inside another; then they last as long as the page.
 */
export interface DeviceSettings {
  get(key: string): string | null;
  /** Refuses (throws) only when the browser keeps texts but has no room for this one. */
  set(key: string, value: string | null): void;
}

export function deviceSettings(prefix: () => string): DeviceSettings {
  const meanwhile = new Map<string, string>();
  const storage = (): Storage | null => {
    try {
      return localStorage;
    } catch {
      return null;
    }
  };
  const nameOf = (key: string) => `${prefix()}heartside.device.${key}`;
  return {
    get: (key) => meanwhile.get(key) ?? storage()?.getItem(nameOf(key)) ?? null,
    set(key, value) {
      const kept = storage();
      meanwhile.delete(key);
      if (value === null) kept?.removeItem(nameOf(key));
      else if (kept === null) meanwhile.set(key, value);
      else kept.setItem(nameOf(key), value);
    },
  };
}
