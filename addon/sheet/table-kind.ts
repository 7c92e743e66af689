/** Whether a table is a price list, a board list or a cut list: the one whose rows could be read with what stands there. */
import type { Block } from '../host/host.ts';
import { findTable } from './find-table.ts';
import type { Want } from './mapping.ts';
import { priceColumns } from './read-prices.ts';

export function tableKind(block: Block): Want | 'prices' | null {
  if (priceColumns(block) !== null) return 'prices';
  const lacks = (want: Want) => {
    const found = findTable(block, want, { system: 'in' });
    return found.ok ? found.mapping.missing.length : Number.POSITIVE_INFINITY;
  };
  const [boards, parts] = [lacks('boards'), lacks('parts')];
  if (!Number.isFinite(boards) && !Number.isFinite(parts)) return null;
  return parts < boards ? 'parts' : 'boards';
}
