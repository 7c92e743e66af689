/**
 * What a formula of ours is, in any spreadsheet: its words for the help, its arguments, and how one row of values is
 * worked out. A formula never throws for what a person typed; a fault is a sentence for the cell's error.
 */

import type { OwnWood } from '../../worker/wood/own-wood.ts';

/** A value as a spreadsheet hands it over. A date is its serial number. */
export type SheetValue = number | string | boolean | null;

/** What the sheet takes for granted. */
export interface Habits {
  /** Unit of a bare number, where the formula is given none. */
  readonly unit: 'in' | 'mm';
  readonly decimal: '.' | ',';
  readonly dateOrder: 'mdy' | 'dmy' | 'ymd';
  /** The shop's own woods, as the sidebar last kept them with the file. */
  readonly ownWoods?: readonly OwnWood[];
}

export interface Fault {
  readonly fault: string;
}

export type FormulaValue = number | string;
/** One row's result: one value, or several side by side. */
export type FormulaResult = FormulaValue | readonly FormulaValue[] | Fault;

export interface Argument {
  /** One word, as shown while typing the formula. */
  readonly name: string;
  readonly help: string;
  readonly optional?: true;
}

export interface FormulaWords {
  /** In capitals, without the namespace: "BOARDFEET". */
  readonly name: string;
  readonly help: string;
  readonly arguments: readonly Argument[];
  /** What comes out, in a few words with its unit. */
  readonly gives: string;
  /** Arguments as typed in a sheet with decimal points, and what they give (several values side by side in brackets). */
  readonly example: { readonly given: readonly (number | string)[]; readonly result: FormulaValue | readonly number[] };
}

/** Worked out here, from the trade's arithmetic alone. */
export interface WoodFormula extends FormulaWords {
  readonly asks: null;
  readonly work: (values: readonly SheetValue[], habits: Habits) => FormulaResult;
}

export type YardQuestion =
  | { readonly about: 'tag'; readonly tag: string }
  | { readonly about: 'free'; readonly species: string; readonly thicknessNm: number | null };

/** Answered by the yard: one row becomes one question. */
export interface YardFormula extends FormulaWords {
  readonly asks: 'yard';
  readonly question: (values: readonly SheetValue[], habits: Habits) => YardQuestion | Fault;
}

export type Formula = WoodFormula | YardFormula;

export const isFault = (value: unknown): value is Fault =>
  typeof value === 'object' && value !== null && 'fault' in value && typeof value.fault === 'string';

export const isBlank = (value: SheetValue | undefined): boolean =>
  value === undefined || value === null || (typeof value === 'string' && value.trim() === '');
