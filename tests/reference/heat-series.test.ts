/** The series of the house beside finite volumes, which share nothing with them but the physics. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bodyFractions, bodyTerms } from '../../src/science/body.ts';
import { bowlCourse } from '../../src/science/stretching-bowl.ts';
import { cheeseThermal } from '../../src/science/cheese-thermal.ts';
import { equaliseDays } from '../../src/science/brine-bath.ts';
import { saltDiffusivityM2PerS, saltingTerms, saltUptakeFraction } from '../../src/science/salting.ts';
import { transientCentreFraction, transientMeanFraction, type SeriesShape } from '../../src/science/series.ts';
import { constantLoss } from '../../src/science/vat.ts';
import { cooledByVolumes, meanOf, shellsOf, stepShells, type Curvature } from './finite-volume.ts';

const SHAPES: readonly (readonly [SeriesShape, Curvature])[] = [
  ['slab', 0],
  ['cylinder', 1],
  ['sphere', 2],
];

describe('a cooling body by series and by finite volumes', () => {
  it.each(SHAPES)('agree for a %s from weak to perfect contact, early and late', (shape, curvature) => {
    for (const biot of [0.05, 0.5, 3, 30, Infinity]) {
      for (const fourier of [0.002, 0.02, 0.1, 0.4, 1.5]) {
        const volumes = cooledByVolumes({ curvature, biot, fourier });
        const at = `${shape}, Bi ${biot}, Fo ${fourier}`;
        expect(Math.abs(transientMeanFraction({ shape, biot, fourier }) - volumes.mean), at).toBeLessThan(4e-4);
        expect(Math.abs(transientCentreFraction({ shape, biot, fourier }) - volumes.centre), at).toBeLessThan(4e-4);
      }
    }
  });

  it('agree at any contact and any time', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SHAPES),
        fc.double({ min: -3, max: 5, noNaN: true }),
        fc.double({ min: -7, max: 1, noNaN: true }),
        ([shape, curvature], lnBiot, lnFourier) => {
          const of = { biot: Math.exp(lnBiot), fourier: Math.exp(lnFourier) };
          const volumes = cooledByVolumes({ curvature, ...of, cells: 300 });
          expect(Math.abs(transientMeanFraction({ shape, ...of }) - volumes.mean)).toBeLessThan(1e-3);
          expect(Math.abs(transientCentreFraction({ shape, ...of }) - volumes.centre)).toBeLessThan(1e-3);
        },
      ),
      { seed: 20261125, numRuns: 25 },
    );
  });
});

/** A wheel on a grid of rings and layers, upper half, explicit steps: no product rule. */
function wheelByRings(of: {
  radiusM: number;
  heightM: number;
  perM: number;
  diffusivityM2PerS: number;
  seconds: number;
}) {
  const n = 40;
  const ring = of.radiusM / n;
  const layer = of.heightM / 2 / n;
  const share = Array.from({ length: n }, () => new Float64Array(n).fill(1));
  const stepS = 0.2 / (of.diffusivityM2PerS * (1 / ring ** 2 + 1 / layer ** 2));
  const steps = Math.ceil(of.seconds / stepS);
  const dt = of.seconds / steps;
  for (let s = 0; s < steps; s++) {
    const before = share.map((column) => column.slice());
    for (let i = 0; i < n; i++) {
      const volume = ((i + 1) ** 2 - i ** 2) * ring ** 2 * layer; // over pi
      for (let j = 0; j < n; j++) {
        const here = before[i]?.[j] ?? 0;
        const inward = i === 0 ? 0 : ((2 * i * ring * layer) / ring) * ((before[i - 1]?.[j] ?? 0) - here);
        const rim = 2 * (i + 1) * ring * layer;
        const outward =
          i === n - 1 ? (-rim * here) / (ring / 2 + 1 / of.perM) : (rim / ring) * ((before[i + 1]?.[j] ?? 0) - here);
        const face = ((i + 1) ** 2 - i ** 2) * ring ** 2;
        const below = j === 0 ? 0 : (face / layer) * ((before[i]?.[j - 1] ?? 0) - here);
        const above =
          j === n - 1
            ? (-face * here) / (layer / 2 + 1 / of.perM)
            : (face / layer) * ((before[i]?.[j + 1] ?? 0) - here);
        (share[i] ?? before)[j] = here + ((inward + outward + below + above) * of.diffusivityM2PerS * dt) / volume;
      }
    }
  }
  let sum = 0;
  share.forEach((column, i) => column.forEach((each) => (sum += each * ((i + 1) ** 2 - i ** 2))));
  return { mean: sum / n ** 3, centre: share[0]?.[0] ?? 0 };
}

