/** The sidebar in Google Sheets: the shared panel over the script of the file. */
import { type GoogleScript, googleHost } from '../host/google-host.ts';
import { mountPanel } from '../panel/main.tsx';
import { restOfPage } from './rest.ts';

declare const google: { readonly script: GoogleScript };

restOfPage(google.script.run);

const root = document.getElementById('panel');
if (!root) throw new Error('The sidebar has no place for the panel.');

/** A click into the sidebar may bring several focus events; one question is enough. */
const RETURN_PAUSE_MS = 400;

const host = googleHost({
  script: google.script,
  onReturn(listener) {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const returned = () => {
      clearTimeout(timer);
      timer = setTimeout(listener, RETURN_PAUSE_MS);
    };
    window.addEventListener('focus', returned);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('focus', returned);
    };
  },
});
mountPanel(root, { host, api: null });
