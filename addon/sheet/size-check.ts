/** Do the three sizes make sense together? Boards are longer than wide and wider than thick, by the middle value of each column. */
import type { Cell } from '../host/host.ts';
import { isBlank, readLengthCell } from './cell-length.ts';
import { medianOf } from './column-units.ts';
import type { ColumnReading, Role, Want } from './mapping.ts';

export interface SizeColumn {
  readonly role: 'length' | 'width' | 'thickness';
  readonly column: ColumnReading | null;
  readonly cells: readonly Cell[];
}

const NM_PER_INCH = 25_400_000;

export function sizeQuestions(
  sizes: readonly SizeColumn[],
  want: Want,
  decimal: '.' | ',',
  dateOrder: 'mdy' | 'dmy' | 'ymd',
): { readonly questions: readonly string[]; readonly roles: ReadonlySet<Role> } {
  const questions: string[] = [];
  const roles = new Set<Role>();
  const medians = sizes.map((size) => ({ ...size, medianNm: medianSize(size, decimal, dateOrder) }));
  for (const [i, larger] of medians.entries()) {
    const smaller = medians[i + 1];
    if (smaller === undefined || larger.medianNm === null || smaller.medianNm === null) continue;
    if (larger.medianNm >= smaller.medianNm || !larger.column || !smaller.column) continue;
    questions.push(
      `“${larger.column.heading}” (${larger.role}) holds smaller sizes than “${smaller.column.heading}” (${smaller.role}); are they the right way round?`,
    );
    roles.add(larger.role).add(smaller.role);
  }
  const length = medians.find((size) => size.role === 'length');
  const short = length?.medianNm !== undefined && length.medianNm !== null && length.medianNm < 20 * NM_PER_INCH;
  if (want === 'boards' && short && length.column?.unitFrom === 'default' && length.column.unit === 'in') {
    questions.push(`Lengths in “${length.column.heading}” are read as inches and come out short; are they feet?`);
    roles.add('length');
  }
  const thickness = medians.find((size) => size.role === 'thickness');
  if (want === 'boards' && thickness?.column?.unitFrom === 'default' && countsQuarters(thickness)) {
    questions.push(
      `“${thickness.column.heading}” holds whole numbers from 4 up, read as inches; are they quarters (4/4, 8/4)?`,
    );
    roles.add('thickness');
  }
  return { questions, roles };
}

/** 4, 5, 8 and no fraction among them: more likely 4/4, 5/4, 8/4 than boards 4 to 8 in thick. */
function countsQuarters({ cells }: SizeColumn): boolean {
  const filled = cells.filter((cell) => !isBlank(cell));
  return (
    filled.length > 0 &&
    filled.every(({ raw }) => Number.isInteger(Number(raw)) && Number(raw) >= 4 && Number(raw) <= 16)
  );
}

function medianSize(size: SizeColumn, decimal: '.' | ',', dateOrder: 'mdy' | 'dmy' | 'ymd'): number | null {
  const unit = size.column?.unit;
  if (!unit) return null;
  const readings = size.cells.flatMap((cell) => {
    if (isBlank(cell)) return [];
    const assume = { unit, decimal, dateOrder, datesAreFractions: true, formatSpeaks: true, largestNm: 30_000_000_000 };
    const reading = readLengthCell(cell, assume);
    return reading.ok ? [reading.nm] : [];
  });
  return medianOf(readings);
}
