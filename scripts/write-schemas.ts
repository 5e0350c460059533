/** Writes the published schemas from those that read makes and copies: `npx tsx scripts/write-schemas.ts`. */
import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { copyJsonSchema } from '../src/exchange/json-schema.ts';
import { makeJsonSchema } from '../src/make/schema.ts';

const SCHEMAS = { 'make.schema.json': makeJsonSchema, 'copy.schema.json': copyJsonSchema };

for (const [name, schemaOf] of Object.entries(SCHEMAS)) {
  const target = new URL(`../docs/${name}`, import.meta.url).pathname;
  const config = (await resolveConfig(target)) ?? {};
  writeFileSync(target, await format(JSON.stringify(schemaOf()), { ...config, parser: 'json' }));
  console.log(`docs/${name} written`);
}
