/** Opens the bench: the frame at once, then the grid and the sidebar side by side, each in a bundle of its own. */
import { forgetFileSettings } from '../../host/bench-settings.ts';
import { openFocusJump } from './focus-jump.ts';
import type { Grid } from './grid.ts';
import { FILE_BOOK, forgetBook, keepBook, keptBook } from './keep.ts';
import { openMenu } from './menu.ts';
import type { BenchConnection } from './panel.ts';
import type { PlainBook } from './plain-book.ts';
import { openPlainView } from './plain-view.ts';
import { openSplitter } from './splitter.ts';
import { openTheme } from './theme.ts';

const KEEP_AFTER_MS = 800;
const ASK_AGAIN_MS = 300;
const AMERICAN = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' } as const;

function byId<E extends HTMLElement>(id: string, kind: new () => E): E {
  const element = document.getElementById(id);
  if (!(element instanceof kind)) throw new Error(`The page has no ${id}.`);
  return element;
}

function notice(text: string): void {
  byId('notice', HTMLElement).textContent = text;
}

async function readBook(): Promise<PlainBook> {
  const wanted = new URLSearchParams(location.search).get('book') ?? 'demo';
  const answer = await fetch('/bench/books.json');
  const books: PlainBook[] = await answer.json();
  // A file that was opened has no first state of its own; the browser keeps all of it.
  const file = wanted === FILE_BOOK ? keptBook(FILE_BOOK) : null;
  if (file !== null) return { id: file.id, name: file.name, locale: books[0]?.locale ?? AMERICAN, sheets: [] };
  const book = books.find((one) => one.id === wanted) ?? books[0];
  if (!book) throw new Error('No workbook to open.');
  return book;
}

/** The key of the yard that npm start serves, once it is filled; null anywhere else. */
async function readKey(): Promise<string | null> {
  for (;;) {
    const answer = await fetch('/bench/connection.json', { cache: 'no-store' });
    const served = answer.ok && (answer.headers.get('content-type') ?? '').startsWith('application/json');
    if (!served) return null;
    const { key }: BenchConnection = await answer.json();
    if (key !== null) return key;
    notice('The yard is being filled for the first time …');
    await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
  }
}

/** Files: opened in place of the workbook in front, or saved from it. What reads and writes them is fetched on the first press. */
function openFileButtons(grid: Grid, book: PlainBook): void {
  const picked = byId('file-picked', HTMLInputElement);
  const files = () => import('./files.ts');
  const say = (fault: unknown) => notice(fault instanceof Error ? fault.message : 'The file could not be opened.');
  byId('open-file', HTMLButtonElement).addEventListener('click', () => picked.click());
  picked.addEventListener('change', async () => {
    const [file] = picked.files ?? [];
    if (!file) return;
    notice(`Opening ${file.name} …`);
    try {
      await (await files()).keepFile(file, book.locale);
      location.search = `?book=${FILE_BOOK}`;
      if (new URLSearchParams(location.search).get('book') === FILE_BOOK) location.reload();
    } catch (fault) {
      picked.value = '';
      say(fault);
    }
  });
  for (const as of ['xlsx', 'csv'] as const) {
    byId(`save-${as}`, HTMLButtonElement).addEventListener('click', async () => {
      try {
        await (await files()).saveFile(grid.host, book.name, as, grid.activeSheetName());
      } catch (fault) {
        say(fault);
      }
    });
  }
}

async function open(): Promise<void> {
  const theme = openTheme(byId('theme-toggle', HTMLButtonElement));
  openSplitter(byId('splitter', HTMLElement), byId('work', HTMLElement));
  const panelBundle = import('./panel.ts');
  const connecting = readKey();
  const [book, { openGrid }] = await Promise.all([readBook(), import('./grid.ts')]);
  byId('book-name', HTMLElement).textContent = book.name;

  const grid = openGrid(
    byId('grid', HTMLElement),
    book,
    keptBook(book.id),
    theme.dark(),
    openMenu(byId('menu', HTMLElement)),
  );
  byId('grid-wait', HTMLElement).hidden = true;
  theme.onChange(grid.setDark);
  const plainView = openPlainView(grid, {
    toggle: byId('plain-toggle', HTMLButtonElement),
    plain: byId('plain', HTMLElement),
    covered: byId('grid', HTMLElement),
  });
  openFocusJump(byId('side', HTMLElement), plainView.focusSheet);

  let keeping: ReturnType<typeof setTimeout> | undefined;
  let startingOver = false;
  grid.onEdit(() => {
    clearTimeout(keeping);
    if (startingOver) return;
    keeping = setTimeout(() => {
      if (!keepBook(grid.snapshot()))
        notice('This browser keeps no more: changes to the sheet last until the page closes.');
    }, KEEP_AFTER_MS);
  });
  byId('start-over', HTMLButtonElement).addEventListener('click', () => {
    if (
      !confirm(
        'Put the sheet back as it was at first? Your changes to the sheet go. The yard keeps its boards and jobs.',
      )
    )
      return;
    clearTimeout(keeping);
    startingOver = true;
    forgetBook(book.id);
    forgetFileSettings(book.id);
    location.reload();
  });

  openFileButtons(grid, book);
  const { openPanel } = await panelBundle;
  // For the console, and for whoever drives the page from outside.
  Object.assign(globalThis, { heartside: { host: grid.host } });
  const key = await connecting;
  notice('');
  openPanel(byId('panel', HTMLElement), grid.host, key);
}

open().catch((fault: unknown) => {
  console.error(fault);
  byId('grid-wait', HTMLElement).hidden = true;
  notice('The bench could not open. Reload the page; if it stays so, look at the window that runs npm start.');
});
