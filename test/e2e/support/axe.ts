/** Runs axe over a part of the page; its source is handed in as text, past the page's content policy. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Frame, Page } from 'playwright-core';

const source = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

declare global {
  var axe: { run(context: object, options: object): Promise<{ readonly violations: readonly Violation[] }> };
}

/** One line a violation; empty when there is none. */
export async function axeViolations(page: Page | Frame, within: string): Promise<string[]> {
  await page.evaluate(source);
  const violations = await page.evaluate(async (selector) => {
    return (await axe.run({ include: [selector] }, { resultTypes: ['violations'] })).violations;
  }, within);
  return violations.map(
    (violation) =>
      `${violation.id}: ${violation.help} — ${violation.nodes.map((node) => `${node.html} ${node.failureSummary ?? ''}`).join(' | ')}`,
  );
}
