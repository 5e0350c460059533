/** What must come out where nothing is done, no time passes, or time and bath have no end. */
import { describe, expect, it } from 'vitest';
import { ask } from '../ask.ts';
import { expectRising } from './runs.ts';

describe('at the limits', () => {
  it('no dose does nothing', () => {
    const milk = { species: 'cow', pH: 6.6 };
    expect(ask('acid', { milk, acid: 'citric', gPerL: 0 })['pH']).toBeCloseTo(6.6, 9);
    expect(ask('acid', { milk, acid: 'lactic', targetPH: 6.6 })['gPerL']).toBeCloseTo(0, 9);
    expect(ask('calcium', { milkL: 10, solutionPercent: 33, gPerL: 0 })).toMatchObject({ mL: 0, addedMM: 0 });
    expect(ask('dry-salt', { curdKg: 2, curdMoisturePercent: 45, targetSaltPercent: 0 })['saltG']).toBeCloseTo(0, 9);
    const still = { vatL: 10, vatC: 37, drawL: 0, waterC: 60, addL: 0, minutes: 0 };
    expect(ask('wash', still)).toMatchObject({ finalC: 37, lactoseLeftFraction: 1 });
  });

  it('no time changes nothing', () => {
    expect(ask('hold', { volumeL: 10, atC: 37, minutes: 0, roomC: 20, how: 'open' })['endC']).toBe(37);
    const ball = { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, minutes: 0 };
    expect(ask('cool', ball)).toMatchObject({ coreC: 58, meanC: 58 });
  });

  it('in an endless bath everything comes to the bath', () => {
    const long = ask('cool', { shape: 'brick', mm: [100, 80, 50], fromC: 58, bathC: 2, minutes: 50_000 });
    for (const place of ['coreC', 'meanC', 'surfaceC']) expect(long[place]).toBeCloseTo(2, 6);
    const brine = { shape: 'sphere', mm: [30], moisturePercent: 57, brinePercent: 12, temperatureC: 15, hours: 5000 };
    expect(ask('brine-time', brine)['saltInMoisturePercent']).toBeCloseTo((100 * 12) / 88, 2);
    const open = ask('hold', { volumeL: 1, atC: 60, minutes: 2880, roomC: 20, how: 'open' });
    expect(open['endC']).toBeCloseTo(20, 0);
  });

  it('a small bath comes to meet the cheese, a large one does not', () => {
    const after = (brineKg: number): number =>
      ask('brine-time', {
        shape: 'sphere', mm: [61], moisturePercent: 57, brinePercent: 18, temperatureC: 10, hours: 24, brineKg,
      })['brinePercentAfter'] ?? 0; // prettier-ignore
    expectRising([after(0.2), after(1), after(10), after(1000)]);
    expect(after(100_000)).toBeCloseTo(18, 3);
  });
});
