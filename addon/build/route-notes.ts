/** Leaves out of the panel's bundles what each route is for: that is written for readers of the service, and the panel only calls it. */
import { readFile } from 'node:fs/promises';
import type { Plugin } from 'esbuild';

export const withoutRouteNotes: Plugin = {
  name: 'without-route-notes',
  setup(pluginBuild) {
    pluginBuild.onLoad({ filter: /worker\/contract\/routes\.ts$/ }, async ({ path }) => ({
      contents: (await readFile(path, 'utf8')).replace(/\bsays: (?:'[^']*'|"[^"]*"),?/g, ''),
      loader: 'ts',
    }));
  },
};
