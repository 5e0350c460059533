import { describe, expect, it } from 'vitest';
import { planFor } from '../../tests/makes.ts';
import { simulate } from './simulate.ts';
import { wheyLeft, type WheyOption, type WheyPortion, type WheyUse } from './whey-left.ts';

const plan = planFor();
const forecast = simulate({ plan, members: 60 });
const option = (portion: WheyPortion | undefined, use: WheyUse): WheyOption => {
  const found = portion?.options.find((one) => one.use === use);
  if (found === undefined) throw new Error(`no ${use}`);
  return found;
};

describe('the whey of a washed, stretched make', () => {
  const [first, last, ...more] = wheyLeft({ plan, forecast });

  it('comes twice: a third of the vat before the wash, the rest when the curd is drained', () => {
    expect(more).toEqual([]);
    expect([first?.stepId, last?.stepId]).toEqual(['draw-whey', 'drain']);
    expect(first?.litres?.p50).toBeCloseTo(forecast.needs.wheyDrawnL?.p50 ?? Number.NaN, 6);
    const both = (first?.litres?.p50 ?? 0) + (last?.litres?.p50 ?? 0);
    expect(both).toBeCloseTo(forecast.outcome.wheyL.p50, 1);
  });

  it('is sweet at first and good for whey curd, within two hours', () => {
    expect(first?.taste).toBe('sweet');
    expect(first?.isWashed).toBe(false);
    const curd = option(first, 'whey-curd');
    expect(curd.fits).toBe(true);
    expect(curd.withinMin).toBe(120);
    expect(curd.givesKg?.low).toBeGreaterThan(0.1);
  });

  it('is sourer and thinner when it drains, after the curd has rested in it', () => {
    expect(last?.pH?.p50).toBeLessThan(first?.pH?.p50 ?? 0);
    expect(last?.isWashed).toBe(true);
    expect(option(last, 'whey-curd').doubts).toContain('diluted');
  });

  it('is lost for whey curd once a meter has read it sour, or once it has stood for three hours', () => {
    const [read] = wheyLeft({ plan, forecast, readPH: new Map([['draw-whey', 5.4]]) });
    expect(option(read, 'whey-curd')).toMatchObject({ fits: false, doubts: ['too-sour'] });
    expect(option(read, 'brown-cheese').fits).toBe(false);
    const [stood] = wheyLeft({ plan, forecast, minutesSince: new Map([['draw-whey', 180]]) });
    expect(option(stood, 'whey-curd')).toMatchObject({ fits: false, doubts: ['too-late'] });
    expect(option(stood, 'kitchen').fits).toBe(true);
  });

  it('always has the drain left, as the last use', () => {
    expect(first?.options.at(-1)).toMatchObject({ use: 'drain', fits: true, withinMin: null });
  });

  it('stands in for a whey that the forecast does not follow by the curd', () => {
    const none = forecast.bands.wheyPH.p50.map(() => 0.2);
    const unfollowed = {
      ...forecast,
      bands: { ...forecast.bands, wheyPH: { p5: none, p25: none, p50: none, p75: none, p95: none } },
    };
    const [curds] = wheyLeft({ plan, forecast: unfollowed });
    expect(curds?.pH?.p50).toBeGreaterThan(6);
  });
});
