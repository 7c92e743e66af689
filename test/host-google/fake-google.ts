/** The built script running as Google runs it: a realm of its own, Google's services around it, and the sidebar's bridge. */
import { createHash } from 'node:crypto';
import { createContext, runInContext } from 'node:vm';
import { type BuiltScript, scriptText } from '../../addon/build/google.ts';
import type { FileSheet } from '../../addon/host/file-host.ts';
import type { GoogleScript } from '../../addon/host/google-host.ts';
import { type FakeAccount, FakeBook } from './fake-sheets.ts';

let built: Promise<BuiltScript> | null = null;

export interface FakeGoogle {
  readonly book: FakeBook;
  readonly account: FakeAccount;
  readonly script: GoogleScript;
  /** Calls a global function of the script, as a menu or a cell does. */
  call(name: string, ...given: unknown[]): unknown;
  readonly shown: { title: string; html: string }[];
  readonly alerts: string[];
  readonly properties: { readonly user: Map<string, string>; readonly document: Map<string, string> };
  /** Requests to the yard, and what it answers. */
  readonly fetched: string[];
  answerFetch: (url: string, body: string | null) => { code: number; text: string };
  /** What the user types into the next prompts; null presses Cancel. */
  readonly prompts: (string | null)[];
  /** Nothing but the menu may be touched: the add-on is not allowed in this file yet. */
  authorised: boolean;
  /** Files of the project by name, as they are asked for. */
  readonly files: Map<string, string>;
  /** How long each call takes to come back, in the order of the calls. */
  readonly delaysMs: number[];
}

/** What Google's older engine lacks. */
const TAKE_AWAY = `
  for (const name of ['replaceAll', 'at']) delete String.prototype[name];
  for (const name of ['at', 'findLast', 'findLastIndex', 'toSorted', 'toReversed', 'toSpliced', 'with']) delete Array.prototype[name];
  for (const name of ['hasOwn', 'groupBy']) delete Object[name];
  delete globalThis.structuredClone;
`;

export async function openGoogle(sheets: readonly FileSheet[], given: Partial<FakeAccount> = {}): Promise<FakeGoogle> {
  built ??= scriptText();
  const account: FakeAccount = {
    protectedColumns: new Set([13]),
    locale: 'en_US',
    timeZone: 'America/Los_Angeles',
    lockedByOther: false,
    failWith: null,
    ...given,
  };
  const book = new FakeBook(sheets, account);
  const google: FakeGoogle = {
    book,
    account,
    shown: [],
    alerts: [],
    fetched: [],
    prompts: [],
    delaysMs: [],
    properties: { user: new Map(), document: new Map() },
    authorised: true,
    files: new Map(),
    answerFetch: () => ({ code: 404, text: '{}' }),
    call: (name, ...values) => Reflect.apply(globalFunction(name), undefined, values),
    script: {
      host: { editor: { focus: () => undefined } },
      run: runner(
        () => undefined,
        () => undefined,
      ),
    },
  };

  const realm = createContext(servicesOf(google));
  runInContext(TAKE_AWAY, realm);
  runInContext((await built).code, realm);

  function globalFunction(name: string): (...values: unknown[]) => unknown {
    const found: unknown = Reflect.get(realm, name);
    if (typeof found !== 'function') throw new Error(`The script has no ${name}.`);
    return (...values) => Reflect.apply(found, undefined, values);
  }

  type Runner = GoogleScript['run'];
  function runner(succeed: (answer: string) => void, fail: (fault: { message?: string }) => void): Runner {
    return {
      withSuccessHandler: (handler) => runner(handler, fail),
      withFailureHandler: (handler) => runner(succeed, handler),
      heartHost: (request) => answered(() => google.call('heartHost', request)),
      heartRest: () => answered(() => google.call('heartRest')),
    };

    function answered(ask: () => unknown): void {
      setTimeout(() => {
        try {
          succeed(String(ask()));
        } catch (fault) {
          fail({ message: String(fault) });
        }
      }, google.delaysMs.shift() ?? 0);
    }
  }
  return google;
}

function servicesOf(google: FakeGoogle): Record<string, unknown> {
  const { book, account, properties } = google;
  const store = (kept: Map<string, string>) => () => {
    if (!google.authorised) throw new Error('Exception: You do not have permission to call PropertiesService.');
    return {
      getProperty: (key: string) => kept.get(key) ?? null,
      setProperty: (key: string, value: string) => void kept.set(key, value),
      deleteProperty: (key: string) => void kept.delete(key),
      deleteAllProperties: () => kept.clear(),
    };
  };
  const menu = {
    items: [] as string[],
    addItem(label: string, name: string) {
      this.items.push(`${label} → ${name}`);
      return this;
    },
    addSeparator() {
      return this;
    },
    addToUi() {
      google.shown.push({ title: 'menu', html: this.items.join('\n') });
    },
  };
  const ui = {
    ButtonSet: { OK: 'OK', OK_CANCEL: 'OK_CANCEL' },
    Button: { OK: 'OK', CANCEL: 'CANCEL' },
    createAddonMenu: () => menu,
    showSidebar: (page: { title: string; html: string }) => google.shown.push(page),
    showModalDialog: (page: { html: string }, title: string) => google.shown.push({ title, html: page.html }),
    alert: (_: string, words: string) => google.alerts.push(words),
    prompt() {
      const typed = google.prompts.shift() ?? null;
      return { getSelectedButton: () => (typed === null ? 'CANCEL' : 'OK'), getResponseText: () => typed ?? '' };
    },
  };
  const page = (html: string) => {
    const output = {
      html,
      title: '',
      setTitle: (title: string) => Object.assign(output, { title }),
      setWidth: () => output,
      setHeight: () => output,
      getContent: () => html,
    };
    return output;
  };
  const cached = new Map<string, string>();
  return {
    SpreadsheetApp: {
      ProtectionType: { RANGE: 'RANGE', SHEET: 'SHEET' },
      getActiveSpreadsheet: () => {
        if (!google.authorised) throw new Error('Exception: You do not have permission.');
        return book;
      },
      getUi: () => ui,
      flush: () => undefined,
    },
    HtmlService: {
      createHtmlOutput: page,
      createHtmlOutputFromFile: (name: string) => page(google.files.get(name) ?? `file ${name}`),
    },
    LockService: {
      getDocumentLock: () => ({
        tryLock: () => {
          book.locked = !account.lockedByOther;
          return book.locked;
        },
        releaseLock: () => {
          book.locked = false;
        },
      }),
    },
    PropertiesService: {
      getUserProperties: store(properties.user),
      getDocumentProperties: store(properties.document),
    },
    CacheService: {
      getDocumentCache: () => ({
        get: (key: string) => cached.get(key) ?? null,
        put: (key: string, value: string) => void cached.set(key, value),
      }),
    },
    Utilities: {
      DigestAlgorithm: { SHA_256: 'SHA_256' },
      computeDigest: (_: string, text: string) => [...createHash('sha256').update(text).digest()],
      base64Encode: (bytes: number[]) => Buffer.from(bytes).toString('base64'),
      // The fake's dates are made in UTC, which stands for the file's own zone.
      formatDate: (date: Date) => `${date.toISOString().slice(0, 19)}Z`,
    },
    UrlFetchApp: {
      fetch: (url: string, options: { payload?: string }) => {
        google.fetched.push(url);
        const { code, text } = google.answerFetch(url, options.payload ?? null);
        return { getResponseCode: () => code, getContentText: () => text };
      },
    },
  };
}
