import { describe, expect, it } from 'vitest';
import { spoonBeside } from './spoon-beside.ts';

describe('a spoon beside the grams', () => {
  it('says how far off it is, and that crystals of acid are better weighed', () => {
    const spoon = spoonBeside({ amount: { id: 'acid-citric', unit: 'g', value: 15 }, region: 'metric' });
    expect(spoon).toMatchObject({ spoon: 'tablespoon', count: 1, isWeightSafer: true });
    expect(spoon?.errorPercent).toBeGreaterThan(10);
  });
  it('measures vinegar by the tablespoon, which is 15 mL here and 20 in Australia', () => {
    const amount = { id: 'acid-vinegar', unit: 'mL', value: 120 } as const;
    expect(spoonBeside({ amount, region: 'metric' })).toMatchObject({ spoon: 'tablespoon', count: 8 });
    expect(spoonBeside({ amount, region: 'australia' })).toMatchObject({ spoon: 'tablespoon', count: 6 });
  });
  it('has none for what is counted, poured by the litre, or no powder of a spoon', () => {
    expect(spoonBeside({ amount: { id: 'culture', unit: 'packets', value: 1 }, region: 'us' })).toBeNull();
    expect(spoonBeside({ amount: { id: 'cream', unit: 'L', value: 1 }, region: 'us' })).toBeNull();
  });
});
