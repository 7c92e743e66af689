/** The page of the Excel tests: our host over the vendor's office library, which speaks to a make-believe workbook. */

import { excelHost } from '../../addon/host/excel-host.ts';
import { FakeWorkbook } from './fake-workbook.ts';
import type { OfficeBatch } from './office-batch.ts';

interface Executor {
  executeAsync(customData: unknown, flags: number, message: { readonly Body: OfficeBatch }): Promise<unknown>;
}
/** Not in the vendor's typings: the hook by which the library can be given another workbook. */
interface SessionHook {
  _overrideSession: {
    _createRequestExecutorOrNull(): Executor;
    _resolveRequestUrlAndHeaderInfo(): Promise<{ url: string; headers: null }>;
  };
}

const hook: SessionHook = Reflect.get(OfficeExtension, 'SessionBase');
hook._overrideSession = {
  _createRequestExecutorOrNull: () => ({
    executeAsync: async (_customData, _flags, message) => {
      // The library keeps what it sends; a copy stands for the way to another process.
      const batch: OfficeBatch = JSON.parse(JSON.stringify(message.Body));
      const body: unknown = JSON.parse(JSON.stringify(globalThis.book.answer(batch)));
      return { ErrorCode: '', ErrorMessage: '', Headers: {}, Body: body };
    },
  }),
  _resolveRequestUrlAndHeaderInfo: async () => ({ url: '', headers: null }),
};

type Listening = (kind: unknown, handler: () => void, done: (result: { status: string }) => void) => void;

/** What the library asks the frame around it; here is no frame, so the page says it. `excelApi` is 19 for 1.19. */
globalThis.openWorkbook = (sheets, protectedColumn, excelApi) => {
  const listen: Listening = (_kind, handler, done) => {
    globalThis.book.listener = handler;
    done({ status: 'succeeded' });
  };
  const leave = (_kind: unknown, _options: unknown, done: (result: { status: string }) => void) => {
    globalThis.book.listener = null;
    done({ status: 'succeeded' });
  };
  Object.defineProperties(Office.context, {
    requirements: {
      configurable: true,
      value: { isSetSupported: (_: string, version = '1.1') => Number(String(version).split('.')[1]) <= excelApi },
    },
    document: { configurable: true, value: { addHandlerAsync: listen, removeHandlerAsync: leave } },
  });
  globalThis.book = new FakeWorkbook(sheets, protectedColumn);
  globalThis.heartside = { host: excelHost(new URL('print.html', location.href).href) };
};
