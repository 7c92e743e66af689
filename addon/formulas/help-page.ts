/** The catalogue as a page to read beside the sheet, complete in itself, for every host. */
import { exampleText, formulas, fullName, type NameStyle } from './catalogue.ts';
import type { Formula } from './formula.ts';

const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** What the result of an example looks like: 10 · 29 | 2.5 | 2.5 for cells side by side. */
function resultText(formula: Formula): string {
  const { result } = formula.example;
  return typeof result === 'object' ? result.join(' | ') : String(result);
}

export function helpPage(style: NameStyle): string {
  const wood = formulas.filter((formula) => formula.asks === null);
  const yard = formulas.filter((formula) => formula.asks === 'yard');
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Heartside formulas</title>
<style>
  :root { color-scheme: light dark; }
  body { font: 16px/1.5 system-ui, "Liberation Sans", sans-serif; max-width: 46rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
  h2 { margin-top: 2.5rem; } h3 { margin: 1.75rem 0 .25rem; font-size: 1rem; }
  code { font: 15px/1.5 ui-monospace, "Liberation Mono", monospace; overflow-wrap: anywhere; }
  dl { margin: .25rem 0 .5rem; } dt { font-weight: 600; } dd { margin: 0 0 .35rem 1.25rem; } p { margin: .25rem 0; }
</style>
<main>
<h1>Heartside formulas</h1>
<p>Give a cell or a whole column of rows: <code>${escaped(columnExample(style))}</code> fills one result a row. Rows without sizes stay blank. Where your sheet writes decimals with a comma, put semicolons between the arguments.</p>
<h2>Worked out in the sheet</h2>
${wood.map((formula) => entryOf(formula, style)).join('\n')}
<h2>Answered by your yard</h2>
<p>These need the sheet to be connected. The example's answer is one of many: yours come from your own boards.</p>
${yard.map((formula) => entryOf(formula, style)).join('\n')}
</main>
</html>
`;
}

const columnExample = (style: NameStyle) => `=${fullName('BOARDFEET', style)}(C3:C40, D3:D40, E3:E40)`;

function entryOf(formula: Formula, style: NameStyle): string {
  const names = formula.arguments.map(({ name, optional }) => (optional ? `[${name}]` : name));
  const terms = formula.arguments.map(
    ({ name, help, optional }) => `<dt>${name}${optional ? ' (may be left out)' : ''}</dt><dd>${escaped(help)}</dd>`,
  );
  return `<h3><code>${fullName(formula.name, style)}(${names.join(', ')})</code></h3>
<p>${escaped(formula.help)} Gives ${escaped(formula.gives)}.</p>
<dl>${terms.join('')}</dl>
<p><code>${escaped(exampleText(formula, style))}</code> → ${escaped(resultText(formula))}</p>`;
}
