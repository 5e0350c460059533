// Writes the golden makes anew (see tests/golden/makes.test.ts). Run with: npx tsx scripts/write-golden.ts
import { writeFileSync } from 'node:fs';
import { simulate } from '../src/forecast/simulate.ts';
import { goldenOf } from '../tests/golden/table.ts';
import { MAKE_IDS, planFor } from '../tests/makes.ts';

for (const id of MAKE_IDS) {
  const file = new URL(`../tests/golden/${id}.json`, import.meta.url);
  writeFileSync(file, `${JSON.stringify(goldenOf(simulate({ plan: planFor({ id }) })), null, 1)}\n`);
  console.log(`wrote ${id}`);
}