describe('a wheel as the product of a slab and a cylinder', () => {
  it('cools as it does ring by ring and layer by layer', () => {
    const of = { radiusM: 0.05, heightM: 0.06, perM: 600, diffusivityM2PerS: 1.2e-7 };
    const prepared = bodyTerms({ body: { shape: 'cylinder', mm: [100, 60] }, surfacePerM: of.perM });
    for (const seconds of [600, 1800, 3600]) {
      const rings = wheelByRings({ ...of, seconds });
      const left = bodyFractions({ prepared, diffusivityM2PerS: of.diffusivityM2PerS, seconds });
      expect(Math.abs(left.mean - rings.mean)).toBeLessThan(3e-3);
      expect(Math.abs(left.centre - rings.centre)).toBeLessThan(3e-3);
    }
  });
});

describe('slices of curd in a bowl that cools', () => {
  it('take heat from the bath as finite volumes do', () => {
    const thermal = cheeseThermal({ moisturePercent: 50, temperatureC: 50 });
    const [curdKg, curdC, waterKg, waterC, roomC, lossWPerK, pieceMm] = [1, 34, 1.2, 85, 20, 6, 20];
    const course = bowlCourse({
      curdKg, curdC, thermal, pieceMm, pieceShape: 'sheet', waterKg, waterC, roomC, loss: constantLoss(lossWPerK),
    }); // prettier-ignore
    const halfM = pieceMm / 2000;
    const cells = 150;
    const shells = shellsOf({ curvature: 0, biot: (400 * halfM) / thermal.conductivityWPerMK, cells });
    const sliceC = new Float64Array(cells).fill(curdC);
    const curdKJPerK = curdKg * thermal.specificHeatKJPerKgK;
    const bathKJPerK = waterKg * 4.18;
    const dt = 0.25;
    let bathC = waterC;
    let minute = 0;
    for (const point of course) {
      while (minute < point.minute - 1e-9) {
        const before = meanOf(shells, sliceC);
        const fourierStep = (thermal.diffusivityM2PerS * dt) / halfM ** 2;
        stepShells({ shells, share: sliceC, bath: bathC, fourierStep, theta: 1 });
        bathC -= (curdKJPerK * (meanOf(shells, sliceC) - before)) / bathKJPerK;
        bathC -= (lossWPerK * (bathC - roomC) * dt) / 1000 / bathKJPerK;
        minute += dt / 60;
      }
      expect(Math.abs(point.waterC - bathC), `water at ${point.minute} min`).toBeLessThan(0.3);
      expect(Math.abs(point.meanC - meanOf(shells, sliceC)), `curd at ${point.minute} min`).toBeLessThan(0.3);
      if (point.minute > 1) expect(Math.abs(point.coreC - (sliceC[0] ?? 0)), `core`).toBeLessThan(0.3);
    }
  });
});

describe('salt on its way in', () => {
  it.each([
    ['sphere', [60], 0],
    ['sphere', [60], 1],
    ['sphere', [120], 2],
  ] as const)('goes into a %s of %j mm behind %f mm of rind as finite volumes have it', (shape, mm, skinMm) => {
    const prepared = saltingTerms({ body: { shape, mm }, skinMm });
    const diffusivityM2PerS = saltDiffusivityM2PerS({ moisturePercent: 57, temperatureC: 10 });
    const radiusM = mm[0] / 2000;
    const biot = skinMm === 0 ? Infinity : (1000 * radiusM) / skinMm;
    for (const hours of [1, 6, 24, 96]) {
      const seconds = 3600 * hours;
      const fourier = (diffusivityM2PerS * seconds) / radiusM ** 2;
      const { mean } = cooledByVolumes({ curvature: 2, biot, fourier });
      expect(Math.abs(saltUptakeFraction({ prepared, diffusivityM2PerS, seconds }) - (1 - mean))).toBeLessThan(1e-3);
    }
  });

  it.each(SHAPES)('evens out afterwards in a %s at the rate of its slowest mode', (shape, curvature) => {
    const shells = shellsOf({ curvature, biot: 0, cells: 300 });
    const share = new Float64Array(300);
    share.fill(1, 270); // a salty shell
    const unevenness = (): number => (share[299] ?? 0) - (share[0] ?? 0);
    const step = 2e-4;
    const run = (fourier: number): void => {
      for (let i = 0; i < Math.round(fourier / step); i++) {
        stepShells({ shells, share, bath: 0, fourierStep: step, theta: i < 8 ? 1 : 0.5 });
      }
    };
    run(0.25);
    const early = unevenness();
    run(0.1);
    const rate = Math.log(early / unevenness()) / 0.1; // lambda squared, lengths in half lengths
    const body = {
      slab: ['brick', [40, 900, 900]],
      cylinder: ['cylinder', [40, 900]],
      sphere: ['sphere', [40]],
    } as const;
    const [kind, mm] = body[shape];
    const at = { moisturePercent: 50, temperatureC: 12 };
    const days = equaliseDays({ body: { shape: kind, mm }, ...at });
    const expected = (Math.LN10 * 0.02 ** 2) / (saltDiffusivityM2PerS(at) * rate) / 86_400;
    expect(days / expected).toBeCloseTo(1, 2);
  });
});
