/** Writes docs/science anew, a page and a plot for each model: `npx tsx scripts/write-science-pages.ts`. */
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { PAGES, sciencePages } from './science/pages.ts';

const pages = await sciencePages();
mkdirSync(PAGES, { recursive: true });
for (const old of readdirSync(PAGES)) if (!pages.has(old)) rmSync(new URL(old, PAGES));
for (const [name, text] of pages) writeFileSync(new URL(name, PAGES), text);
console.log(`docs/science: ${pages.size} files written`);
