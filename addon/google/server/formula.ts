/** Runs a formula in a Google cell. Google shows one error for the whole formula, so a fault names its row. */
import { formulas } from '../../formulas/catalogue.ts';
import { type Habits, isFault, type SheetValue, type YardFormula, type YardQuestion } from '../../formulas/formula.ts';
import { firstFault, type RunResult, runWoodFormula } from '../../formulas/run.ts';
import { type Given, gathered, type ResultCell, spread } from '../../formulas/spread.ts';
import {
  answersTo,
  freeByWood,
  needsOf,
  type StockBoard,
  type StockTable,
  type TagStatus,
} from '../../formulas/yard-answers.ts';
import { localeOf } from '../../host/locale-of.ts';
import { serialOf } from './date-serial.ts';
import { type Access, fetchJson, formulaAccess, formulaUnit, formulaWoods } from './formula-access.ts';

export function formula(name: string, given: readonly unknown[]): unknown {
  const found = formulas.find((one) => one.name === name);
  if (!found) throw new Error('This formula is not known. Reload the file.');
  const { decimal, dateOrder } = localeOf(SpreadsheetApp.getActiveSpreadsheet().getSpreadsheetLocale() ?? '');
  const habits: Habits = { unit: formulaUnit(), decimal, dateOrder, ownWoods: formulaWoods() };
  const plain = given.map(givenOf);
  const result = found.asks === null ? runWoodFormula(found, plain, habits) : askYard(found, plain, habits);
  return shown(result);
}

function givenOf(given: unknown): Given {
  return Array.isArray(given) ? given.map((row: readonly unknown[]) => row.map(sheetValueOf)) : sheetValueOf(given);
}

function sheetValueOf(value: unknown): SheetValue {
  if (typeof value === 'number' || typeof value === 'boolean' || typeof value === 'string') return value;
  return serialOf(value);
}

function shown(result: RunResult): unknown {
  if (!result.ok) throw new Error(result.fault);
  const fault = firstFault(result.rows, result.ranged);
  if (fault) throw new Error(fault);
  return result.ranged || (result.rows[0]?.length ?? 0) > 1 ? result.rows : result.rows[0]?.[0];
}

/** All cells of a range in one call. Each formula is a run of its own in Google, so what was answered is kept beside them. */
function askYard(found: YardFormula, given: readonly Given[], habits: Habits): RunResult {
  const access = formulaAccess();
  if (!access) return { ok: false, fault: 'choose Extensions › Heartside › Let formulas ask the yard first' };
  const cells = spread(found, given);
  if (isFault(cells)) return { ok: false, fault: cells.fault };
  const questions = cells.cells.map((values) => (values === null ? null : found.question(values, habits)));
  const asked = questions.filter((one): one is YardQuestion => one !== null && !isFault(one));
  const { tags, boards } = needsOf(asked);
  const statuses = statusesOf(access, tags);
  const stock = boards ? stockOf(access) : {};
  if (statuses === null || stock === null) {
    return { ok: false, fault: 'the yard did not answer; check the connection, then change the refresh cell' };
  }
  const answers = answersTo(asked, statuses, stock);
  const results = questions.map((one): ResultCell => {
    if (one === null) return '';
    return isFault(one) ? one : (answers[asked.indexOf(one)] ?? '');
  });
  const rows = gathered(results, cells.shape);
  return isFault(rows) ? { ok: false, fault: rows.fault } : { ok: true, rows, ranged: cells.ranged };
}

const KEPT_S = 60;

function statusesOf(access: Access, tags: readonly string[]): TagStatus[] | null {
  if (tags.length === 0) return [];
  return kept<TagStatus[]>(`tags ${JSON.stringify(tags)}`, () => {
    const answer = fetchJson(access, '/v1/boards/status', { tags });
    return hasRows(answer) ? answer.rows : null;
  });
}

const hasRows = (answer: unknown): answer is { rows: TagStatus[] } =>
  typeof answer === 'object' && answer !== null && 'rows' in answer && Array.isArray(answer.rows);

/** 5,000 boards in stock; a yard of one person holds fewer. */
const PAGES_MAX = 25;

function stockOf(access: Access): StockTable | null {
  return kept<StockTable>('stock', () => {
    const boards: StockBoard[] = [];
    let after = '';
    for (let page = 0; page < PAGES_MAX; page += 1) {
      const answer = fetchJson(access, `/v1/boards?state=in-stock&limit=200${after}`, null);
      if (!isPage(answer)) return null;
      boards.push(...answer.items);
      if (answer.next === null) return freeByWood(boards);
      after = `&after=${encodeURIComponent(answer.next)}`;
    }
    return null;
  });
}

const isPage = (answer: unknown): answer is { items: StockBoard[]; next: string | null } =>
  typeof answer === 'object' && answer !== null && 'items' in answer && Array.isArray(answer.items);

/** Google's cache takes short names and no more than 100 kB a value; what does not fit is asked again. */
function kept<T>(name: string, ask: () => T | null): T | null {
  const cache = CacheService.getDocumentCache();
  const digest = Utilities.computeDigest(Utilities.DigestAlgorithm.SHA_256, name);
  const key = `heart-${Utilities.base64Encode(digest)}`;
  const found = cache?.get(key);
  if (found) return JSON.parse(found);
  const answer = ask();
  const text = JSON.stringify(answer);
  if (answer !== null && text.length < 90_000) cache?.put(key, text, KEPT_S);
  return answer;
}
