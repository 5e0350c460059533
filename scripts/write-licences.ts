/** Writes docs/licences.md from the lockfile and the installed packages: `npx tsx scripts/write-licences.ts`. */
import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { licencesPage } from './licences/page.ts';

const target = new URL('../docs/licences.md', import.meta.url).pathname;
const config = (await resolveConfig(target)) ?? {};
writeFileSync(target, await format(licencesPage(), { ...config, parser: 'markdown' }));
console.log('docs/licences.md written');
