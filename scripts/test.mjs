// npm test: install if missing, then format, lint, types, unit, property, published, store, fault and browser tests.
// Ends with `N passed, N failed`; never prints success having skipped the browser or, unasked, the shared store.
//   npm test -- --without-postgres     where no PostgreSQL can be had
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureChromium } from './browser.mjs';
import { buildIfStale } from './build.mjs';
import { ensureInstalled, root, run } from './install.mjs';
import { ensurePostgres, startPostgres } from './postgres.mjs';

ensureInstalled();
process.env.VATSIDE_CHROMIUM = ensureChromium();
const isWithoutPostgres = process.argv.includes('--without-postgres');
const isGiven = (process.env.VATSIDE_TEST_DATABASE_URL ?? '') !== '';
const postgresPrograms = isWithoutPostgres || isGiven ? undefined : ensurePostgres();
// Asked to stop, the running part ends first and its database with it.
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1));

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

/** Runs one part of the tests; the one of stores and servers beside a PostgreSQL of its own. */
async function testIn(name, args) {
  if (name !== 'shell') return run(process.execPath, args);
  if (postgresPrograms === undefined) {
    const left = isWithoutPostgres ? { VATSIDE_WITHOUT_POSTGRES: 'yes' } : {};
    return run(process.execPath, args, { env: { ...process.env, ...left } });
  }
  const started = Date.now();
  const postgres = await startPostgres(postgresPrograms);
  console.log(`PostgreSQL runs (${Math.round((Date.now() - started) / 1000)} s)`);
  try {
    return run(process.execPath, args, { env: { ...process.env, VATSIDE_TEST_DATABASE_URL: postgres.url } });
  } finally {
    postgres.stop();
  }
}

// What opens a page and times nothing shares the machine's cores; what is timed has them to itself.
for (const projects of [['pure'], ['shell'], ['browser', 'tasks', 'conditions'], ['timed']]) {
  const name = projects.join('-');
  const report = join(root, '.build', `report-${name}.json`);
  rmSync(report, { force: true });
  const code = await testIn(name, [
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

if (isWithoutPostgres) console.log('Left out, as asked by --without-postgres: the tests of the shared store, which need PostgreSQL.'); // prettier-ignore
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
