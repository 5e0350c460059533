/**
 * Two tables of the design, worked out once by another program of our own (no source): they guard the code against change
 * and stand apart from the published values, which nobody here wrote.
 */
import { describe, expect, it } from 'vitest';
import { ballDiameterMm, type Body } from '../../src/science/body.ts';
import { minutesToCore } from '../../src/science/cooling.ts';
import { stretchWaterKg } from '../../src/science/stretching-water.ts';

const thermal = {
  densityKgPerM3: 1050,
  specificHeatKJPerKgK: 3.1,
  conductivityWPerMK: 1.15e-7 * 1050 * 3100,
  diffusivityM2PerS: 1.15e-7,
};
const ball = (grams: number): Body => ({ shape: 'sphere', mm: [ballDiameterMm(grams / 1000 / 1050)] });
const minutes = (body: Body, targetCoreC: number, place: 'core' | 'mean' = 'core', fromC = 58): number =>
  minutesToCore({ body, fromC, bathC: 1, hWPerM2K: 250, thermal, targetCoreC, place });

/** Grams; minutes to a core of 40, 20 and 10 °C, and to a mean of 20 and 10 °C; from 58 °C in 1 °C, 250 W/(m2 K). */
const COOLING = [
  [30, 6, 11, 16, 5, 10],
  [60, 10, 17, 24, 7, 14],
  [125, 15, 27, 38, 11, 22],
  [200, 21, 36, 52, 15, 30],
  [250, 24, 42, 60, 17, 34],
  [500, 38, 66, 93, 26, 53],
  [1000, 59, 103, 146, 40, 82],
] as const;
const PRINTED_TO_MIN = 0.75;

describe('balls in iced water', () => {
  it.each(COOLING)('of %i g cool as in the table', (grams, core40, core20, core10, mean20, mean10) => {
    const ours = [
      minutes(ball(grams), 40),
      minutes(ball(grams), 20),
      minutes(ball(grams), 10),
      minutes(ball(grams), 20, 'mean'),
      minutes(ball(grams), 10, 'mean'),
    ];
    for (const [index, table] of [core40, core20, core10, mean20, mean10].entries()) {
      expect(Math.abs((ours[index] ?? Number.NaN) - table)).toBeLessThan(PRINTED_TO_MIN);
    }
  });

  it('take two thirds of the power of their mass', () => {
    const slope = Math.log(minutes(ball(1000), 10) / minutes(ball(30), 10)) / Math.log(1000 / 30);
    expect(slope).toBeGreaterThan(0.6);
    expect(slope).toBeLessThan(0.68);
  });
});

describe('other shapes in iced water', () => {
  const brick: Body = { shape: 'brick', mm: [100, 80, 48] };
  const disc: Body = { shape: 'cylinder', mm: [120, 85] };
  it.each([
    ['a brick of 400 g to a core of 20 °C', () => minutes(brick, 20, 'core', 55), 40],
    ['a brick of 400 g to a core of 10 °C', () => minutes(brick, 10, 'core', 55), 59],
    ['a disc of 1 kg to a core of 20 °C', () => minutes(disc, 20), 90],
    ['a disc of 1 kg to a core of 10 °C', () => minutes(disc, 10), 129],
  ] as const)('%s: within 5 %% of the table, whose sizes are rounded', (_, ours, table) => {
    expect(Math.abs(ours() / table - 1)).toBeLessThan(0.05);
  });
});

/** Curd, water and target [°C]; kg of water for each kg of curd, without losses. */
const STRETCHING = [
  [30, 75, 55, 0.92],
  [30, 75, 58, 1.22],
  [30, 75, 60, 1.48],
  [30, 75, 62, 1.82],
  [30, 75, 65, 2.58],
  [30, 80, 55, 0.74],
  [30, 80, 58, 0.94],
  [30, 80, 60, 1.11],
  [30, 80, 62, 1.31],
  [30, 80, 65, 1.72],
  [35, 85, 55, 0.49],
  [35, 85, 58, 0.63],
  [35, 85, 60, 0.74],
  [35, 85, 62, 0.87],
  [35, 85, 65, 1.11],
] as const;

describe('water for stretching', () => {
  it.each(STRETCHING)('curd at %i °C, water at %i °C, to %i °C: %f kg a kg', (curdC, waterC, targetC, table) => {
    const ours = stretchWaterKg({ curdKg: 1, curdC, waterC, targetC, curdKJPerKgK: 3.09 });
    expect(Math.abs(ours - table)).toBeLessThan(0.011);
  });
});
