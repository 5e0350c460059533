/**
 * Prints how every make (or those named on the command line) comes out with typical milk: each aim's median, whether it is
 * inside, and the share of draws inside at a stranger's and in a kitchen that has weighed five batches.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseMake, type Make } from '../src/make/make.ts';
import { InputError } from '../src/numbers/validity.ts';
import { landingOf, lands, type AimLanding } from './makes/landing.ts';

const FOLDER = new URL('../makes/', import.meta.url);
const DRAWS = 200;

const named = process.argv.slice(2);
const ids = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -5))
  .filter((id) => named.length === 0 || named.includes(id));

const percent = (share: number): string => `${Math.round(100 * share)} %`.padStart(5);

function line({ aim, median, isInside, share, learnedShare }: AimLanding): string {
  const what = `${aim.quantity} (${aim.moment})`.padEnd(40);
  const range = `${aim.low} to ${aim.high}`.padEnd(16);
  const digits = aim.quantity === 'cheesePerMilkKgPerL' ? 3 : aim.quantity === 'pH' ? 2 : 1;
  return `  ${what} ${median.toFixed(digits).padStart(7)}  ${isInside ? 'inside ' : 'OUTSIDE'} ${range} stranger ${percent(share)}  learned ${percent(learnedShare)}`;
}

/** The make, or null where it cannot be read: then what is wrong with it is printed. */
function read(id: string): Make | null {
  try {
    return parseMake(JSON.parse(readFileSync(new URL(`${id}.json`, FOLDER), 'utf8')));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    console.log(`${id}   <- cannot be read`);
    console.log(`  ${error.message}`);
    return null;
  }
}

let landed = 0;
for (const id of ids) {
  const make = read(id);
  if (make === null) continue;
  const landing = landingOf({ make, draws: DRAWS });
  const isLanded = lands(landing);
  if (isLanded) landed++;
  console.log(`${id}${isLanded ? '' : '   <- not in its aims'}`);
  for (const aim of landing.aims) console.log(line(aim));
  if (landing.stops.length > 0) console.log(`  stops: ${landing.stops.join(', ')}`);
  if (landing.never.length > 0) console.log(`  never over in half of the draws: ${landing.never.join(', ')}`);
}
console.log(`makes: ${landed} of ${ids.length} land in their aims`);
process.exitCode = landed === ids.length ? 0 : 1;
