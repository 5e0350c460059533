import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { keepWarm, type HoldInput } from './hold.ts';
import { potForMilk } from './pot.ts';
import { constantLoss, type Keeping } from './vat.ts';
import { vatHeatCapacityKJPerK } from './vat-liquid.ts';

const ten: HoldInput = {
  pot: potForMilk({ milkL: 10 }),
  volumeL: 10,
  atC: 37,
  minutes: 180,
  roomC: 20,
  keeping: 'open',
};

describe('keeping warm', () => {
  it('holds better from open to oven', () => {
    const ends = (['open', 'lid', 'towels'] as Keeping[]).map((keeping) => keepWarm({ ...ten, keeping }).endC);
    expect(ends).toEqual([...ends].sort((a, b) => a - b));
    expect(keepWarm({ ...ten, keeping: 'oven' }).endC).toBeGreaterThan(keepWarm({ ...ten, keeping: 'towels' }).endC);
  });

  it('follows the exact fall when the loss is constant', () => {
    const heat = 1000 * vatHeatCapacityKJPerK({ liquid: 'milk', volumeL: 10, temperatureC: 37, pot: ten.pot });
    const exact = 20 + 17 * Math.exp((-2 * 180 * 60) / heat);
    expect(keepWarm({ ...ten, loss: constantLoss(2) }).endC).toBeCloseTo(exact, 3);
  });

  it('falls faster in a small pot and a cold room, and tells when a kelvin is gone', () => {
    const small = keepWarm({ ...ten, pot: potForMilk({ milkL: 2 }), volumeL: 2 });
    expect(small.endC).toBeLessThan(keepWarm(ten).endC);
    expect(small.oneKelvinDownMin).toBeLessThan(keepWarm(ten).oneKelvinDownMin ?? 0);
    expect(keepWarm({ ...ten, roomC: 14 }).endC).toBeLessThan(keepWarm(ten).endC);
    expect(keepWarm({ ...ten, minutes: 5 }).oneKelvinDownMin).toBeNull();
  });

  it('in a sink stays near it as long as hot water is added, and needs more of it in a cold room', () => {
    const sink = keepWarm({ ...ten, keeping: 'sink', sinkC: 38 });
    expect(sink.endC).toBeGreaterThan(36);
    expect(sink.topUps.length).toBeGreaterThan(3);
    const used = (hold: typeof sink): number => hold.topUps.reduce((sum, topUp) => sum + topUp.waterL, 0);
    expect(used(keepWarm({ ...ten, keeping: 'sink', sinkC: 38, roomC: 12 }))).toBeGreaterThan(used(sink));
  });

  it('draws a curve from the first minute to the last', () => {
    const { curve, endC } = keepWarm({ ...ten, minutes: 62 });
    expect(curve[0]).toEqual({ minute: 0, temperatureC: 37, sinkC: null });
    expect(curve.at(-1)?.minute).toBeCloseTo(62, 9);
    expect(curve.at(-1)?.temperatureC).toBe(endC);
    expect(keepWarm({ ...ten, minutes: 0 }).endC).toBe(37);
  });

  it('refuses what is no milk', () => {
    expect(() => keepWarm({ ...ten, volumeL: 0 })).toThrow(InputError);
    expect(() => keepWarm({ ...ten, atC: 120 })).toThrow(/atC 120 °C/);
  });
});
