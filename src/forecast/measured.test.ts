import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import type { Forecast, StepForecast } from './forecast.ts';
import { simulate } from './simulate.ts';

/** What measuring without a pH meter tells: titration, whey in a bucket, salt and cheese on a scale, room and water. */
type Reading = History['readings'][number];
const plan = planFor();
const forecast = (history: History, members = 300): Forecast => simulate({ plan, history, members });
const read = (
  quantity: Reading['quantity'],
  at: { value: number; sample: Reading['sample']; elapsedMin: number },
): Reading => ({ quantity, ...at });
const endOf = (from: Forecast, id: string): StepForecast['endMin'] => {
  const found = from.steps.find((step) => step.stepId === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found.endMin;
};
const width = (spread: { p5: number; p95: number }): number => spread.p95 - spread.p5;

const ripening = (readings: Reading[]): History =>
  underWay({ nowMin: 125, ended: [['warm', 30], ['add-culture', 34]], running: 'ripen', readings }); // prettier-ignore
const resting = (readings: Reading[]): History =>
  underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey', readings });
const drained = (readings: Reading[]): History =>
  underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained', readings });
const packed = (readings: Reading[]): History =>
  underWay({ nowMin: 420, ended: [...TO_DRAINED_REST, ['rest-drained', 330], ['stretch', 345], ['form', 355], ['cool', 370], ['brine', 400]], running: 'pack', readings }); // prettier-ignore

describe('a titration', () => {
  const milk = (value: number, elapsedMin = 120): Reading =>
    read('titratableAcidityD', { value, sample: 'milk', elapsedMin });

  it('that has risen from the fresh milk brings readiness forward; one that has not puts it off', () => {
    const risen = endOf(forecast(ripening([milk(17, 33), milk(20)]), 500), 'rest-drained');
    const still = endOf(forecast(ripening([milk(17, 33), milk(17)]), 500), 'rest-drained');
    expect(risen.p50).toBeLessThan(still.p50 - 5);
    expect(width(risen)).toBeLessThan(0.85 * width(endOf(forecast(ripening([]), 500), 'rest-drained')));
  });

  it('says more of the culture when the fresh milk was titrated too', () => {
    const alone = endOf(forecast(ripening([milk(20)])), 'rest-drained');
    const both = endOf(forecast(ripening([milk(17, 33), milk(20)])), 'rest-drained');
    expect(width(both)).toBeLessThan(width(alone));
  });

  it('of sour whey brings readiness forward, and of the serum of drained curd moves little', () => {
    const whey = (value: number): Reading => read('titratableAcidityD', { value, sample: 'whey', elapsedMin: 195 });
    expect(endOf(forecast(resting([whey(11)])), 'rest-drained').p50).toBeLessThan(
      endOf(forecast(resting([whey(8)])), 'rest-drained').p50 - 5,
    );
    const serum = read('titratableAcidityD', { value: 25, sample: 'whey', elapsedMin: 260 });
    const meter = read('pH', { value: 5.55, sample: 'curd', elapsedMin: 260 });
    const [unread, byBurette, byMeter] = [[], [serum], [meter]].map((readings) =>
      width(endOf(forecast(drained(readings)), 'rest-drained')),
    );
    expect(byBurette).toBeLessThan(unread ?? 0);
    expect(byBurette).toBeGreaterThan(byMeter ?? Number.NaN);
  });

  it('with a slip of the finger (99 °D) is asked about and changes nothing', () => {
    const slip = forecast(ripening([milk(99)]));
    expect(slip.surprises.map((one) => one.quantity)).toEqual(['titratableAcidityD']);
    expect(endOf(slip, 'rest-drained').p50).toBeCloseTo(endOf(forecast(ripening([])), 'rest-drained').p50, 0);
  });
});

describe('whey in a bucket', () => {
  it('that was drawn is what is drawn: two litres leave room for two litres of water', () => {
    const two = forecast(resting([read('wheyL', { value: 2, sample: 'whey', elapsedMin: 167 })]));
    expect(two.needs.wheyDrawnL?.p50).toBeCloseTo(2, 6);
    expect(two.needs.washWaterL?.p95).toBeLessThanOrEqual(2.0001);
    expect(forecast(resting([])).needs.wheyDrawnL?.p50).toBeCloseTo(3.6, 6);
    expect(two.surprises).toEqual([]);
  });

  it('can be no more than stands free: a great deal of it says that the curd has let go of much', () => {
    const much = forecast(resting([read('wheyL', { value: 8.4, sample: 'whey', elapsedMin: 167 })]));
    expect(much.outcome.curdKg.p50).toBeLessThan(forecast(resting([])).outcome.curdKg.p50);
    expect(much.surprises.map((one) => one.quantity)).toEqual(['wheyL']);
  });

  it('that ran off in draining says how much curd there is: less whey, more and wetter curd', () => {
    const ran = (value: number): Forecast =>
      forecast(drained([read('wheyL', { value, sample: 'whey', elapsedMin: 241 })]));
    const little = ran(9);
    const much = ran(10.6);
    expect(little.outcome.curdKg.p50).toBeGreaterThan(much.outcome.curdKg.p50 + 0.1);
    expect(little.outcome.moisturePercent.p50).toBeGreaterThan(much.outcome.moisturePercent.p50);
    expect(width(little.outcome.curdKg)).toBeLessThan(width(forecast(drained([])).outcome.curdKg));
  });
});

describe('a scale', () => {
  it('gives the cheese the weight it has, and a light cheese for a dry one', () => {
    const weighed = forecast(packed([read('massKg', { value: 1.65, sample: 'cheese', elapsedMin: 410 })]));
    expect(weighed.outcome.cheeseKg.p50).toBeCloseTo(1.65, 6);
    expect(width(weighed.outcome.cheeseKg)).toBeLessThan(0.01);
    expect(weighed.outcome.moisturePercent.p50).toBeLessThan(forecast(packed([])).outcome.moisturePercent.p50);
  });

  it('gives the salt that the cheese took up in the brine, and adds what was mixed into the curd', () => {
    const taken = forecast(packed([read('saltG', { value: 18, sample: 'cheese', elapsedMin: 402 })]));
    const saltG = taken.outcome.saltPercent.p50 * taken.outcome.cheeseKg.p50 * 10;
    expect(saltG).toBeGreaterThan(16);
    expect(saltG).toBeLessThan(20);
    const unsalted = forecast(packed([])).outcome.saltPercent;
    expect(taken.outcome.saltPercent.p95 - taken.outcome.saltPercent.p5).toBeLessThan(width(unsalted));
    // 20 g in some 1.8 kg, half of it kept.
    const mixed = forecast(packed([read('saltG', { value: 20, sample: 'curd', elapsedMin: 329 })])).outcome.saltPercent;
    expect(mixed.p50 - unsalted.p50).toBeGreaterThan(0.4);
    expect(mixed.p50 - unsalted.p50).toBeLessThan(0.7);
  });

  it('says nothing of the cheese by the salt that went into the brine', () => {
    const brine = forecast(packed([read('saltG', { value: 900, sample: 'brine', elapsedMin: 372 })]));
    expect(brine.outcome.saltPercent).toEqual(forecast(packed([])).outcome.saltPercent);
  });
});

describe('a thermometer', () => {
  const warm = (value: number, at: { sample: Reading['sample']; elapsedMin: number }): Reading =>
    read('temperatureC', { value, ...at });

  it('in a cold room foresees a vat that cools faster than in a warm one', () => {
    const vatC = (roomC: number): number => {
      const { bands, gridMin } = forecast(ripening([warm(roomC, { sample: 'room', elapsedMin: 35 })]));
      // At the end of the gel, which nobody warms.
      return bands.temperatureC.p50[gridMin.indexOf(160)] ?? Number.NaN;
    };
    expect(vatC(26)).toBeGreaterThan(vatC(12) + 0.3);
  });

  it('in brine, bath or room never says that the vat is that cold', () => {
    const nothing = forecast(resting([]));
    const now = nothing.gridMin.indexOf(200);
    for (const sample of ['brine', 'water', 'room', 'cheese'] as const) {
      const read = forecast(resting([warm(10, { sample, elapsedMin: 195 })]));
      expect(Math.abs((read.bands.temperatureC.p50[now] ?? 0) - (nothing.bands.temperatureC.p50[now] ?? 0)), sample).toBeLessThan(0.7); // prettier-ignore
      expect(read.needs.washWaterL?.p5, sample).toBeGreaterThan(1.5);
    }
  });

  it('in the stretching water asks for more of it where it is cooler than planned', () => {
    const hot = (readings: Reading[]): number => forecast(packed(readings)).needs.stretchWaterKg?.p50 ?? Number.NaN;
    const cooler = hot([warm(72, { sample: 'water', elapsedMin: 331 })]);
    expect(cooler).toBeGreaterThan(hot([]) * 1.2);
    // While it is still being heated it says nothing of what will be poured.
    expect(hot([warm(72, { sample: 'water', elapsedMin: 300 })])).toBeCloseTo(hot([]), 6);
  });

  it('in the wash water pours more of cooler water, up to the line', () => {
    const washed = (readings: Reading[]): number => forecast(resting(readings)).needs.washWaterL?.p50 ?? Number.NaN;
    expect(washed([warm(54, { sample: 'water', elapsedMin: 170 })])).toBeGreaterThan(washed([]) + 0.3);
  });

  it('tested in ice and water is trusted more from then on', () => {
    const spread = (readings: Reading[]): number => {
      const { bands, gridMin } = forecast(ripening(readings));
      const at = gridMin.indexOf(35);
      return (bands.temperatureC.p95[at] ?? 0) - (bands.temperatureC.p5[at] ?? 0);
    };
    expect(spread([read('iceWaterC', { value: 0.2, sample: 'water', elapsedMin: -20 })])).toBeLessThan(
      0.8 * spread([]),
    );
  });
});
