/**
 * Checks a whole yard, a part at a time. Each part looks at some movements and at the things that they made, from the
 * journal's beginning to now, in one synchronous step: so it is true of one moment, and writes may come between parts.
 */
import type { DoctorPage, Finding } from '../../contract/doctor.ts';
import type { EntityKind } from '../../contract/movement.ts';
import type { Questions } from '../command.ts';
import { type Sql, soleRow } from '../sql.ts';
import { LAST_SEQ, SqlState } from '../sql-state.ts';
import { checkMovement } from './check-movement.ts';
import { checkReceipts, RECEIPTS_A_PART } from './check-receipts.ts';
import { checkTables } from './check-tables.ts';
import { checkThing } from './check-thing.ts';
import { JournalPages } from './journal-pages.ts';

/** A part ends after so many changes, so that no part keeps the yard from others for long. */
const CHANGES_A_PART = 2_000;
const MOVEMENTS_A_PART = 500;
const FINDINGS_A_PART = 200;

const NEXT_SEQS = 'SELECT seq FROM journal WHERE seq > ? ORDER BY seq LIMIT ?';

interface Part {
  readonly findings: readonly Finding[];
  readonly movements?: number;
  readonly things?: number;
  readonly receipts?: number;
  readonly next: string | null;
}

function unreadable(seq: number, cause: unknown): Finding {
  const words = cause instanceof Error ? cause.message : String(cause);
  return { rule: 'movement-form', what: `movement ${seq}`, words };
}

function checkJournal(sql: Sql, after: number): Part {
  const state = new SqlState(sql);
  const pages = new JournalPages(sql);
  const findings: Finding[] = [];
  let last = after;
  let movements = 0;
  let things = 0;
  let changes = 0;
  for (const { seq } of sql.rows<{ seq: number }>(NEXT_SEQS, after, MOVEMENTS_A_PART)) {
    if (changes >= CHANGES_A_PART || findings.length >= FINDINGS_A_PART) break;
    if (seq !== last + 1) {
      findings.push({
        rule: 'journal-numbers',
        what: `movement ${last + 1}`,
        words: `it is missing: ${seq} follows ${last}`,
      });
    }
    last = seq;
    movements += 1;
    try {
      const page = pages.page(seq);
      if (!page) continue;
      changes += page.movement.changes.length;
      findings.push(...checkMovement(sql, pages, page.movement));
      for (const [first] of page.byThing.values()) {
        if (!first) continue;
        const life = pages.lifeOf(first.entity, first.id);
        if (life[0] !== seq) continue;
        things += 1;
        findings.push(...checkThing<EntityKind>(sql, state, pages, first.entity, first.id, life));
      }
    } catch (cause) {
      findings.push(unreadable(seq, cause));
    }
  }
  const next = movements === 0 ? 'tables' : `movement ${last}`;
  return { findings, movements, things, next };
}

/** A file that is badly damaged cannot even be asked. */
function tablesOrWhyNot(sql: Sql): readonly Finding[] {
  try {
    return checkTables(sql);
  } catch (cause) {
    return [{ rule: 'database', what: 'database', words: cause instanceof Error ? cause.message : String(cause) }];
  }
}

/** Null for a mark that is none of ours. */
function partAfter(sql: Sql, after: string | null): Part | null {
  const mark = after ?? 'movement 0';
  const seq = /^movement (\d{1,15})$/.exec(mark)?.[1];
  if (seq !== undefined) return checkJournal(sql, Number(seq));
  if (mark === 'tables') return { findings: tablesOrWhyNot(sql), next: 'receipt ' };
  const receipt = /^receipt (.{0,300})$/.exec(mark)?.[1];
  if (receipt === undefined) return null;
  const { findings, looked, last } = checkReceipts(sql, receipt);
  return { findings, receipts: looked, next: looked < RECEIPTS_A_PART ? null : `receipt ${last}` };
}

export function askDoctor(sql: Sql, { after }: Questions['doctor']['ask']): DoctorPage | null {
  const part = partAfter(sql, after);
  if (!part) return null;
  return {
    findings: part.findings.slice(0, FINDINGS_A_PART),
    looked: { movements: part.movements ?? 0, things: part.things ?? 0, receipts: part.receipts ?? 0 },
    movements: soleRow<{ seq: number }>(sql, LAST_SEQ).seq,
    next: part.next,
  };
}
