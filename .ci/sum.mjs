// Adds up the test reports of a run and prints "N passed, N failed"; a step that failed without a failed test counts as one.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [folder = 'dist/reports', status = '0'] = process.argv.slice(2);
let passed = 0;
let failed = 0;
for (const name of existsSync(folder) ? readdirSync(folder) : []) {
  if (!name.endsWith('.json')) continue;
  const report = JSON.parse(readFileSync(join(folder, name), 'utf8'));
  passed += report.numPassedTests;
  failed += report.numFailedTests;
  for (const file of report.testResults) {
    // A file that could not be loaded, or whose set-up failed, has no failed test of its own.
    const named = file.assertionResults.some((one) => one.status === 'failed');
    if (file.status === 'failed' && !named) failed += 1;
  }
}
if (failed === 0 && status !== '0') failed = 1;
console.log(`${passed} passed, ${failed} failed`);
