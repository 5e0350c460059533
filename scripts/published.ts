/** `npm run published`: every published value beside ours, a line for each model, the known misses and their reasons. */
import {
  byModel,
  errorText,
  judgedRows,
  kindsText,
  publishedText,
  summaryText,
  toleranceText,
  verdictText,
} from './science/judged.ts';
import type { Judged } from '../tests/published/rows.ts';

const COLUMNS: readonly { readonly head: string; readonly of: (judged: Judged) => string }[] = [
  { head: 'id', of: ({ row }) => row.id },
  { head: 'case', of: ({ row }) => row.case },
  { head: 'published', of: publishedText },
  { head: 'ours', of: ({ value }) => value.toPrecision(5) },
  { head: 'error', of: errorText },
  { head: 'tolerance', of: toleranceText },
  { head: 'verdict', of: verdictText },
  { head: 'source', of: ({ row }) => row.source },
];

const { rows, faults } = await judgedRows();
const cells = [COLUMNS.map(({ head }) => head), ...rows.map((judged) => COLUMNS.map(({ of }) => of(judged)))];
const widths = COLUMNS.map((_, column) => Math.max(...cells.map((line) => line[column]?.length ?? 0)));
const line = (texts: readonly string[]): string =>
  texts
    .map((text, column) => (column === COLUMNS.length - 1 ? text : text.padEnd(widths[column] ?? 0)))
    .join('  ')
    .trimEnd();

const groups = byModel(rows);
for (const [title, judged] of groups) {
  console.log(`\n${title}`);
  console.log(line(cells[0] ?? []));
  for (const each of judged) console.log(line(COLUMNS.map(({ of }) => of(each))));
}

console.log('\nBy model');
for (const [title, judged] of groups) console.log(`${title}: ${summaryText(judged)}`);

console.log('\nWhat the values rest on, by their own source');
for (const text of kindsText(rows)) console.log(text);

const known = rows.filter(({ passes, reason }) => !passes && reason !== null);
console.log('\nKnown misses (published/known-misses.csv)');
for (const { row, reason } of known) console.log(`${row.id}: ${reason ?? ''}`);

if (faults.length > 0) {
  console.log('\nFaults');
  for (const fault of faults) console.log(fault);
}
const within = rows.filter(({ passes }) => passes).length;
console.log(`\npublished: ${within} of ${rows.length} within tolerance (${known.length} known misses)`);
process.exitCode = faults.length === 0 ? 0 : 1;
