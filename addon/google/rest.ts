/**
 * What the sidebar does not open with, fetched from the script of the file: Google serves the page no other way to a
 * second file of ours. It is run as one more inline script, which Google's frame allows. The build calls heartLater
 * wherever the source imports a module when it is wanted.
 */

import type { ScriptRunner } from '../host/google-host.ts';

declare global {
  var heartPart: (name: string) => unknown;
  var heartLater: (name: string) => Promise<unknown>;
}

export function restOfPage(run: ScriptRunner): void {
  let coming: Promise<void> | null = null;

  function fetchRest(): Promise<void> {
    return new Promise((resolve, reject) => {
      run
        .withSuccessHandler((html) => {
          const script = document.createElement('script');
          script.text = html.replace(/^\s*<script>/, '').replace(/<\/script>\s*$/, '');
          document.head.append(script);
          resolve();
        })
        .withFailureHandler(() => reject(new Error('The rest of the sidebar did not come.')))
        .heartRest();
    });
  }

  globalThis.heartLater = async (name) => {
    coming ??= fetchRest();
    try {
      await coming;
    } catch (fault) {
      // The next press asks again.
      coming = null;
      throw fault;
    }
    return globalThis.heartPart(name);
  };
}
