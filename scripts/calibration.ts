/**
 * `npm run calibration [-- MAKES [PROCESSES]]`: measures how honest the bands are and stores what it found in docs/calibration, and
 * writes docs/forecast.md from it.
 * The number of processes changes nothing but the time it takes.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { sharedOut } from './calibration/crew.ts';
import { jobsOf, type Size } from './calibration/jobs.ts';
import { modelHash } from './calibration/model-hash.ts';
import { DOCS, forecastPages } from './calibration/page.ts';
import { gathered } from './calibration/results.ts';
import { RESULTS, resultsText, storedResults, toldResults } from './calibration/stored.ts';

const whole = (text: string | undefined, usual: number, least: number): number => {
  const value = Number(text ?? usual);
  if (!Number.isInteger(value) || value < least) throw new RangeError(`${text} given; a whole number from ${least} on`);
  return value;
};
const makes = whole(process.argv[2], 560, 7);
const processes = whole(process.argv[3], availableParallelism(), 1);
const size: Size = {
  makes,
  members: 500,
  otherMakes: Math.min(Math.ceil(makes / 5), 105),
  sharpnessMakes: Math.ceil(makes / 10),
};

const started = Date.now();
const model = await modelHash();
const done = await sharedOut({ jobs: jobsOf(size), processes, say: (line) => console.log(line) });
const results = gathered({ model, size, done });
mkdirSync(new URL('.', RESULTS), { recursive: true });
writeFileSync(RESULTS, await resultsText(results));
// As they read back, so that the page says what the file says.
for (const [name, text] of await forecastPages(storedResults())) writeFileSync(new URL(name, DOCS), text);
for (const line of toldResults(results)) console.log(line);
console.log(`${((Date.now() - started) / 60_000).toFixed(1)} minutes in ${processes} processes`);
