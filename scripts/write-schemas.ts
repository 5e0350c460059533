/** Writes docs/make.schema.json from the Zod schema that reads makes: `npx tsx scripts/write-schemas.ts`. */
import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { makeJsonSchema } from '../src/make/schema.ts';

const target = new URL('../docs/make.schema.json', import.meta.url).pathname;
const config = (await resolveConfig(target)) ?? {};
writeFileSync(target, await format(JSON.stringify(makeJsonSchema()), { ...config, parser: 'json' }));
console.log('docs/make.schema.json written');
