/** Protected ranges of the bench grid: read before a write, and set where a workbook comes with some. */
import type { FWorksheet } from '@univerjs/sheets/facade';
import { cellAddress } from './bench-address.ts';
import type { Area } from './host.ts';

export interface BenchProtection {
  readonly area: Area;
  readonly name: string;
}

/** What may not be edited, named for a person. */
export async function benchProtections(sheet: FWorksheet): Promise<BenchProtection[]> {
  const rules = await sheet.getWorksheetPermission().listRangeProtectionRules();
  return rules
    .filter((rule) => !rule.canEdit())
    .flatMap((rule) =>
      rule.ranges.map((range) => {
        const [row, column] = [range.getRow(), range.getColumn()];
        const [rowCount, columnCount] = [range.getHeight(), range.getWidth()];
        const last = cellAddress(row + rowCount - 1, column + columnCount - 1);
        const name = `${rule.options.name ? `“${rule.options.name}” ` : ''}(${cellAddress(row, column)}:${last})`;
        return { area: { sheet: sheet.getSheetName(), row, column, rowCount, columnCount }, name };
      }),
    );
}

type Rule = Awaited<ReturnType<ReturnType<ReturnType<FWorksheet['getRange']>['getRangePermission']>['protect']>>;
/** The facade has this as a type alone. */
const EDIT = 'RangeEdit' as Parameters<Rule['setPoint']>[0];

export async function protectRange(sheet: FWorksheet, area: Omit<Area, 'sheet'>, name: string): Promise<void> {
  const range = sheet.getRange(area.row, area.column, area.rowCount, area.columnCount);
  const rule = await range.getRangePermission().protect({ name });
  await rule.setPoint(EDIT, false);
}
