import { describe, expect, it } from 'vitest';
import { growthAdvice, GROWTHS, GROWTH_RINDS } from './rind-growth.ts';

describe('the key to what grows', () => {
  it('has an answer with its source for every look on every rind', () => {
    for (const grew of GROWTHS)
      for (const rind of GROWTH_RINDS) {
        const advice = growthAdvice({ grew, rind });
        expect(advice.source.length).toBeGreaterThan(8);
        if (advice.isStop) expect(advice.act).toBe('throw');
      }
  });

  it('leaves alone what was meant to grow, and throws away a fresh cheese on which anything grows', () => {
    expect(growthAdvice({ grew: 'white-velvet', rind: 'bloomy' }).act).toBe('leave');
    expect(growthAdvice({ grew: 'green-blue', rind: 'blue' }).act).toBe('leave');
    expect(growthAdvice({ grew: 'orange-smear', rind: 'washed' }).act).toBe('leave');
    expect(growthAdvice({ grew: 'green-blue', rind: 'natural' }).act).toBe('brush');
    for (const grew of ['white-velvet', 'grey-hair', 'green-blue', 'black', 'yellow', 'orange-smear', 'wet-slime'] as const)
      expect(growthAdvice({ grew, rind: 'fresh' })).toMatchObject({ act: 'throw', isStop: true }); // prettier-ignore
  });

  it('stops at pink or rust-red spots, a bloated cheese and a foul smell, whatever the rind', () => {
    for (const grew of ['pink-spots', 'bloated', 'foul'] as const)
      for (const rind of GROWTH_RINDS) expect(growthAdvice({ grew, rind }).isStop).toBe(true);
  });
});
