import { describe, expect, it } from 'vitest';
import { answer } from './answer.ts';

const result = (name: string, input: unknown): Record<string, unknown> =>
  JSON.parse(JSON.stringify(answer({ name, input }).result)) as Record<string, unknown>;

/** Two logged heatings, minute and °C: our own check curves, derived by hand from the rule (safety notes, list A). */
const P1 = [[0, 20], [20, 40], [35, 55], [45, 62], [50, 64], [55, 65], [60, 65], [65, 65], [70, 64.5], [75, 64], [80, 63.5], [85, 55], [95, 40]] as const; // prettier-ignore
const P2 = [[0, 4], [15, 30], [30, 50], [40, 60], [46, 63.2], [56, 63.6], [66, 63.4], [75, 63.1], [77, 63.0], [90, 50]] as const; // prettier-ignore
const readings = (curve: readonly (readonly [number, number])[]) =>
  curve.map(([minute, temperatureC]) => ({ minute, temperatureC }));

describe('a logged heating', () => {
  it('meets the law for thirty minutes with an error of half a degree, and fails with one degree', () => {
    const half = result('pasteurise', { readings: readings(P1), thermometerErrorC: 0.5 });
    expect(half['meetsMinimum']).toBe(true);
    expect(half['longestHoldSeconds']).toBe(30 * 60);
    expect(half['lethalityMinutesAt63C']).toBeCloseTo(60.1, 0);
    expect(half['conservativeLethalityMinutesAt63C']).toBeCloseTo(51.2, 0);
    const whole = result('pasteurise', { readings: readings(P1), thermometerErrorC: 1 });
    expect(whole['meetsMinimum']).toBe(false);
    expect(whole['longestHoldSeconds']).toBe(25 * 60);
  });

  it('fails by the hold although the sum is far above it', () => {
    const exact = result('pasteurise', { readings: readings(P2), thermometerErrorC: 0, maxGapMinutes: 30 });
    expect(exact['meetsMinimum']).toBe(true);
    expect(exact['longestHoldSeconds']).toBe(31 * 60);
    const near = result('pasteurise', { readings: readings(P2), thermometerErrorC: 0.1, maxGapMinutes: 30 });
    expect(near['meetsMinimum']).toBe(false);
    expect(near['longestHoldSeconds']).toBe(29 * 60);
    expect(near['lethalityMinutesAt63C']).toBeGreaterThan(40);
    const gaps = result('pasteurise', { readings: readings(P2), thermometerErrorC: 0 });
    expect(gaps['meetsMinimum']).toBe(false);
  });

  it('asks three degrees more of cream, from ten per cent of fat on', () => {
    const least = (fatPercent: number): unknown =>
      result('pasteurise', { readings: readings(P1), fatPercent })['minimum'];
    expect(least(9.9)).toMatchObject({ temperatureC: 63 });
    expect(least(10)).toMatchObject({ temperatureC: 66 });
  });

  it('says that a pot at home is no approved equipment', () => {
    const { cautions } = answer({ name: 'pasteurise', input: { readings: readings(P1), thermometerErrorC: 0.5 } });
    expect(cautions.map(({ id }) => id)).toEqual(['past-home-kit']);
  });
});

