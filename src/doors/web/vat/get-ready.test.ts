import { describe, expect, it } from 'vitest';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import { openWriter } from '../../../exchange/written.ts';
import { iceWaterAdvice, MOST_ITEMS, pausesOf } from './get-ready.ts';
import { entriesOf } from './reading-entries.ts';
import { asSaid } from './said.ts';
import { ball, makes, say, telling, Walk } from '../../../../tests/walked-make.ts';

describe('getting ready', () => {
  it('asks for at most nine things at any pause of both cultured stretched makes, and names a figure where it knows one', () => {
    for (const json of makes) {
      const plan = planMake({
        make: parseMake(json),
        answers: { milk: { volumeL: 12 }, instruments: { pHMeter: true } },
      });
      const pauses = pausesOf({
        plan,
        forecast: simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 }),
        telling,
      });
      expect(pauses.map((pause) => pause.id)).toEqual(expect.arrayContaining(['milk', 'rennet', 'stretch']));
      for (const pause of pauses) {
        expect(pause.items.length, `${plan.make.id} ${pause.id}`).toBeLessThanOrEqual(MOST_ITEMS);
        expect(pause.items.every((item) => !item.text.includes(':vat') && !item.text.startsWith('vat:'))).toBe(true);
      }
      const pot = pauses.find((pause) => pause.id === 'stretch')?.items.find((item) => item.id === 'stretch.where');
      expect(pot?.figure).toMatch(/kg$/);
    }
  });

  it('puts each preparation where it is still right when it is needed', () => {
    const plan = planMake({ make: parseMake(ball), answers: { milk: { volumeL: 12 } } });
    const forecast = simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 });
    const holder = (id: string) => pausesOf({ plan, forecast, telling }).find((pause) => pause.items.some((item) => item.id === id))?.id; // prettier-ignore
    expect(holder('cool.ice')).toBe('evening');
    expect(holder('brine.brine')).toBe('evening');
    expect(holder('stretch.stretch-water')).toBe('stretch'); // asked for once more where it must stand ready
    expect(holder('rest-drained.test-water')).toBeUndefined(); // an hour before its time it would be cold again
  });

  it('makes ready what 19 makes in 20 need, the brine too', () => {
    const plan = planMake({ make: parseMake(ball), answers: { milk: { volumeL: 12 } } });
    const forecast = simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 });
    const items = pausesOf({ plan, forecast, telling }).flatMap((pause) => pause.items);
    const kg = Number.parseFloat(items.find((item) => item.id === 'brine.brine')?.figure ?? '');
    expect(kg).toBeGreaterThanOrEqual(forecast.needs.brineKg?.p95 ?? Infinity);
    expect(items.find((item) => item.id === 'stretch.stretch-water')?.figure).toMatch(/L$/);
  });

  it('says on the day of the make what to do now that the night for ice and brine is gone', () => {
    const plan = planMake({ make: parseMake(ball), answers: { milk: { volumeL: 12 } } });
    const forecast = simulate({ plan, history: NO_HISTORY, members: 40, seed: 1 });
    const evening = (nowAt: number) => pausesOf({ plan, forecast, nowAt, telling }).find((pause) => pause.id === 'evening'); // prettier-ignore
    const before = evening(telling.zeroAt - 13 * 3_600_000);
    expect([before?.title, before?.items.some((item) => item.caution !== null)]).toEqual(['The evening before', false]);
    const late = evening(telling.zeroAt);
    expect(late?.title).toBe('Meant for last evening');
    expect(late?.items.find((item) => item.id === 'cool.ice')?.caution).toContain('buy the ice');
    expect(late?.items.find((item) => item.id === 'brine.brine')?.caution).toContain('half as ice, weighed');
    const dumb = { ...plan, steps: plan.steps.map((step) => ({ ...step, prepare: step.prepare.map(({ ifLate: _untold, ...rest }) => rest) })) }; // prettier-ignore
    const told = pausesOf({ plan: dumb, forecast, nowAt: telling.zeroAt, telling })[0]?.items[0]?.caution;
    expect(told).toBe('Begin now, and reckon that it will not be ready in time.');
  });

  it('tells a reader of Fahrenheit the make’s own sentences in Fahrenheit', () => {
    const us = { ...telling, write: openWriter({ language: 'en-US', units: 'us', timeZone: 'UTC' }) };
    expect(asSaid('Stop at 42 °C, whatever water is left.', us)).toBe('Stop at 108\u00A0°F, whatever water is left.');
  });

  it('speaks eight words before hot water is lifted', () => {
    const spoken = say('vat:ready.stretch.words').split('“')[1]?.replaceAll(/[”.]/g, '') ?? '';
    expect(spoken.split(' ')).toHaveLength(8);
  });

  it('takes 1.4 °C in ice water off every later temperature', () => {
    expect(iceWaterAdvice({ readsC: 1.4, telling })?.text).toBe('Ice water reads 1.4 °C. The thermometer is 1.4 too high: take 1.4 off every reading.'); // prettier-ignore
    expect(iceWaterAdvice({ readsC: 0.1, telling })).toBeNull();
    const walk = new Walk({ pHMeter: false });
    walk.note([{ kind: 'prepared', body: { item: 'milk.thermometer', value: 1.4, unit: '°C' } }]);
    const [entry] = entriesOf({ reading: { quantity: 'temperatureC', sample: 'milk', value: 38.4, minutesAgo: 0, units: 'metric' }, step: null, record: walk.record }); // prettier-ignore
    expect(entry).toMatchObject({ kind: 'reading', body: { value: 37 } });
  });
});
