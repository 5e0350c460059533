import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { describe, expect, it } from 'vitest';
import { licencesPage } from '../scripts/licences/page.ts';
import { ALLOWED, usedPackages } from '../scripts/licences/packages.ts';

const packages = usedPackages();
const names = new Set(packages.map(({ name }) => name));

describe('what Vatside stands on', () => {
  it('may be used, changed and passed on by anybody', () => {
    expect(packages.filter(({ licence }) => !ALLOWED.includes(licence))).toEqual([]);
    expect(packages.length).toBeGreaterThan(35);
  });

  it('has the text of its licence beside it, wherever it is installed', () => {
    const without = packages.filter(({ name }) => {
      const folder = new URL(`../node_modules/${name}/`, import.meta.url);
      return existsSync(folder) && !readdirSync(folder).some((file) => /^(licen[cs]e|copying|unlicense|readme)/i.test(file)); // prettier-ignore
    });
    expect(without).toEqual([]);
  });

  it('holds every package that the code imports, but for what only builds and tests', () => {
    const sources = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((path) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path) && !path.startsWith('doors/web/build')); // prettier-ignore
    const IMPORT =
      /(?:^(?:import|export|\})[^'"`\n]* from |^import |\bimport\()'(?!\.|node:|virtual:)((?:@[\w-]+\/)?[\w.-]+)/gm;
    const imported = new Set(sources.flatMap((path) => [...readFileSync(`src/${path}`, 'utf8').matchAll(IMPORT)].map(([, name = '']) => name))); // prettier-ignore
    expect(imported.size).toBeGreaterThan(10);
    expect([...imported].filter((name) => !names.has(name) && !/^(vite|schema-dts)$/.test(name))).toEqual([]);
  });

  it('stands on one page, typefaces and icons too (npx tsx scripts/write-licences.ts writes it anew)', async () => {
    const config = (await resolveConfig('docs/licences.md')) ?? {};
    expect(readFileSync('docs/licences.md', 'utf8')).toBe(await format(licencesPage(), { ...config, parser: 'markdown' })); // prettier-ignore
    for (const name of ['@tabler/icons', '@fontsource-variable/bitter', '@fontsource-variable/atkinson-hyperlegible-next']) expect(names).toContain(name); // prettier-ignore
  });
});