describe('Listeria', () => {
  const at = (input: object): Record<string, unknown> =>
    result('listeria', { temperatureC: 5, days: 7, pHError: 0, waterActivityError: 0, ...input });

  it('cannot be supported strictly below the limits of the texts, and a doubt counts as growth', () => {
    expect(at({ pH: 4.39, waterActivity: 0.99 })['canGrow']).toBe(false);
    expect(at({ pH: 4.4, waterActivity: 0.99 })['canGrow']).toBe(true);
    expect(at({ pH: 4.9, waterActivity: 0.935 })['canGrow']).toBe(false);
    expect(at({ pH: 5, waterActivity: 0.935 })['canGrow']).toBe(true);
    expect(at({ pH: 6, waterActivity: 0.919 })['canGrow']).toBe(false);
    expect(at({ pH: 4.35, waterActivity: 0.99, pHError: 0.1 })['canGrow']).toBe(true);
    expect(at({ pH: 4.35, waterActivity: 0.99, pHError: 0.1 })['category']).toBe('unknown');
  });

  it('grows as far as the two published equations say', () => {
    const grown = (input: object): { p50: number; p95: number } =>
      at(input)['log10Increase'] as { p50: number; p95: number };
    const fresh = grown({ pH: 6.4, waterActivity: 0.99 });
    expect(fresh.p50).toBeCloseTo(2.03, 1);
    expect(fresh.p95).toBeCloseTo(2.5, 1);
    const acid = grown({ pH: 5.2, waterActivity: 0.985 });
    expect(acid.p50).toBeCloseTo(0.8, 1);
    expect(acid.p95).toBeCloseTo(1.6, 1);
  });

  it('tells the maker on which side the cheese falls', () => {
    const told = (pH: number) =>
      answer({ name: 'listeria', input: { temperatureC: 5, days: 7, pH, waterActivity: 0.98 } }).cautions;
    expect(told(4.2).map(({ id }) => id)).toEqual(['listeria-category']);
    expect(told(6).map(({ id }) => id)).toEqual(['listeria-supports']);
  });
});

describe('standardising', () => {
  it('brings 4 % milk to 3.2 % with skim milk, and the balance closes', () => {
    const done = result('standardise', {
      milkL: 100, milkFatPercent: 4, targetFatPercent: 3.2, with: 'skim', withFatPercent: 0.1,
    }) as Record<string, number>; // prettier-ignore
    expect(done['fatPercent']).toBeCloseTo(3.2, 9);
    expect(done['addL']).toBeCloseTo((100 * 0.8) / 3.1, 0);
  });

  it('refuses two targets, no target, and a target that skim milk cannot reach', () => {
    const base = { milkL: 10, milkFatPercent: 4, with: 'skim', withFatPercent: 0.1 };
    for (const input of [
      base,
      { ...base, targetFatPercent: 3, targetCaseinToFat: 0.8 },
      { ...base, targetFatPercent: 5 },
    ]) {
      expect(() => answer({ name: 'standardise', input })).toThrow(/targetFatPercent/);
    }
  });

  it('meets a fat and a casein-to-fat at once with a second addition, and warns of too much powder', () => {
    const base = { milkL: 100, milkFatPercent: 4, with: 'cream', withFatPercent: 36, alsoWith: 'powder', alsoWithFatPercent: 0.8 }; // prettier-ignore
    const input = { ...base, targetFatPercent: 4.2, targetCaseinToFat: 0.72 };
    const done = result('standardise', input) as Record<string, number>;
    expect(done['fatPercent']).toBeCloseTo(4.2, 9);
    expect(done['caseinToFat']).toBeCloseTo(0.72, 9);
    expect(done['alsoAddKg']).toBeGreaterThan(0);
    const thick = answer({ name: 'standardise', input: { ...input, targetCaseinToFat: 0.95 } }).cautions;
    expect(thick.map(({ id }) => id)).toEqual(['standardise-solids']);
    expect(() => answer({ name: 'standardise', input: { ...base, targetFatPercent: 4.2 } })).toThrow(
      /targetFatPercent/,
    );
    expect(() => answer({ name: 'standardise', input: { ...input, alsoWithFatPercent: undefined } })).toThrow(
      /alsoWithFatPercent/,
    );
  });

  it('adds up its litres where only liquids are mixed, and names cream that is too rich by its own field', () => {
    const base = { milkL: 100, milkFatPercent: 4, with: 'cream', targetFatPercent: 6 };
    const done = result('standardise', { ...base, withFatPercent: 36 }) as Record<string, number>;
    expect(done['totalL']).toBeCloseTo(100 + (done['addL'] ?? 0), 1);
    expect(() => answer({ name: 'standardise', input: { ...base, withFatPercent: 80 } })).toThrow(/withFatPercent/);
  });
});
