// npm run browser:all: the usability tasks on every device and under everything that makes them harder: no network, 320 px,
// the dark and the steam light, forced colours, text at twice its size. Ends with `N passed, N failed`.
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureChromium } from './browser.mjs';
import { buildIfStale } from './build.mjs';
import { ensureInstalled, root, run } from './install.mjs';

ensureInstalled();
process.env.VATSIDE_CHROMIUM = ensureChromium();
process.env.VATSIDE_MATRIX = 'all';
await buildIfStale();

const report = join(root, '.build', 'report-browser-all.json');
rmSync(report, { force: true });
const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
const code = run(process.execPath, [vitest, 'run', '--project', 'tasks', '--project', 'matrix', ...reporters]);

let counts = { numPassedTests: 0, numFailedTests: 0, numTotalTests: 0 };
try {
  counts = JSON.parse(readFileSync(report, 'utf8'));
} catch {
  console.error('No test report was written.');
}
// A run that found no test, or died outside one, has not passed.
const died = counts.numTotalTests === 0 || (code !== 0 && counts.numFailedTests === 0) ? 1 : 0;
console.log(`${counts.numPassedTests} passed, ${counts.numFailedTests + died} failed`);
process.exitCode = counts.numFailedTests + died === 0 && counts.numPassedTests > 0 ? 0 : 1;
