/** Every formula of ours, the one source for the code, Excel's metadata, Google's help and the help page. */
import type { Formula, YardFormula } from './formula.ts';
import { moistureFormulas } from './moisture-formulas.ts';
import { sizeFormulas } from './size-formulas.ts';
import { yardFormulas } from './yard-formulas.ts';

export const woodFormulas = [...sizeFormulas, ...moistureFormulas];
export const askingFormulas: readonly YardFormula[] = yardFormulas;
export const formulas: readonly Formula[] = [...woodFormulas, ...askingFormulas];

/** Excel writes the names with a point, Google and the bench without one: HEART.EMC, HEART_EMC. */
export const NAMESPACE = 'HEART';

export type NameStyle = 'point' | 'underscore';

export function fullName(name: string, style: NameStyle): string {
  return `${NAMESPACE}${style === 'point' ? '.' : '_'}${name}`;
}

/** The example as it is typed into a cell, with the list separator of most sheets. */
export function exampleText(formula: Formula, style: NameStyle, separator = ', '): string {
  const given = formula.example.given.map((value) =>
    typeof value === 'number' ? String(value) : `"${value.replaceAll('"', '""')}"`,
  );
  return `=${fullName(formula.name, style)}(${given.join(separator)})`;
}
