import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { modelHash } from '../../scripts/calibration/model-hash.ts';
import { DOCS, forecastPages } from '../../scripts/calibration/page.ts';
import { SHARPNESS } from '../../scripts/calibration/sharpness.ts';
import { storedResults } from '../../scripts/calibration/stored.ts';

/** What `npm run calibration` stored: of this very model, over enough makes, and as honest and sharp as it must be. */
describe('the stored calibration', () => {
  const results = storedResults();

  it('is of the model as it stands: npm run calibration', async () => {
    expect(results.model).toBe(await modelHash());
  }, 60_000);

  it('ranked five hundred makes and more, a hundred of each other kind', () => {
    expect(results.makes).toBeGreaterThanOrEqual(500);
    expect(results.members).toBeGreaterThanOrEqual(500);
    expect(results.quantities.length).toBeGreaterThanOrEqual(6);
    for (const { id, makes, bins } of results.quantities) {
      expect(makes, id).toBeGreaterThan(150);
      expect(bins.reduce((sum, count) => sum + count, 0), id).toBe(makes); // prettier-ignore
    }
    for (const { id, makes } of results.otherModels) expect(makes, id).toBeGreaterThanOrEqual(100);
  });

  it('holds 86 to 94 % of truths of every quantity, and its ranks are even', () => {
    for (const { id, covered, shownCovered, chiSquareP, distanceP } of results.quantities) {
      for (const share of [covered, shownCovered]) {
        expect(share, id).toBeGreaterThanOrEqual(0.86);
        expect(share, id).toBeLessThanOrEqual(0.94);
      }
      expect(chiSquareP, id).toBeGreaterThan(0.005);
      expect(distanceP, id).toBeGreaterThan(0.005);
    }
  });

  it('holds four truths in five and more where the truth follows another model', () => {
    expect(results.otherModels.map(({ id }) => id).sort()).toEqual(['cold-spot', 'phage', 'slips', 'steady-errors', 'strain', 'thermometer']); // prettier-ignore
    for (const { id, all } of results.otherModels) expect(all.covered, id).toBeGreaterThanOrEqual(0.8);
  });

  it('narrows by notes as far as it must', () => {
    expect(results.sharpness.map(({ id }) => id)).toEqual(Object.keys(SHARPNESS));
    for (const { id, makes, p50 } of results.sharpness) {
      expect(makes, id).toBeGreaterThan(25);
      expect(p50, id).toBeLessThanOrEqual(SHARPNESS[id]?.goal ?? Infinity);
    }
  });

  it('is what docs/forecast.md and its plots show: npx tsx scripts/write-forecast-page.ts', async () => {
    const pages = await forecastPages(results);
    const stale = [...pages].filter(([name, text]) => readFileSync(new URL(name, DOCS), 'utf8') !== text);
    expect(stale.map(([name]) => name)).toEqual([]);
    for (const [name, text] of pages) expect(text, name).not.toMatch(/undefined|NaN|\[object/);
  });
});
