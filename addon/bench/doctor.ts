/**
 * `npm run doctor -- [folder]`: checks every yard whose files lie under a state folder (.heartside when none is given) and
 * says what is broken. Reads only, so it may run beside the service. Ends with 1 when a yard is not sound.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Finding } from '../../worker/contract/doctor.ts';
import { askDoctor } from '../../worker/yard/doctor/doctor.ts';
import { SCHEMA_VERSION, schemaVersion } from '../../worker/yard/schema.ts';
import { SqlState } from '../../worker/yard/sql-state.ts';
import { yardRecord } from '../../worker/yard/state.ts';
import { FileSql } from './file-sql.ts';
import { ROOT } from './local-server.ts';

const FINDINGS_SHOWN = 50;

interface YardReport {
  readonly name: string;
  readonly movements: number;
  readonly things: number;
  readonly findings: readonly Finding[];
}

function checkedYard(sql: FileSql): YardReport {
  const findings: Finding[] = [];
  let movements = 0;
  let things = 0;
  for (let after: string | null = null; ; ) {
    const page = askDoctor(sql, { after });
    if (!page) throw new Error('the check lost its place');
    findings.push(...page.findings);
    movements += page.looked.movements;
    things += page.looked.things;
    if (page.next === null) break;
    after = page.next;
  }
  return { name: yardRecord(new SqlState(sql)).name, movements, things, findings };
}

function say(file: string): boolean {
  const sql = new FileSql(file);
  try {
    const version = schemaVersion(sql);
    if (version === 0) return true;
    if (version > SCHEMA_VERSION) {
      console.error(`${file}: written by a newer version (schema ${version}); update first.`);
      return false;
    }
    const { name, movements, things, findings } = checkedYard(sql);
    const verdict = findings.length === 0 ? 'sound' : `${findings.length} faults`;
    console.log(`${name}: ${movements} movements, ${things} things: ${verdict}.`);
    for (const { rule, what, words } of findings.slice(0, FINDINGS_SHOWN)) console.log(`  ${rule}: ${what}: ${words}`);
    if (findings.length > FINDINGS_SHOWN) console.log(`  and ${findings.length - FINDINGS_SHOWN} more`);
    return findings.length === 0;
  } finally {
    sql.close();
  }
}

const folder = process.argv[2] ?? process.env.HEARTSIDE_STATE ?? join(ROOT, '.heartside');
const files = existsSync(folder)
  ? readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.sqlite'))
  : [];
if (files.length === 0) {
  console.error(`No yard lies in ${folder}. Say which folder: npm run doctor -- FOLDER`);
  process.exitCode = 2;
} else if (!files.map((file) => say(join(folder, file))).every(Boolean)) {
  console.log('Keep the files as they are, and restore the last good copy into a new yard (README, "Keep a copy").');
  process.exitCode = 1;
}
