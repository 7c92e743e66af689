/** The host of a page in a browser (globalThis.heartside.host), handed over as if it stood here. */
import type { Page } from 'playwright-core';
import { HostError, type HostErrorCode, type SheetHost } from '../../addon/host/host.ts';

type Given = readonly unknown[];

/** Every method of the page's host, called over there; its faults come back as HostError. */
export function hostOfPage(page: Page): SheetHost {
  const ask = async (path: readonly string[], given: Given): Promise<unknown> => {
    const answer = await page.evaluate(
      async ([names, values]): Promise<{ value: unknown } | { code: string; help: string }> => {
        let target: unknown = globalThis.heartside.host;
        let method: unknown = target;
        for (const name of names) {
          target = method;
          method = Reflect.get(Object(target), name);
        }
        if (typeof method !== 'function') throw new Error(`The host has no ${names.join('.')}.`);
        try {
          return { value: await Reflect.apply(method, target, values) };
        } catch (fault) {
          const { code, message } = fault as { code?: string; message: string };
          return { code: code ?? 'unknown', help: message };
        }
      },
      [path, given] as const,
    );
    if ('code' in answer) throw new HostError(answer.code as HostErrorCode, answer.help);
    return answer.value;
  };
  const method =
    <C extends Exclude<keyof SheetHost, 'onSelection' | 'onCommand' | 'settings' | 'opensWithFile' | 'glanceAtTable'>>(
      name: C,
    ) =>
    (...given: Parameters<SheetHost[C]>) =>
      ask([name], given) as ReturnType<SheetHost[C]>;
  return {
    capabilities: method('capabilities'),
    readSelection: method('readSelection'),
    readArea: method('readArea'),
    listSheets: method('listSheets'),
    planWrite: method('planWrite'),
    write: method('write'),
    addSheet: method('addSheet'),
    undo: method('undo'),
    reveal: method('reveal'),
    focusSheet: method('focusSheet'),
    showPage: method('showPage'),
    onSelection: () => {
      throw new Error('Listen inside the page.');
    },
    onCommand: () => {
      throw new Error('Listen inside the page.');
    },
    settings: {
      forgetFile: async () => void (await ask(['settings', 'forgetFile'], [])),
      get: async (key, scope) => (await ask(['settings', 'get'], [key, scope])) as string | null,
      set: async (key, value, scope) => void (await ask(['settings', 'set'], [key, value, scope])),
    },
  };
}
