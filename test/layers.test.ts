/** The house's walls: who may import whom, read from the files themselves. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '..');

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

function importsOf(file: string): string[] {
  const source = readFileSync(join(root, file), 'utf8');
  return [...source.matchAll(/^\s*(?:import|export)\s[^'"]*?from\s+['"]([^'"]+)['"]|^import\s+['"]([^'"]+)['"]/gm)].map(
    (match) => match[1] ?? match[2] ?? '',
  );
}

const inside = (file: string, specifier: string) =>
  specifier.startsWith('.') ? relative(root, resolve(root, dirname(file), specifier)) : specifier;

/** A file without its comments and texts, in which "any" is a word like any other. */
const codeOnly = (source: string) =>
  source
    .replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '')
    .replaceAll(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/g, "''");

/** Each folder with what it may import, besides itself. */
const mayImport: Record<string, readonly string[]> = {
  'worker/wood': [],
  'worker/contract': ['worker/wood', 'zod'],
  'worker/takeoff': ['worker/wood', 'worker/contract'],
  'worker/planner': ['worker/wood', 'worker/contract', 'worker/takeoff'],
  'worker/yard': ['worker/wood', 'worker/contract', 'cloudflare:', 'node:sqlite', 'node:crypto'],
  'worker/api': [
    'worker/wood',
    'worker/contract',
    'worker/takeoff',
    'worker/planner',
    'worker/yard/command.ts',
    'hono',
    'zod',
  ],
  // zod for its types alone: the test of the sidebar below sees to it.
  'addon/sheet': ['worker/wood', 'worker/contract', 'addon/host/host.ts', 'zod'],
  'addon/panel': ['worker/wood', 'worker/contract', 'addon/host/host.ts', 'addon/sheet', 'preact', '@preact/signals'],
  'addon/files': ['addon/host/file-host.ts', 'addon/host/host.ts', '@e965/xlsx', 'papaparse'],
  'addon/formulas': ['worker/wood', 'worker/contract', 'addon/sheet/fraction-date.ts'],
  'addon/host': ['worker/wood', 'worker/contract', '@univerjs', 'rxjs'],
};

describe('dependencies point downward only', () => {
  for (const [folder, allowed] of Object.entries(mayImport)) {
    test(`${folder} imports nothing above it`, () => {
      const strays = filesBelow(folder).flatMap((file) =>
        importsOf(file)
          .map((specifier) => inside(file, specifier))
          .filter((target) => !target.startsWith(`${folder}/`) && !allowed.some((prefix) => target.startsWith(prefix)))
          .map((target) => `${file} imports ${target}`),
      );
      expect(strays).toEqual([]);
    });
  }

  test('the checker shares no code with the search', () => {
    const shared = filesBelow('worker/planner')
      .filter((file) => /\/check[^/]*\.ts$/.test(file))
      .flatMap((file) => importsOf(file).map((specifier) => inside(file, specifier)))
      .filter((target) => !/worker\/planner\/(problem|check[^/]*)\.ts$/.test(target));
    expect(shared).toEqual([]);
  });

  test('the sidebar carries no zod: from the contract it takes types, and the tables without schemas', () => {
    const strays = [...filesBelow('addon/panel'), ...filesBelow('addon/sheet')].flatMap((file) => {
      const source = readFileSync(join(root, file), 'utf8');
      return [...source.matchAll(/^import\s+(?!type\b)[^'"]*from\s+['"]([^'"]*worker\/contract\/[^'"]+)['"]/gm)]
        .filter((match) => !/\/(routes|limits)\.ts$/.test(match[1] ?? ''))
        .filter((match) => !/^import\s+\{(\s*type\s[^,}]+,?)+\s*\}/.test(match[0]))
        .concat([...source.matchAll(/^import\s+(?!type\b)[^'"]*from\s+['"](zod)['"]/gm)])
        .map((match) => `${file}: ${match[0]}`);
    });
    expect(strays).toEqual([]);
  });

  test('elements are made by the page library only, never from text', () => {
    const strays = [...filesBelow('addon/panel'), ...filesBelow('addon/host')].filter((file) =>
      /innerHTML|insertAdjacentHTML|document\.write\(|dangerouslySetInnerHTML/.test(
        readFileSync(join(root, file), 'utf8'),
      ),
    );
    expect(strays).toEqual([]);
  });
});

describe('files stay small and plain', () => {
  const sources = ['worker', 'addon', 'test', 'data-demo'].flatMap(filesBelow);

  test('no file has more than 450 lines', () => {
    const long = sources
      .map((file) => ({ file, lines: readFileSync(join(root, file), 'utf8').split('\n').length }))
      .filter(({ lines }) => lines > 450);
    expect(long).toEqual([]);
  });

  test('no type holes and no tests switched off', () => {
    const holes = /\bas any\b|(?<![?\w] *): any\b|<any\b|\bany\[\]|\b(it|test|describe)\.(skip|only|todo)\b/;
    const found = sources.filter((file) => {
      const source = readFileSync(join(root, file), 'utf8');
      return (
        file !== 'test/layers.test.ts' && (/@ts-(ignore|expect-error)/.test(source) || holes.test(codeOnly(source)))
      );
    });
    expect(found).toEqual([]);
  });

  test('no key of a yard stands in the sources', () => {
    const found = sources.filter((file) =>
      /yk_[0-9a-z]{20}_[0-9a-z]{8}_[0-9a-z]{32}/.test(readFileSync(join(root, file), 'utf8')),
    );
    expect(found).toEqual([]);
  });
});
