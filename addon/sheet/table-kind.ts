/** Whether a table is a board list or a cut list: the one whose rows could be read with what stands there. */
import type { Block } from '../host/host.ts';
import { findTable } from './find-table.ts';
import type { Want } from './mapping.ts';

export function tableKind(block: Block): Want | null {
  const lacks = (want: Want) => {
    const found = findTable(block, want, { system: 'in' });
    return found.ok ? found.mapping.missing.length : Number.POSITIVE_INFINITY;
  };
  const [boards, parts] = [lacks('boards'), lacks('parts')];
  if (!Number.isFinite(boards) && !Number.isFinite(parts)) return null;
  return parts < boards ? 'parts' : 'boards';
}
