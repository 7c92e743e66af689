/** The script's one door for the sidebar: a JSON text in, a JSON text out, and never Google's own words to the user. */
import { googleFault } from '../../host/google-faults.ts';
import {
  PICKED_KEPT_AS,
  type Reply,
  type Request,
  type ScriptCalls,
  type ScriptScope,
} from '../../host/google-wire.ts';
import { HostError } from '../../host/host.ts';
import { showPage } from './pages.ts';
import { areaOfRange, book, listSheets, rangeOf, readArea, readSelection, sheetNamed } from './read.ts';
import { addSheet, planWrite, undo, write } from './write.ts';

/** Google keeps at most 9 kB under one name. */
const SETTING_CHARS_MAX = 8_000;

/** The user's own texts never travel with the file; the file's texts do. */
function propertiesOf(scope: ScriptScope): GoogleAppsScript.Properties.Properties {
  return scope === 'user' ? PropertiesService.getUserProperties() : PropertiesService.getDocumentProperties();
}

const calls: ScriptCalls = {
  readSelection,
  readArea,
  listSheets,
  planWrite,
  write,
  undo,
  addSheet,
  selected() {
    const range = book().getActiveRange();
    return range ? areaOfRange(range) : null;
  },
  reveal(area) {
    const sheet = sheetNamed(area.sheet);
    book().setActiveSheet(sheet);
    rangeOf(sheet, area).activate();
    return null;
  },
  getSetting: (key, scope) => propertiesOf(scope).getProperty(key),
  setSetting(key, value, scope) {
    if (value === null) propertiesOf(scope).deleteProperty(key);
    else if (value.length > SETTING_CHARS_MAX) {
      throw new HostError('too-large', 'That is more than Google keeps for one file.');
    } else propertiesOf(scope).setProperty(key, value);
    return null;
  },
  showPage,
  picked() {
    const properties = PropertiesService.getUserProperties();
    const picked = properties.getProperty(PICKED_KEPT_AS);
    if (picked !== null) properties.deleteProperty(PICKED_KEPT_AS);
    return picked;
  },
  forgetFile() {
    PropertiesService.getDocumentProperties().deleteAllProperties();
    return null;
  },
};

export function host(text: string): string {
  const request: Request = JSON.parse(text);
  return JSON.stringify(replyTo(request));
}

function replyTo({ seq, call, given }: Request): Reply {
  try {
    if (!Object.keys(calls).includes(call)) {
      throw new HostError('unsupported', 'The sidebar is newer than the script of this file. Reload the file.');
    }
    return { seq, ok: true, value: Reflect.apply(calls[call], undefined, given) };
  } catch (fault) {
    if (fault instanceof HostError) return { seq, ok: false, code: fault.code, help: fault.message };
    return { seq, ok: false, ...googleFault(String(fault)) };
  }
}
