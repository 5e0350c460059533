/** Our own special functions, roots and steps beside general numerical libraries. */
import * as cephes from 'cephes';
import fc from 'fast-check';
import { erf as mathjsErf, polynomialRoot } from 'mathjs';
import { Solver } from 'odex';
import { beforeAll, describe, expect, it } from 'vitest';
import { normalQuantile } from '../../src/numbers/normal.ts';
import { rk4Step, rk4Work } from '../../src/numbers/ode.ts';
import { rootBetween } from '../../src/numbers/roots.ts';
import { besselJ0, besselJ1, erf, erfc, erfcScaled } from '../../src/numbers/special.ts';
import { acidParameters, ripenKernel } from '../../src/science/acidification-make.ts';
import { ACID_STATE, ACID_STATE_SIZE, acidRatesPerHour } from '../../src/science/acidification.ts';
import { startAcid } from '../../src/science/acidification-events.ts';
import { bufferTable } from '../../src/science/buffer.ts';
import { CULTURES } from '../../src/science/culture.ts';
import { heatUpMin } from '../../src/science/heater.ts';
import { keepWarm } from '../../src/science/hold.ts';
import { milkComposition } from '../../src/science/milk.ts';
import { potForMilk } from '../../src/science/pot.ts';
import { saltTakenKernel } from '../../src/science/salting.ts';
import { constantLoss, lossAt, lossCurve } from '../../src/science/vat.ts';
import { vatHeatCapacityKJPerK } from '../../src/science/vat-liquid.ts';

const SEED = { seed: 20261125 };
const solved = (of: {
  derivative: (t: number, y: number[]) => number[];
  start: number[];
  to: number;
}): readonly number[] => {
  const solver = new Solver(of.start.length);
  solver.relativeTolerance = 1e-10;
  solver.absoluteTolerance = 1e-10;
  return solver.solve(of.derivative, 0, of.start, of.to).y;
};

beforeAll(async () => {
  await cephes.compiled;
});

describe('special functions beside a library', () => {
  it('Bessel functions agree from 0 to 200', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (x) => {
        expect(Math.abs(besselJ0(x) - cephes.j0(x))).toBeLessThan(2e-13);
        expect(Math.abs(besselJ1(x) - cephes.j1(x))).toBeLessThan(2e-13);
      }),
      { ...SEED, numRuns: 2000 },
    );
  });

  it('the error function agrees with two libraries, its complement far out to ten digits', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 26, noNaN: true }), (x) => {
        expect(Math.abs(erf(x) - cephes.erf(x))).toBeLessThan(1e-14);
        expect(Math.abs(erf(x) - mathjsErf(x))).toBeLessThan(1e-14);
        expect(Math.abs(erfc(x) / cephes.erfc(x) - 1)).toBeLessThan(1e-10);
        if (x < 20) expect(Math.abs(erfcScaled(x) / (Math.exp(x * x) * cephes.erfc(x)) - 1)).toBeLessThan(1e-10);
      }),
      { ...SEED, numRuns: 2000 },
    );
  });

  it('normal quantiles agree', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (p) => {
        expect(Math.abs(normalQuantile(p) - cephes.ndtri(p))).toBeLessThan(1e-7);
      }),
      { ...SEED, numRuns: 1000 },
    );
  });
});

describe('roots beside a library', () => {
  it('the only real root of a rising cubic is the one found in closed form', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (constant, slope, cube) => {
          const f = (x: number): number => constant + slope * x + cube * x ** 3;
          const ours = rootBetween({ f, low: -1000, high: 1000 });
          const theirs = polynomialRoot(constant, slope, 0, cube).map((each) => {
            const { re, im } = typeof each === 'number' ? { re: each, im: 0 } : (each as { re: number; im: number });
            return Math.hypot(re - ours, im);
          });
          expect(Math.min(...theirs)).toBeLessThan(1e-7);
        },
      ),
      { ...SEED, numRuns: 500 },
    );
  });
});

