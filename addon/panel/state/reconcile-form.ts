/**
 * The form for what really came out of a board: filled in as planned, so that only what differed is typed. Sizes stay as
 * typed until the form is read. Pure: form in, faults and request body out.
 */
import type { Defect } from '../../../worker/contract/board.ts';
import { limits } from '../../../worker/contract/limits.ts';
import type { Layout } from '../../../worker/contract/plan.ts';
import type { ReconcileRequest } from '../../../worker/contract/session.ts';
import type { WoodAccount } from './wood-account.ts';
import { plannedKerfNm3 } from './wood-account.ts';

/** later: not written down yet. */
export type Became = 'later' | 'planned' | 'reserve-kept' | 'cut' | 'untouched' | 'written-off';

/** A size in the form: the plan's exact figure until somebody types another. */
export interface SizeEntry {
  readonly text: string;
  readonly asPlannedNm: number | null;
}

export interface PartRow {
  readonly partKey: string;
  readonly element: number | null;
  readonly label: string;
  /** How many the plan has on this board; 0 for one that was not planned there. */
  readonly planned: number;
  readonly good: string;
  readonly failed: string;
  readonly why: string;
  /** Rough size as cut. */
  readonly lengthEntry: SizeEntry;
  readonly widthEntry: SizeEntry;
}

export interface OffcutRow {
  readonly tag: string;
  readonly lengthEntry: SizeEntry;
  readonly widthEntry: SizeEntry;
  readonly place: string;
}

export interface BoardForm {
  readonly boardId: string;
  readonly became: Became;
  readonly parts: readonly PartRow[];
  readonly offcuts: readonly OffcutRow[];
  readonly defects: readonly Defect[];
  readonly note: string;
  /** Why it was not touched, or why it is written off. */
  readonly why: string;
}

/** Reads a size as typed; null where it is none. */
export type ReadSize = (text: string) => number | null;
/** Shows a size as the tape does. */
export type ShowSize = (nm: number) => string;

export function sizeNm(entry: SizeEntry, read: ReadSize): number | null {
  return entry.asPlannedNm ?? read(entry.text);
}

export const typedSize = (text: string): SizeEntry => ({ text, asPlannedNm: null });

/** Everything as the plan has it. */
export function formOf(layout: Layout, show: ShowSize): BoardForm {
  const planned = (nm: number): SizeEntry => ({ text: show(nm), asPlannedNm: nm });
  const rows = new Map<string, PartRow>();
  for (const piece of layout.pieces) {
    const key = `${piece.partKey} ${piece.element ?? ''} ${piece.toNm - piece.fromNm} ${piece.rightNm - piece.leftNm}`;
    const count = (rows.get(key)?.planned ?? 0) + 1;
    rows.set(key, {
      partKey: piece.partKey,
      element: piece.element,
      label: piece.label,
      planned: count,
      good: String(count),
      failed: '0',
      why: '',
      lengthEntry: planned(piece.toNm - piece.fromNm),
      widthEntry: planned(piece.rightNm - piece.leftNm),
    });
  }
  return {
    boardId: layout.boardId,
    became: 'later',
    parts: [...rows.values()],
    offcuts: layout.offcuts.map((rest, index) => ({
      tag: offcutTag(layout.tag, index),
      lengthEntry: planned(rest.toNm - rest.fromNm),
      widthEntry: planned(rest.rightNm - rest.leftNm),
      place: '',
    })),
    defects: [],
    note: '',
    why: '',
  };
}

/** "M-14-1": the parent's tag and a count, as a shop chalks it on the end. */
export function offcutTag(parentTag: string, index: number): string {
  return `${parentTag}-${index + 1}`.slice(-limits.tagChars);
}

export interface FormFault {
  /** The place in the form: "parts.0.good", "offcuts.1.length", "why". */
  readonly at: string;
  readonly help: string;
}

export function formFaults(form: BoardForm, read: ReadSize): FormFault[] {
  if (form.became === 'written-off')
    return form.why.trim() === '' ? [{ at: 'why', help: 'Say why it is written off.' }] : [];
  if (form.became !== 'cut') return [];
  const faults: FormFault[] = [];
  form.parts.forEach((row, index) => {
    for (const field of ['good', 'failed'] as const) {
      if (countOf(row[field]) === null)
        faults.push({ at: `parts.${index}.${field}`, help: 'A whole number, 0 or more.' });
    }
    if ((countOf(row.failed) ?? 0) > 0 && row.why.trim() === '') {
      faults.push({ at: `parts.${index}.why`, help: 'Say why: warped, split, miscut …' });
    }
    for (const field of ['length', 'width'] as const) {
      if (sizeNm(row[`${field}Entry`], read) === null) {
        faults.push({ at: `parts.${index}.${field}`, help: 'A size as on the tape: 23 5/8 or 600 mm.' });
      }
    }
  });
  const tags = new Map<string, number>();
  form.offcuts.forEach((row, index) => {
    const tag = row.tag.trim();
    if (tag === '') faults.push({ at: `offcuts.${index}.tag`, help: 'An offcut needs a tag to be found again.' });
    else if (tags.has(tag.toLowerCase())) faults.push({ at: `offcuts.${index}.tag`, help: 'This tag stands twice.' });
    tags.set(tag.toLowerCase(), index);
    for (const field of ['length', 'width'] as const) {
      if (sizeNm(row[`${field}Entry`], read) === null) {
        faults.push({ at: `offcuts.${index}.${field}`, help: 'A size as on the tape: 23 5/8 or 600 mm.' });
      }
    }
  });
  return faults;
}

