/** A yard's file in tests: taken out whole, put in part by part, and the tables of two yards side by side. */

import { crc32, crcText } from '../../worker/contract/checksum.ts';
import { limits } from '../../worker/contract/limits.ts';
import type { RestoreAnswer } from '../../worker/yard/command.ts';
import { owner, type Shop } from './shop.ts';

/** The lines of the file as the service sends them. */
export function fileOf(shop: Shop, chars: number = limits.archivePageChars): readonly string[] {
  const head = shop.ask('archive-head', {});
  let movements = '';
  for (let afterSeq = 0; afterSeq < head.movements; ) {
    const page = shop.ask('archive-page', { afterSeq, upToSeq: head.movements, chars });
    movements += page.text;
    afterSeq = page.lastSeq;
  }
  const crc = crcText(crc32(new TextEncoder().encode(movements)));
  const end = JSON.stringify({ end: { movements: head.movements, crc32: crc } });
  return `${head.text}${movements}${end}`.split('\n');
}

export function restore(shop: Shop, lines: readonly string[], perPart = lines.length): RestoreAnswer {
  let answer: RestoreAnswer | null = null;
  for (let at = 0; at < lines.length; at += perPart) {
    answer = shop.yard.core.restore(owner, at + 1, lines.slice(at, at + perPart));
    if (!answer.ok) return answer;
  }
  if (!answer) throw new Error('no line to restore');
  return answer;
}

/** What belongs to one yard only: who may come in, what was answered to whom, and its own name. */
const OWN = ['api_key', 'receipt', 'receipt_text', 'identity', 'restoring', 'schema_version'];

/** Every row of every table that makes up a yard. */
export function tablesOf(shop: Shop): Record<string, unknown> {
  const tables = shop.yard.sql.rows<{ name: string }>(
    "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name",
  );
  const own = new Set(OWN);
  return Object.fromEntries(
    tables.flatMap(({ name }) =>
      own.has(name)
        ? []
        : [
            [
              name,
              shop.yard.sql
                .rows(`SELECT * FROM ${name}`)
                .map((row) => JSON.stringify(row))
                .sort(),
            ],
          ],
    ),
  );
}