describe('steps in time beside a library', () => {
  it('a predator and its prey go round together', () => {
    const rates = (y: ArrayLike<number>): number[] => {
      const [a = 0, b = 0] = [y[0], y[1]];
      return [a * (1.1 - 0.4 * b), b * (0.1 * a - 0.4)];
    };
    const state = Float64Array.of(10, 5);
    const work = rk4Work(2);
    for (let i = 0; i < 2000; i++) {
      rk4Step({ state, rates: (y, out) => out.set(rates(y)), width: 0.01, work });
    }
    const theirs = solved({ derivative: (_, y) => rates(y), start: [10, 5], to: 20 });
    expect(Math.abs((state[0] ?? 0) - (theirs[0] ?? 0))).toBeLessThan(1e-5);
    expect(Math.abs((state[1] ?? 0) - (theirs[1] ?? 0))).toBeLessThan(1e-5);
  });

  it('milk sours as the library has it', () => {
    const milk = milkComposition({ species: 'cow' });
    const culture = CULTURES.thermophilic;
    const start = { cellsPerL: 5e9, lagWork: 1.2, pH: 6.62, lactoseMM: milk.lactoseMM };
    const make = { minutes: 360, temperatureProfile: [{ minute: 0, temperatureC: 40 }] };
    const curve = ripenKernel({ make, composition: milk, culture, cellsPerL: 5e9, lagWork: 1.2, startPH: 6.62 });
    const parameters = acidParameters({ culture, buffer: bufferTable(milk), startPH: 6.62 });
    const state = new Float64Array(ACID_STATE_SIZE);
    startAcid(state, start);
    const derivative = new Float64Array(ACID_STATE_SIZE);
    const conditions = { temperatureC: 40, curdSerumL: 1, wheyL: 0, phase: 'milk' as const, saltFactor: 1 };
    const solver = new Solver(ACID_STATE_SIZE);
    // The buffer is a table: tighter tolerances would only chase its kinks.
    solver.relativeTolerance = 1e-7;
    solver.absoluteTolerance = 1e-7;
    const theirs = solver.solve(
      (_, y) => {
        acidRatesPerHour(Float64Array.from(y), derivative, parameters, conditions);
        return Array.from(derivative);
      },
      0,
      Array.from(state),
      6,
    ).y;
    expect(curve.pH.at(-1)).toBeLessThan(5.6);
    expect(Math.abs((curve.pH.at(-1) ?? 0) - (theirs[ACID_STATE.curdPH] ?? 0))).toBeLessThan(0.002);
  });

  it('a pot warms as long as the library says', () => {
    const pot = potForMilk({ milkL: 10 });
    const loss = lossCurve({ pot, volumeL: 10, roomC: 18, keeping: 'open' });
    const heatCapacityKJPerK = vatHeatCapacityKJPerK({ liquid: 'milk', volumeL: 10, temperatureC: 45, pot });
    const minutes = heatUpMin({ fromC: 6, toC: 85, roomC: 18, heatCapacityKJPerK, heaterW: 1800, loss });
    const [theirs] = solved({
      derivative: (_, [t = 0]) => [((1800 - lossAt(loss, t) * (t - 18)) * 0.06) / heatCapacityKJPerK],
      start: [6],
      to: minutes,
    });
    expect(theirs).toBeCloseTo(85, 1);
  });

  it('a pot kept warm cools as the library says', () => {
    const pot = potForMilk({ milkL: 8 });
    const loss = lossCurve({ pot, volumeL: 8, roomC: 19, keeping: 'open' });
    const heatCapacityKJPerK = vatHeatCapacityKJPerK({ liquid: 'milk', volumeL: 8, temperatureC: 60, pot });
    const { endC } = keepWarm({ pot, volumeL: 8, atC: 60, minutes: 240, roomC: 19, keeping: 'open' });
    const [theirs] = solved({
      derivative: (_, [t = 0]) => [(-lossAt(loss, t) * (t - 19) * 0.06) / heatCapacityKJPerK],
      start: [60],
      to: 240,
    });
    expect(Math.abs(endC - (theirs ?? 0))).toBeLessThan(0.005);
    const plain = keepWarm({
      pot,
      volumeL: 8,
      atC: 60,
      minutes: 240,
      roomC: 19,
      keeping: 'open',
      loss: constantLoss(4),
    });
    expect(plain.endC).toBeCloseTo(19 + 41 * Math.exp((-4 * 240 * 0.06) / heatCapacityKJPerK), 6);
  });
});

describe('room for salt where water has left', () => {
  it('is the integral of erfc/(1 + u erfc) over that of erfc, to 0.05 %', () => {
    const integral = (f: (x: number) => number): number => {
      const n = 4000;
      let sum = 0;
      for (let i = 0; i <= n; i++) sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * f((8 * i) / n);
      return (sum * 8) / n / 3;
    };
    for (const u of [0, 0.1, 0.3, 0.7, 1.3, 2]) {
      const g = integral((x) => cephes.erfc(x) / (1 + u * cephes.erfc(x))) / integral((x) => cephes.erfc(x));
      const e = 1e-9; // a first breath of salt: only the shell counts
      const ours =
        saltTakenKernel({ uptakeFraction: e, moistureFraction: 1, saltPerWater: 0.2, waterPerSalt: 5 * u }) / (0.2 * e);
      expect(Math.abs(ours / g - 1), `u ${u}`).toBeLessThan(6e-4);
    }
  });
});