/** "Offcut JB-113-3, length: a size as on the tape …": a fault told away from its field. */
export function faultWords(form: BoardForm, { at, help }: FormFault): string {
  const [list, index, field = ''] = at.split('.');
  const row = list === 'parts' ? form.parts[Number(index)] : undefined;
  const offcut = list === 'offcuts' ? form.offcuts[Number(index)] : undefined;
  const where =
    row !== undefined ? row.label : offcut !== undefined ? `offcut ${offcut.tag.trim() || Number(index) + 1}` : null;
  return where === null ? help : `${where}, ${field}: ${help.charAt(0).toLowerCase()}${help.slice(1)}`;
}

/** What was not looked at yet came out as planned. */
export function restAsPlanned(forms: readonly BoardForm[]): BoardForm[] {
  return forms.map((form) => (form.became === 'later' ? { ...form, became: 'planned' } : form));
}

export function countOf(text: string): number | null {
  return /^\s*\d{1,4}\s*$/.test(text) ? Number(text) : null;
}

/** The account as the form stands; null while a size or count cannot be read. Kerf as planned, scrap as the rest. */
export function accountOfForm(layout: Layout, form: BoardForm, read: ReadSize): WoodAccount | null {
  const thick = BigInt(layout.thicknessNm);
  const inNm3 = BigInt(layout.lengthNm) * BigInt(layout.widthNm) * thick;
  const nothing = { inNm3, partsNm3: 0n, failedNm3: 0n, offcutsNm3: 0n, kerfNm3: 0n, scrapNm3: 0n, writeOffNm3: 0n };
  if (form.became === 'untouched' || form.became === 'later') return null;
  if (form.became === 'written-off') return { ...nothing, writeOffNm3: inNm3 };
  let partsNm3 = 0n;
  let failedNm3 = 0n;
  let offcutsNm3 = 0n;
  for (const row of form.parts) {
    const size = faceOf(row, read);
    const good = countOf(row.good);
    const failed = countOf(row.failed);
    if (size === null || good === null || failed === null) return null;
    partsNm3 += BigInt(good) * size * thick;
    failedNm3 += BigInt(failed) * size * thick;
  }
  for (const row of form.offcuts) {
    const size = faceOf(row, read);
    if (size === null) return null;
    offcutsNm3 += size * thick;
  }
  const kerfNm3 = plannedKerfNm3(layout);
  const scrapNm3 = inNm3 - partsNm3 - failedNm3 - offcutsNm3 - kerfNm3;
  return { ...nothing, partsNm3, failedNm3, offcutsNm3, kerfNm3, scrapNm3 };
}

function faceOf(row: Pick<PartRow, 'lengthEntry' | 'widthEntry'>, read: ReadSize): bigint | null {
  const lengthNm = sizeNm(row.lengthEntry, read);
  const widthNm = sizeNm(row.widthEntry, read);
  return lengthNm === null || widthNm === null ? null : BigInt(lengthNm) * BigInt(widthNm);
}

/** The body for these boards, from forms without faults. A part's size goes along only where somebody typed another. */
export function bodyOf(forms: readonly BoardForm[], read: ReadSize, allowExtra: boolean): ReconcileRequest {
  return { restAsPlanned: false, allowExtra, boards: forms.flatMap((form) => outcomeOf(form, read) ?? []) };
}

function outcomeOf(form: BoardForm, read: ReadSize): ReconcileRequest['boards'][number] | null {
  const { boardId } = form;
  const why = form.why.trim();
  switch (form.became) {
    case 'later':
      return null;
    case 'untouched':
      return { as: 'untouched', boardId, why };
    case 'written-off':
      return { as: 'written-off', boardId, why };
    case 'reserve-kept':
      return { as: 'reserve-kept', boardId, place: '' };
    case 'planned':
      return {
        as: 'planned',
        boardId,
        ...(form.offcuts.length === 0 ? {} : { tags: form.offcuts.map((row) => row.tag.trim()) }),
        place: form.offcuts[0]?.place.trim() ?? '',
      };
    case 'cut':
      return {
        as: 'cut',
        boardId,
        parts: form.parts.flatMap((row) => {
          const good = countOf(row.good) ?? 0;
          const failed = countOf(row.failed) ?? 0;
          if (good + failed === 0) return [];
          const size = {
            ...typedField('lengthNm', row.lengthEntry, read),
            ...typedField('widthNm', row.widthEntry, read),
          };
          return [{ partKey: row.partKey, element: row.element, good, failed, why: row.why.trim(), ...size }];
        }),
        offcuts: form.offcuts.map((row) => ({
          tag: row.tag.trim(),
          lengthNm: sizeNm(row.lengthEntry, read) ?? 0,
          widthNm: sizeNm(row.widthEntry, read) ?? 0,
          place: row.place.trim(),
          defects: [],
          note: '',
        })),
        defectsFound: [...form.defects],
        note: form.note.trim(),
      };
  }
}

function typedField(
  field: 'lengthNm' | 'widthNm',
  entry: SizeEntry,
  read: ReadSize,
): { lengthNm?: number; widthNm?: number } {
  const nm = entry.asPlannedNm === null ? read(entry.text) : null;
  return nm === null ? {} : { [field]: nm };
}
