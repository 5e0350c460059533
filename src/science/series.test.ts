import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { ballDiameterMm, bodyAreaM2, bodyFractions, bodyTerms, bodyVolumeM3, requireBody, type Body } from './body.ts';
import {
  fractionAtKernel,
  meanFractionKernel,
  seriesTerms,
  transientCentreFraction,
  transientFractionAt,
  transientMeanFraction,
  type SeriesShape,
} from './series.ts';

const SHAPES: readonly SeriesShape[] = ['slab', 'cylinder', 'sphere'];

describe('series for simple bodies', () => {
  it('start at one everywhere and fall to nothing', () => {
    for (const shape of SHAPES) {
      for (const biot of [0.1, 1, 20, Infinity]) {
        expect(transientMeanFraction({ shape, biot, fourier: 0 })).toBe(1);
        expect(transientCentreFraction({ shape, biot, fourier: 1e-3 })).toBeCloseTo(1, 5);
        expect(transientMeanFraction({ shape, biot, fourier: 400 })).toBeCloseTo(0, 9);
      }
    }
  });

  it('join the short-time forms without a step', () => {
    const seam = 5e-4;
    for (const shape of SHAPES) {
      for (const biot of [0.05, 0.999, 1, 1.001, 3, 40, 2000, Infinity]) {
        const terms = seriesTerms({ shape, biot });
        const before = 1 - meanFractionKernel(terms, seam * (1 - 1e-12));
        const after = 1 - meanFractionKernel(terms, seam);
        expect(Math.abs(before / after - 1), `${shape} Bi ${biot}`).toBeLessThan(1e-3);
        for (const position of [0, 0.9, 0.97, 1]) {
          const near = fractionAtKernel(terms, { fourier: seam * (1 - 1e-12), position });
          const far = fractionAtKernel(terms, { fourier: seam, position });
          expect(Math.abs(near - far), `${shape} Bi ${biot} at ${position}`).toBeLessThan(2e-3);
        }
      }
    }
  });

  it('lose at the surface what the mean loses (energy balance)', () => {
    // d(mean)/dFo = -(1, 2 or 3) Bi theta_surface.
    const areas = { slab: 1, cylinder: 2, sphere: 3 };
    fc.assert(
      fc.property(
        fc.constantFrom(...SHAPES),
        fc.double({ min: 0.02, max: 80, noNaN: true }),
        fc.double({ min: 0.002, max: 1, noNaN: true }),
        (shape, biot, fourier) => {
          const terms = seriesTerms({ shape, biot });
          const d = 1e-5;
          const slope = (meanFractionKernel(terms, fourier + d) - meanFractionKernel(terms, fourier - d)) / (2 * d);
          const flux = -areas[shape] * biot * fractionAtKernel(terms, { fourier, position: 1 });
          expect(slope).toBeCloseTo(flux, 2);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('match the classic uptake of a sphere whose surface follows the bath: 1 - 6/pi^2 sum', () => {
    let sum = 0;
    for (let n = 1; n < 200; n++) sum += Math.exp(-n * n * Math.PI * Math.PI * 0.05) / (n * n);
    expect(transientMeanFraction({ shape: 'sphere', biot: Infinity, fourier: 0.05 })).toBeCloseTo(
      (6 / Math.PI ** 2) * sum,
      10,
    );
  });

  it('cool a body with a weak surface like one lump', () => {
    const biot = 0.001;
    expect(transientMeanFraction({ shape: 'sphere', biot, fourier: 100 })).toBeCloseTo(Math.exp(-3 * biot * 100), 3);
  });

  it('refuse numbers that cannot be', () => {
    expect(() => seriesTerms({ shape: 'slab', biot: 0 })).toThrow(InputError);
    expect(() => transientMeanFraction({ shape: 'slab', biot: 1, fourier: -1 })).toThrow(/fourier/);
    expect(() => transientFractionAt({ shape: 'slab', biot: 1, fourier: 1, position: 1.2 })).toThrow(/position/);
  });
});

describe('cheese shapes', () => {
  const ball: Body = { shape: 'sphere', mm: [100] };
  const wheel: Body = { shape: 'cylinder', mm: [120, 85] };
  const brick: Body = { shape: 'brick', mm: [100, 80, 48] };

  it('know their volume and skin', () => {
    expect(bodyVolumeM3(ball)).toBeCloseTo(5.236e-4, 7);
    expect(bodyAreaM2(ball)).toBeCloseTo(Math.PI * 0.01, 9);
    expect(bodyVolumeM3(wheel)).toBeCloseTo(9.613e-4, 6);
    expect(bodyAreaM2(wheel)).toBeCloseTo(0.05466, 4);
    expect(bodyVolumeM3(brick)).toBeCloseTo(3.84e-4, 9);
    expect(bodyAreaM2(brick)).toBeCloseTo(0.03328, 6);
    expect(ballDiameterMm(bodyVolumeM3(ball))).toBeCloseTo(100, 9);
  });

  it('are coldest at the surface, warmest at the centre, and a ball inside a brick is quicker', () => {
    for (const body of [ball, wheel, brick]) {
      const left = bodyFractions({
        prepared: bodyTerms({ body, surfacePerM: 650 }),
        diffusivityM2PerS: 1.2e-7,
        seconds: 900,
      });
      expect(left.surface).toBeLessThan(left.mean);
      expect(left.mean).toBeLessThan(left.centre);
    }
    const cube: Body = { shape: 'brick', mm: [100, 100, 100] };
    const of = (body: Body): number =>
      bodyFractions({ prepared: bodyTerms({ body, surfacePerM: 650 }), diffusivityM2PerS: 1.2e-7, seconds: 3600 })
        .centre;
    expect(of(ball)).toBeLessThan(of(cube));
  });

  it('need as many sizes as they have', () => {
    expect(() => requireBody({ shape: 'brick', mm: [100] })).toThrow(/three edges/);
    expect(() => requireBody({ shape: 'sphere', mm: [-3] })).toThrow(/0\.1 to 2000 mm/);
  });
});
