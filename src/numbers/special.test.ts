import { describe, expect, it } from 'vitest';
import { besselJ0, besselJ1, erf, erfc, erfcScaled } from './special.ts';

describe('Bessel functions', () => {
  // Abramowitz & Stegun (1964) tables 9.1 and 9.5 (from memory, not seen).
  it('agree with the printed tables', () => {
    expect(besselJ0(0)).toBe(1);
    expect(besselJ0(1)).toBeCloseTo(0.7651976865579666, 13);
    expect(besselJ0(5)).toBeCloseTo(-0.1775967713143383, 13);
    expect(besselJ0(10)).toBeCloseTo(-0.2459357644513483, 13);
    expect(besselJ1(1)).toBeCloseTo(0.4400505857449335, 13);
    expect(besselJ1(5)).toBeCloseTo(-0.3275791375914652, 13);
    expect(besselJ1(10)).toBeCloseTo(0.0434727461688615, 13);
    expect(besselJ0(2.404825557695773)).toBeCloseTo(0, 13);
    expect(besselJ1(3.831705970207512)).toBeCloseTo(0, 13);
    expect(besselJ0(30.634606468431976)).toBeCloseTo(0, 13);
  });

  it('join without a step where the asymptotic series takes over', () => {
    const slope = -besselJ1(16);
    expect(besselJ0(16 + 1e-7) - besselJ0(16 - 1e-7)).toBeCloseTo(slope * 2e-7, 12);
    expect(besselJ1(16 + 1e-7) - besselJ1(16 - 1e-7)).toBeCloseTo((besselJ0(16) - besselJ1(16) / 16) * 2e-7, 12);
  });

  it('keep J0 even and J1 odd', () => {
    for (const x of [0.3, 7, 40]) {
      expect(besselJ0(-x)).toBe(besselJ0(x));
      expect(besselJ1(-x)).toBe(-besselJ1(x));
    }
  });
});

describe('error functions', () => {
  // Abramowitz & Stegun (1964) table 7.1 (from memory, not seen).
  it('agree with the printed table', () => {
    expect(erf(0)).toBe(0);
    expect(erf(0.5)).toBeCloseTo(0.5204998778130465, 14);
    expect(erf(1)).toBeCloseTo(0.8427007929497149, 14);
    expect(erf(2)).toBeCloseTo(0.9953222650189527, 14);
    expect(erfc(3) / 2.209049699858544e-5).toBeCloseTo(1, 12);
    expect(erf(-1)).toBe(-erf(1));
    expect(erfc(-1)).toBeCloseTo(1 + erf(1), 14);
  });

  it('join without a step at 2 and stay finite far out', () => {
    expect(erfc(2 - 1e-12) / erfc(2 + 1e-12)).toBeCloseTo(1, 10);
    expect(erfcScaled(1)).toBeCloseTo(0.427583576155807, 13);
    expect(erfcScaled(1e6) * 1e6 * Math.sqrt(Math.PI)).toBeCloseTo(1, 11);
  });
});
