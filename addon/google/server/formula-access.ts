import { ownWoodsOf } from '../../formulas/own-woods.ts';

/**
 * What formulas of this file may know: the unit of plain numbers, and a read-only key to the yard. Formulas run in the
 * owner's name for everybody who opens the file, so the key stands in the file and may do nothing but read.
 */
const UNIT = 'formula-unit';
const ACCESS = 'formula-access';
const WOODS = 'formula-woods';

export interface Access {
  readonly address: string;
  readonly key: string;
}

export function formulaUnit(): 'in' | 'mm' {
  return PropertiesService.getDocumentProperties().getProperty(UNIT) === 'mm' ? 'mm' : 'in';
}

/** As the sidebar kept them; read for each formula, since each is a run of its own. */
export const formulaWoods = () => ownWoodsOf(PropertiesService.getDocumentProperties().getProperty(WOODS));

export function formulaAccess(): Access | null {
  const kept = PropertiesService.getDocumentProperties().getProperty(ACCESS);
  if (!kept) return null;
  const access: Access = JSON.parse(kept);
  return access;
}

function asked(title: string, question: string): string | null {
  const ui = SpreadsheetApp.getUi();
  const answer = ui.prompt(title, question, ui.ButtonSet.OK_CANCEL);
  return answer.getSelectedButton() === ui.Button.OK ? answer.getResponseText().trim() : null;
}

function told(words: string): void {
  const ui = SpreadsheetApp.getUi();
  ui.alert('Heartside', words, ui.ButtonSet.OK);
}

export function askFormulaUnit(): void {
  const unit = asked('Unit of plain numbers', 'A number without a unit in a Heartside formula is in: in or mm?');
  if (unit !== null) told(keepUnit(unit));
}

function keepUnit(unit: string): string {
  if (unit !== 'in' && unit !== 'mm') return 'Write in or mm.';
  PropertiesService.getDocumentProperties().setProperty(UNIT, unit);
  const named = unit === 'in' ? 'inches' : 'millimetres';
  return `Plain numbers are ${named} from now on. A formula that stands recalculates once a cell it uses changes.`;
}

export function askFormulaAccess(): void {
  const address = asked(
    'Let formulas ask the yard',
    'Address of the yard, beginning with https://. Leave it empty to stop formulas from asking.',
  )?.replace(/\/+$/, '');
  if (address === undefined) return;
  if (address === '') {
    PropertiesService.getDocumentProperties().deleteProperty(ACCESS);
    told('Formulas of this file no longer ask the yard.');
  } else if (!/^https:\/\/[^\s/]+$/.test(address)) {
    told('Write the address alone, like https://yard.example.com');
  } else {
    const key = asked(
      'Let formulas ask the yard',
      'A key of the yard that may only read. Everybody who can edit this file can use it; you can take it back in the yard at any time.',
    );
    if (key) told(keepAccess({ address, key }));
  }
}

/** A key that may do more than read has no place in a file that others open. */
function keepAccess(access: Access): string {
  const scopes = scopesOf(fetchJson(access, '/v1/yard', null));
  if (scopes === null) return 'The yard did not know this key. Check the address and the key.';
  if (scopes.some((scope) => scope !== 'read')) {
    return 'This key may do more than read. Make one for reading alone, and give that one.';
  }
  PropertiesService.getDocumentProperties().setProperty(ACCESS, JSON.stringify(access));
  return 'Formulas of this file can ask the yard now.';
}

function scopesOf(answer: unknown): readonly string[] | null {
  if (typeof answer !== 'object' || answer === null || !('you' in answer)) return null;
  const { you } = answer;
  if (typeof you !== 'object' || you === null || !('scopes' in you) || !Array.isArray(you.scopes)) return null;
  return you.scopes.map(String);
}

/** The yard's answer, or null for any refusal. */
export function fetchJson(access: Access, path: string, body: unknown): unknown {
  const response = UrlFetchApp.fetch(access.address + path, {
    method: body === null ? 'get' : 'post',
    headers: { authorization: `Bearer ${access.key}`, accept: 'application/json' },
    muteHttpExceptions: true,
    ...(body === null ? {} : { contentType: 'application/json', payload: JSON.stringify(body) }),
  });
  return response.getResponseCode() === 200 ? JSON.parse(response.getContentText()) : null;
}
