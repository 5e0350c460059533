import ICAL from 'ical.js';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { parseMake } from '../../src/make/make.ts';
import { run } from './run.ts';

describe('vatside export', () => {
  it('writes a make as a file that reads back, and refuses a broken one with every problem', async () => {
    const { code, out } = await run({ line: 'export stretched-ball --as file' });
    expect(code).toBe(0);
    expect(parseMake(JSON.parse(out)).id).toBe('stretched-ball');
    const broken = await run({ line: 'export broken.json --as file', files: { 'broken.json': '{"id": "X"}' } });
    expect(broken.code).toBe(2);
    expect(broken.err).toMatch(/steps/);
    expect(broken.out).toBe('');
  });

  it('writes a hand-out in Spanish that fetches nothing and runs nothing', async () => {
    const { code, out } = await run({ line: 'export stretched-ball --as hand-out --lang es' });
    expect(code).toBe(0);
    expect(out).toContain('<html lang="es">');
    expect(out).toContain('Quién no debe comerlo');
    expect(out).not.toMatch(/<script|<link|src=|url\(|paper:|undefined|NaN/);
  });

  it('writes recipe, steps and calendar of the same plan', async () => {
    const recipe: unknown = JSON.parse((await run({ line: 'export stretched-ball --as recipe --milk 4L --author Larkenshaw' })).out); // prettier-ignore
    expect(recipe).toMatchObject({
      '@context': 'https://schema.org',
      '@type': 'Recipe',
      author: { name: 'Larkenshaw' },
    });
    const steps = Papa.parse<Record<string, string>>((await run({ line: 'export stretched-ball --as steps' })).out, { header: true, skipEmptyLines: true }); // prettier-ignore
    expect(steps.data.length).toBeGreaterThan(15);
    const calendar = (await run({ line: 'export stretched-ball --as calendar --start 09:00 --date 2026-03-02' })).out;
    expect(new ICAL.Component(ICAL.parse(calendar) as unknown[]).getAllSubcomponents('vevent').length).toBeGreaterThan(15); // prettier-ignore
  });

  it('names the forms where another is asked for', async () => {
    const { code, err } = await run({ line: 'export stretched-ball --as pdf' });
    expect(code).toBe(2);
    expect(err).toContain('file, hand-out, student, recipe, steps, calendar');
  });
});

describe('vatside share', () => {
  it('prints a link that carries milk, pot and units, and none that cannot be planned', async () => {
    const { code, out } = await run({ line: 'share stretched-ball --milk 1gal --pot 6L --units us' });
    expect(code).toBe(0);
    expect(out).toMatch(/^http:\/\/localhost:4711\/plan#make=stretched-ball&.*milk\.volumeL=3\.78/);
    expect(out).toContain('units=us');
    const refused = await run({ line: 'share stretched-ball --milk 10L --milk-type uht' });
    expect(refused.code).not.toBe(0);
    expect(refused.out).toBe('');
  });
});
