/**
 * A bundle that was split into modules, made into plain scripts: Google's page service serves a page no further file
 * that a module could be imported from. Each module becomes a part that is run when it is first wanted; the parts that
 * the page opens with come together, the others in a second script.
 */
import { basename, dirname } from 'node:path';
import { build, type Metafile, type OutputFile } from 'esbuild';

export interface ScriptParts {
  readonly atOnce: string;
  readonly later: string;
}

/** Stands before the first part: where parts are kept, and how one is run. */
const KEEPER =
  'var heartParts={};function heartPart(name){var part=heartParts[name];return part.made||(part.made={},part.made=part.run())}';

export async function scriptParts(
  split: { readonly outputFiles: readonly OutputFile[]; readonly metafile: Metafile },
  entry: string,
): Promise<ScriptParts> {
  const scripts = split.outputFiles.filter((file) => file.path.endsWith('.js'));
  const opening = loadedAtOnce(split.metafile, entry);
  const made = await Promise.all(
    scripts.map(async (file) => ({
      name: basename(file.path),
      text: await partOf(basename(file.path), file.text, dirname(file.path)),
    })),
  );
  const textOf = (wanted: boolean) =>
    made
      .filter((part) => opening.has(part.name) === wanted)
      .map((part) => part.text)
      .join('\n');
  return { atOnce: `${KEEPER}\n${textOf(true)}\nheartPart("${entry}");`, later: textOf(false) };
}

/** The names of an output and of every output that it imports before it runs. */
function loadedAtOnce(metafile: Metafile, entry: string): Set<string> {
  const outputs = new Map(Object.entries(metafile.outputs).map(([path, output]) => [basename(path), output]));
  const names = new Set([entry]);
  for (const name of names) {
    for (const used of outputs.get(name)?.imports ?? []) {
      if (used.kind === 'import-statement') names.add(basename(used.path));
    }
  }
  return names;
}

/** One module as a part: what it imports at once it asks the keeper for, what it imports later it asks the page for. */
async function partOf(name: string, text: string, resolveDir: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents: text, resolveDir, sourcefile: name },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'made',
    target: 'es2020',
    minify: true,
    charset: 'ascii',
    legalComments: 'none',
    logLevel: 'warning',
    // Google's page service drops what looks like a comment inside a template literal ("https://…").
    supported: { 'template-literal': false },
    plugins: [
      {
        name: 'parts',
        setup(parts) {
          parts.onResolve({ filter: /^\.\// }, ({ path, kind }) =>
            kind === 'dynamic-import' ? { path, external: true } : { path: basename(path), namespace: 'part' },
          );
          parts.onLoad({ filter: /.*/, namespace: 'part' }, ({ path }) => ({
            contents: `module.exports = heartPart("${path}");`,
          }));
        },
      },
    ],
  });
  const script = (outputFiles[0]?.text ?? '').replaceAll(/\bimport\("\.\/([^"]+)"\)/g, 'heartLater("$1")');
  if (/\bimport\(/.test(script)) throw new Error(`${name} imports something that a plain script cannot.`);
  return `heartParts["${name}"]={run:function(){${script.trim()}\nreturn made}};`;
}
