// npm run browser:all: everything that needs a browser, and the usability tasks and every screen on each device and under
// everything that makes them harder: no network, 320 px, the dark and the steam light, forced colours, text at twice its
// size. Ends with `N passed, N failed`.
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureChromium } from './browser.mjs';
import { buildIfStale } from './build.mjs';
import { ensureInstalled, root, run } from './install.mjs';

ensureInstalled();
process.env.VATSIDE_CHROMIUM = ensureChromium();
process.env.VATSIDE_MATRIX = 'all';
await buildIfStale();

const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
let passed = 0;
let failed = 0;
// One after the other: some of them may not share the machine with a second browser.
for (const project of ['browser', 'timed', 'tasks', 'conditions']) {
  const report = join(root, '.build', `report-all-${project}.json`);
  rmSync(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const code = run(process.execPath, [vitest, 'run', '--project', project, ...reporters]);
  let counts = { numPassedTests: 0, numFailedTests: 0, numTotalTests: 0 };
  try {
    counts = JSON.parse(readFileSync(report, 'utf8'));
  } catch {
    console.error(`${project}: no test report was written.`);
  }
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  // A project that found no test, or died outside one, has not passed.
  if (counts.numTotalTests === 0 || (code !== 0 && counts.numFailedTests === 0)) failed++;
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
