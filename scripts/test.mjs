// npm test: install if missing, then format, lint, types, unit, property, published, store, fault and browser tests.
// Ends with `N passed, N failed`; never prints success having skipped the browser.
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureChromium } from './browser.mjs';
import { buildIfStale } from './build.mjs';
import { ensureInstalled, root, run } from './install.mjs';

ensureInstalled();
process.env.VATSIDE_CHROMIUM = ensureChromium();

const bin = (name, file) => join(root, 'node_modules', name, file);
let passed = 0;
let failed = 0;

function check(name, command, args) {
  const started = Date.now();
  const code = run(command, args);
  console.log(`${code === 0 ? 'ok' : 'FAILED'}: ${name} (${Math.round((Date.now() - started) / 1000)} s)`);
  if (code === 0) passed++;
  else failed++;
}

check('format', process.execPath, [bin('prettier', 'bin/prettier.cjs'), '--check', '--log-level', 'warn', '.']);
check('lint', process.execPath, [bin('oxlint', 'bin/oxlint'), '--type-aware', '--deny-warnings']);
check('types', process.execPath, [bin('typescript', 'bin/tsc'), '-b']);
await buildIfStale();

// What opens a page and times nothing shares the machine's cores; what is timed has them to itself.
for (const projects of [['pure'], ['shell'], ['browser', 'tasks', 'conditions'], ['timed']]) {
  const name = projects.join('-');
  const report = join(root, '.build', `report-${name}.json`);
  rmSync(report, { force: true });
  const code = run(process.execPath, [
    bin('vitest', 'vitest.mjs'),
    'run',
    ...projects.flatMap((project) => ['--project', project]),
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  let counts = { numPassedTests: 0, numFailedTests: 0, numTotalTests: 0 };
  try {
    counts = JSON.parse(readFileSync(report, 'utf8'));
  } catch {
    console.error(`${name}: no test report was written.`);
  }
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  // A run that found nothing, or died outside a test, has not passed.
  if (counts.numTotalTests === 0 || (code !== 0 && counts.numFailedTests === 0)) failed++;
}

console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
