/** Writes docs/forecast.md and its plots anew from docs/calibration/results.json: `npx tsx scripts/write-forecast-page.ts`. */
import { writeFileSync } from 'node:fs';
import { DOCS, forecastPages } from './calibration/page.ts';
import { storedResults } from './calibration/stored.ts';

const pages = await forecastPages(storedResults());
for (const [name, text] of pages) writeFileSync(new URL(name, DOCS), text);
console.log(`docs/forecast.md and ${pages.size - 1} plots written`);
