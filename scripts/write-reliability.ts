// Writes docs/reliability.md from the counts in docs/reliability.json. Run with: npx tsx scripts/write-reliability.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { reliabilityPage } from '../tests/faults/reliability-page.ts';
import { resultsSchema } from '../tests/faults/results.ts';

const docs = new URL('../docs/', import.meta.url);
const results = resultsSchema.parse(JSON.parse(readFileSync(new URL('reliability.json', docs), 'utf8')));
writeFileSync(new URL('reliability.md', docs), await reliabilityPage(results));
console.log(`wrote ${Object.keys(results).length} parts`);
