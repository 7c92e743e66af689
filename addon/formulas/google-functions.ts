/** The catalogue as Google Sheets wants it: one global function a formula, with the comment that its help is drawn from. */
import { exampleText, formulas, fullName } from './catalogue.ts';
import type { Formula } from './formula.ts';

/** Source text of the global functions; `inner` is the object of the bundle that does the work. */
export function googleFunctions(inner: string): string {
  return formulas.map((formula) => functionText(formula, inner)).join('\n');
}

function functionText(formula: Formula, inner: string): string {
  const names = formula.arguments.map((argument) => argument.name);
  const lines = [
    '/**',
    ` * ${plain(formula.help)}`,
    ' *',
    ...formula.arguments.map((argument) => {
      const name = argument.optional ? `[${argument.name}]` : argument.name;
      return ` * @param {any} ${name} ${plain(argument.help)}`;
    }),
    ` * @return {any} ${plain(formula.gives)}. Example: ${plain(exampleText(formula, 'underscore'))}`,
    ' * @customfunction',
    ' */',
    `function ${fullName(formula.name, 'underscore')}(${names.join(', ')}) {`,
    `  return ${inner}.formula('${formula.name}', [${names.join(', ')}]);`,
    '}',
  ];
  return `${lines.join('\n')}\n`;
}

/** Nothing in a comment may end it. */
const plain = (words: string) => words.replaceAll('*/', '* /').replaceAll(/\s+/g, ' ');
