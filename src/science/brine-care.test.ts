import { describe, expect, it } from 'vitest';
import { brineFindings, type BrineSituation } from './brine-care.ts';

const good: BrineSituation = { percent: 18, aimPercent: 18, temperatureC: 10, pH: 5.2, calciumGPerL: 1.5, look: 'clear', uses: 3, days: 9, daysUnread: 2 }; // prettier-ignore
const acts = (change: Partial<BrineSituation>): string[] =>
  brineFindings({ ...good, ...change }).map(({ act, reason }) => `${act} ${reason}`);

describe('a brine in use', () => {
  it('asks for nothing while it is strong, cold, sour as the cheese and young', () => {
    expect(acts({})).toEqual([]);
  });

  it('is boiled or made anew after twenty batches, after thirty days, or when it is cloudy', () => {
    expect(acts({ uses: 21 })).toEqual(['boil uses']);
    expect(acts({ days: 31 })).toEqual(['boil days']);
    expect(acts({ look: 'cloudy' })).toEqual(['boil cloudy']);
    expect(acts({ look: 'slimy' })).toEqual(['replace slimy']);
  });

  it('is a stop where it bubbles, and where it is weak and not cold', () => {
    expect(acts({ look: 'gas' })[0]).toBe('stop gas');
    expect(acts({ percent: 9, temperatureC: 12 })[0]).toBe('stop weak-and-warm');
    expect(acts({ percent: 9, temperatureC: null })[0]).toBe('stop weak-and-warm');
    expect(acts({ percent: 9, temperatureC: 6 })).toEqual(['salt weak']);
  });

  it('wants salt, water, acid or calcium where it has drifted from its aim', () => {
    expect(acts({ percent: 17 })).toEqual(['salt below-aim']);
    expect(acts({ percent: 20 })).toEqual(['water above-aim']);
    expect(acts({ pH: 6.2 })).toEqual(['acid pH-high']);
    expect(acts({ calciumGPerL: 0 })).toEqual(['calcium no-calcium']);
    expect(acts({ temperatureC: 16 })).toEqual(['chill warm']);
  });
});
