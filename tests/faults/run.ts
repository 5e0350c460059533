/**
 * `npm run faults [-- part ...] [--share 0.1] [--seed 7] [--keep]`: breaks things on purpose and counts what is lost.
 * `--keep` writes what was found into docs/reliability.json and docs/reliability.md.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { PARTS } from './parts.ts';
import type { PartResult } from './parts/part.ts';
import { reliabilityPage } from './reliability-page.ts';
import { isClean, lastLine, ranOf, resultsSchema, type Ran, type Results } from './results.ts';

const DOCS = fileURLToPath(new URL('../../docs/', import.meta.url));
const BUILD = fileURLToPath(new URL('../../.build/faults/', import.meta.url));
const SEED = 20261129;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { share: { type: 'string' }, seed: { type: 'string' }, keep: { type: 'boolean' } },
});
const seed = Number(values.seed ?? SEED);
const share = Number(values.share ?? 1);
const unknown = positionals.filter((name) => !Object.hasOwn(PARTS, name));
if (unknown.length > 0 || !Number.isInteger(seed) || !(share > 0 && share <= 1)) {
  console.error(`npm run faults -- [${Object.keys(PARTS).join('] [')}] [--share 0.1] [--seed ${SEED}] [--keep]`);
  process.exit(2);
}

const results: Record<string, Ran> = {};
for (const [name, load] of Object.entries(PARTS)) {
  if (positionals.length > 0 && !positionals.includes(name)) continue;
  const part = await load();
  console.log(`\n${part.title}`);
  const folder = mkdtempSync(join(tmpdir(), `vatside-faults-${name}-`));
  const startedMs = Date.now();
  let result: PartResult;
  try {
    result = await part.run({
      seed,
      share,
      folder,
      isKept: values.keep === true,
      tell: (line) => console.log(`  ${line}`),
    });
  } catch (error) {
    const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    result = { figures: [], lost: 0, duplicated: 0, corrupt: 0, failures: [`ended by itself: ${why}`] };
  } finally {
    // A folder that is still held must not hide what was found.
    try {
      rmSync(folder, { recursive: true, force: true });
    } catch (error) {
      console.error(error);
    }
  }
  // Asked for by name, a part that cannot run has failed.
  if (result.leftOut !== undefined && positionals.includes(name)) result = { ...result, failures: [result.leftOut] };
  const ran = ranOf({ part, result, seed, share, startedMs, endedMs: Date.now() });
  results[name] = ran;
  for (const { name: what, value, unit } of result.figures) {
    console.log(`  ${what.padEnd(58)} ${value.toLocaleString('en-GB')}${unit === undefined ? '' : ` ${unit}`}`);
  }
  if (result.leftOut !== undefined) console.log(`  left out: ${result.leftOut}`);
  for (const failure of result.failures) console.log(`  FAILED: ${failure}`);
  console.log(`  ${ran.seconds} s`);
}

mkdirSync(BUILD, { recursive: true });
writeFileSync(join(BUILD, 'results.json'), `${JSON.stringify(results, null, 2)}\n`);
if (values.keep === true) await keep(results);
const rans = Object.values(results);
console.log(`\n${lastLine(rans)}`);
process.exit(isClean(rans) && rans.length > 0 ? 0 : 1);

/** Puts the new results beside those of parts that were not run now, and writes the page anew. */
async function keep(found: Results): Promise<void> {
  const file = join(DOCS, 'reliability.json');
  const before = existsSync(file) ? resultsSchema.parse(JSON.parse(readFileSync(file, 'utf8'))) : {};
  const all = { ...before, ...found };
  writeFileSync(file, `${JSON.stringify(all, null, 2)}\n`);
  writeFileSync(join(DOCS, 'reliability.md'), await reliabilityPage(all));
}
