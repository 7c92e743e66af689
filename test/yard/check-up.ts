/** The doctor's whole round over a yard, part by part. */
import type { Finding } from '../../worker/contract/doctor.ts';
import { askDoctor } from '../../worker/yard/doctor/doctor.ts';
import type { Sql } from '../../worker/yard/sql.ts';

export interface CheckUp {
  readonly findings: readonly Finding[];
  readonly movements: number;
  readonly things: number;
  readonly receipts: number;
  readonly parts: number;
}

export function checkUp(sql: Sql): CheckUp {
  const findings: Finding[] = [];
  const looked = { movements: 0, things: 0, receipts: 0 };
  let after: string | null = null;
  for (let parts = 1; ; parts++) {
    const page = askDoctor(sql, { after });
    if (!page) throw new Error(`the doctor does not know its own mark ${after}`);
    findings.push(...page.findings);
    looked.movements += page.looked.movements;
    looked.things += page.looked.things;
    looked.receipts += page.looked.receipts;
    if (page.next === null) return { findings, ...looked, parts };
    after = page.next;
  }
}
