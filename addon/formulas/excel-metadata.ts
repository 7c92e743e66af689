/** The catalogue as Excel wants it: one entry a function, every argument a range, every result a range. */
import { exampleText, formulas } from './catalogue.ts';
import type { Formula } from './formula.ts';

export interface ExcelFunction {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly description: string;
    readonly type: 'any';
    readonly dimensionality: 'matrix';
    readonly optional?: true;
  }[];
  readonly result: { readonly type: 'any'; readonly dimensionality: 'matrix' };
}

/** The wording's limits are Excel's own for what it shows while a formula is typed. */
const DESCRIPTION_CHARS_MAX = 255;

export function excelMetadata(): { readonly functions: readonly ExcelFunction[] } {
  return { functions: formulas.map(entryOf) };
}

function entryOf(formula: Formula): ExcelFunction {
  const whole = `${formula.help} ${exampleText(formula, 'point')}`;
  return {
    id: formula.name,
    name: formula.name,
    description: whole.length <= DESCRIPTION_CHARS_MAX ? whole : formula.help.slice(0, DESCRIPTION_CHARS_MAX),
    parameters: formula.arguments.map((argument) => ({
      name: argument.name,
      description: argument.help,
      type: 'any',
      dimensionality: 'matrix',
      ...(argument.optional ? { optional: true as const } : {}),
    })),
    result: { type: 'any', dimensionality: 'matrix' },
  };
}
