import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { calculators } from '../src/exchange/calc/registry.ts';
import { functionDocs } from '../scripts/science/docstrings.ts';
import { isOfSchedule, judgedRows } from '../scripts/science/judged.ts';
import { MODELS } from '../scripts/science/models.ts';
import { PAGES, sciencePages } from '../scripts/science/pages.ts';

describe('the pages of the models', () => {
  let pages: ReadonlyMap<string, string>;
  beforeAll(async () => {
    pages = await sciencePages();
  }, 60_000);

  it('stand as the code and the published values would write them now: npx tsx scripts/write-science-pages.ts', () => {
    expect(readdirSync(PAGES).sort()).toEqual([...pages.keys()].sort());
    const stale = [...pages].filter(([name, text]) => readFileSync(new URL(name, PAGES), 'utf8') !== text);
    expect(stale.map(([name]) => name)).toEqual([]);
  });

  it('name no value that is not there', () => {
    for (const [name, text] of pages) expect(text, name).not.toMatch(/undefined|NaN|\[object/);
  });

  it('give every model a plot, an equation, a range and a source', () => {
    for (const { id } of MODELS) {
      expect(pages.has(`${id}.svg`), id).toBe(true);
      const page = pages.get(`${id}.md`) ?? '';
      for (const head of ['## Equations\n\n### ', '## Valid range\n\n', '## Sources\n\n- '])
        expect(page, id).toContain(head);
    }
  });

  it('leave out no model that names its sources, and no calculator that stands on one', () => {
    const onPages = new Set(MODELS.flatMap(({ modules }) => modules));
    const folder = new URL('../src/science/', import.meta.url);
    const documented = readdirSync(folder).filter(
      (file) => file.endsWith('.ts') && !file.endsWith('.test.ts') && functionDocs(file).length > 0,
    );
    expect(documented.length).toBeGreaterThan(40);
    expect(documented.filter((file) => !onPages.has(file))).toEqual([]);
    const asked = new Set(MODELS.flatMap(({ calculators: names }) => names));
    for (const name of asked) expect(calculators.has(name), name).toBe(true);
    // `measure` is definitions, not a model.
    expect([...calculators.keys()].filter((name) => !asked.has(name))).toEqual(['measure']);
  });
});

describe('the published rows', () => {
  it('belong to one model each or to the schedule of a make, and all stand as they should', async () => {
    const { rows, faults } = await judgedRows();
    expect(faults).toEqual([]);
    for (const { row } of rows) {
      expect(
        MODELS.filter((model) => model.rows.test(row.id)).map(({ id }) => id),
        row.id,
      ).toHaveLength(isOfSchedule(row.id) ? 0 : 1);
    }
  });
});
