import { describe, expect, it } from 'vitest';
import { planFor } from '../../../../tests/makes.ts';
import { plain, reader } from '../../../../tests/spoken.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { wheyViews } from './whey-view.ts';

const telling = reader('whey');
const plan = planFor();
const forecast = simulate({ plan, members: 60 });
const zeroAt = Date.UTC(2026, 10, 30, 9, 0);
const views = wheyViews({ plan, forecast, zeroAt, ...telling });

describe('the whey in words', () => {
  it('tells the sweet one from the later one, and by when whey curd must be begun', () => {
    expect(views).toHaveLength(2);
    expect(plain(views[0]?.title ?? '')).toMatch(/^After “Draw off whey”: about 3\.\d L\. Sweet, about pH 6\.\d/);
    expect(views[0]?.fitting[0]?.text).toMatch(/^Whey curd: .+ Begin by \d\d:\d\d\. Gives /);
    expect(views[1]?.title).toContain('the wash water in it');
  });

  it('offers a second make from whey that makes one, at the time it is off', () => {
    const { second } = views[0] ?? {};
    expect(second?.litres).toBeCloseTo(forecast.needs.wheyDrawnL?.p50 ?? Number.NaN, 1);
    expect(second?.at).toBeGreaterThan(zeroAt);
  });

  it('says why it is not good for the rest', () => {
    for (const { others } of views) for (const { text } of others) expect(text).toMatch(/^Not for .+: .+\.$/);
    for (const { fitting } of views) expect(fitting.at(-1)?.id).toBe('drain');
  });
});
