/**
 * Warming, cooling and diffusion in simple bodies: the share of the first difference that is still left.
 * Slab, cylinder and sphere by their Fourier series; bricks and short cylinders as products of those.
 * Heat and salt share this file: "temperature" may be read as concentration and "Biot" as the surface's share of resistance.
 * Left out: bodies whose properties change inside, and baths that change (see `stretching.ts`).
 */
import { rootBetween } from '../numbers/roots.ts';
import { besselJ0, besselJ1, erf, erfcScaled } from '../numbers/special.ts';
import { requireWithin, type Validity } from '../numbers/validity.ts';

/** One-dimensional bodies: a slab open on both faces, an endless cylinder, a sphere. */
export type SeriesShape = 'slab' | 'cylinder' | 'sphere';

/** Roots and weights of one shape at one Biot number; work them out once and pass them where many times are asked. */
export interface SeriesTerms {
  readonly shape: SeriesShape;
  /** h L / k, L the half thickness or radius; Infinity where the surface takes the bath's value at once. */
  readonly biot: number;
  readonly roots: Float64Array;
  /** Weight of each term at the centre. */
  readonly coefficients: Float64Array;
  /** Factor from centre weight to weight in the mean. */
  readonly meanFactors: Float64Array;
}

export interface TransientInput {
  readonly shape: SeriesShape;
  readonly biot: number;
  /** alpha t / L^2. */
  readonly fourier: number;
  /** From `seriesTerms` with the same shape and Biot number; worked out afresh where it is left out. */
  readonly terms?: SeriesTerms;
}

const TERM_COUNT = 60; // our own choice: enough for 1e-7 down to SHORT_FOURIER
const SHORT_FOURIER = 5e-4; // our own choice: below, the short-time forms are better than the cut-off series

const SOURCE = 'Çengel, Heat Transfer, Table 4-2 (table seen), whose roots and weights these series give to rounding';

export const seriesValidity: Validity = {
  biot: { low: 1e-6, high: Number.MAX_VALUE, unit: '-', source: SOURCE },
  fourier: { low: 0, high: Number.MAX_VALUE, unit: '-', source: SOURCE },
  position: { low: 0, high: 1, unit: '-', source: 'centre to surface' },
};

/**
 * Roots and weights of the series: zeta tan zeta = Bi (slab), zeta J1 = Bi J0 (cylinder), 1 - zeta cot zeta = Bi (sphere).
 *
 * @param input.shape  slab, cylinder or sphere
 * @param input.biot  surface over inside: h L / k [-], above 1e-6; Infinity allowed
 * @returns terms to hand to the functions below
 * Shapes: 60 roots in rising order, one bracketed per half period.
 * Valid: as `seriesValidity`. Uncertainty: none beyond rounding.
 * @throws InputError for a Biot number that is not positive
 * @source Çengel, Heat Transfer, Table 4-2 (table seen): roots and weights agree to its last digit
 */
export function seriesTerms(input: { readonly shape: SeriesShape; readonly biot: number }): SeriesTerms {
  const { shape, biot } = input;
  if (biot !== Infinity) requireWithin(seriesValidity, { biot });
  const roots = new Float64Array(TERM_COUNT);
  const coefficients = new Float64Array(TERM_COUNT);
  const meanFactors = new Float64Array(TERM_COUNT);
  for (let i = 0; i < TERM_COUNT; i++) {
    const root = rootOf(shape, biot, i);
    roots[i] = root;
    const [coefficient, meanFactor] = weightsOf(shape, root);
    coefficients[i] = coefficient;
    meanFactors[i] = meanFactor;
  }
  return { shape, biot, roots, coefficients, meanFactors };
}

function rootOf(shape: SeriesShape, biot: number, i: number): number {
  const pi = Math.PI;
  if (shape === 'slab') {
    if (biot === Infinity) return (i + 0.5) * pi;
    return rootBetween({ f: (z) => z * Math.sin(z) - biot * Math.cos(z), low: i * pi, high: (i + 0.5) * pi });
  }
  if (shape === 'cylinder') {
    // Zeros of J1 and J0 take turns, so a root lies between the i-th zero of J1 and the next zero of J0.
    const high = rootBetween({ f: besselJ0, low: (i + 0.5) * pi, high: (i + 1) * pi });
    if (biot === Infinity) return high;
    const low = i === 0 ? 0 : rootBetween({ f: besselJ1, low: i * pi, high: (i + 0.5) * pi });
    return rootBetween({ f: (z) => z * besselJ1(z) - biot * besselJ0(z), low, high });
  }
  if (biot === Infinity) return (i + 1) * pi;
  // At zero the first bracket would sit on the trivial root, so it starts below sqrt(3 Bi), where the root tends to.
  const low = i === 0 ? Math.min(0.1, 0.5 * Math.sqrt(3 * biot)) : i * pi;
  return rootBetween({ f: (z) => (1 - biot) * Math.sin(z) - z * Math.cos(z), low, high: (i + 1) * pi });
}

function weightsOf(shape: SeriesShape, z: number): [coefficient: number, meanFactor: number] {
  const sine = Math.sin(z);
  if (shape === 'slab') return [(4 * sine) / (2 * z + Math.sin(2 * z)), sine / z];
  if (shape === 'cylinder') {
    const j0 = besselJ0(z);
    const j1 = besselJ1(z);
    return [(2 * j1) / (z * (j0 * j0 + j1 * j1)), (2 * j1) / z];
  }
  const bulge = sine - z * Math.cos(z);
  return [(4 * bulge) / (2 * z - Math.sin(2 * z)), (3 * bulge) / z ** 3];
}

function profileAt(shape: SeriesShape, zr: number): number {
  if (shape === 'slab') return Math.cos(zr);
  if (shape === 'cylinder') return besselJ0(zr);
  return zr < 1e-8 ? 1 : Math.sin(zr) / zr;
}

/** Kernel of `transientMeanFraction`: no checks; terms given. */
export function meanFractionKernel(terms: SeriesTerms, fourier: number): number {
  if (fourier < SHORT_FOURIER) return 1 - shortUptake(terms.shape, terms.biot, fourier);
  const { roots, coefficients, meanFactors } = terms;
  let sum = 0;
  for (let i = 0; i < TERM_COUNT; i++) {
    const z = roots[i] ?? 0;
    const exponent = z * z * fourier;
    if (exponent > 40) break;
    sum += (coefficients[i] ?? 0) * (meanFactors[i] ?? 0) * Math.exp(-exponent);
  }
  return sum;
}

/** Kernel of `transientFractionAt`: no checks; terms given; position 0 centre, 1 surface. */
export function fractionAtKernel(
  terms: SeriesTerms,
  at: { readonly fourier: number; readonly position: number },
): number {
  const { fourier, position } = at;
  if (fourier < SHORT_FOURIER) return shortFractionAt(terms.shape, terms.biot, fourier, position);
  const { roots, coefficients, shape } = terms;
  let sum = 0;
  for (let i = 0; i < TERM_COUNT; i++) {
    const z = roots[i] ?? 0;
    const exponent = z * z * fourier;
    if (exponent > 40) break;
    sum += (coefficients[i] ?? 0) * profileAt(shape, z * position) * Math.exp(-exponent);
  }
  return sum;
}

/**
 * Share of the first difference to the bath that the whole body's mean still has. One minus it is the uptake.
 *
 * Sum of C mean-factor exp(-zeta^2 Fo); for Fo below 5e-4 the half-space form with the first term of curvature.
 *
 * @param input.shape  slab, cylinder or sphere
 * @param input.biot  h L / k [-], above 1e-6; Infinity where the surface follows the bath at once
 * @param input.fourier  alpha t / L^2 [-], 0 or more
 * @param input.terms  from `seriesTerms`, to save work
 * @returns share left [-], 1 at the start, 0 at the end
 * Valid: as `seriesValidity`, body uniform at the start, bath constant. Uncertainty: below 1e-6 from cutting the series.
 * @throws InputError for a Biot or Fourier number that is not possible
 * @source Çengel, Heat Transfer, Table 4-2 (seen); Crank (1975) The Mathematics of Diffusion, ch. 3 to 6 (from memory)
 */
export function transientMeanFraction(input: TransientInput): number {
  requireWithin(seriesValidity, { fourier: input.fourier });
  return meanFractionKernel(input.terms ?? seriesTerms(input), input.fourier);
}

/**
 * Share of the first difference to the bath that is left at one place.
 *
 * Sum of C profile(zeta r) exp(-zeta^2 Fo), profile cos, J0 or sin(x)/x.
 *
 * @param input.shape  slab, cylinder or sphere
 * @param input.biot  h L / k [-], above 1e-6; Infinity allowed
 * @param input.fourier  alpha t / L^2 [-], 0 or more
 * @param input.position  0 centre to 1 surface [-]
 * @param input.terms  from `seriesTerms`, to save work
 * @returns share left [-]
 * Valid: as `seriesValidity`. Uncertainty: below 1e-6; below Fo = 5e-4 up to 1e-3 in a cylinder (curvature to first order).
 * @throws InputError for a number that is not possible
 * @source Çengel, Heat Transfer, Table 4-2 (seen); Carslaw and Jaeger (1959) Conduction of Heat in Solids (from memory)
 */
export function transientFractionAt(input: TransientInput & { readonly position: number }): number {
  requireWithin(seriesValidity, { fourier: input.fourier, position: input.position });
  return fractionAtKernel(input.terms ?? seriesTerms(input), input);
}

/** Share of the first difference left at the centre: `transientFractionAt` with position 0. */
export function transientCentreFraction(input: TransientInput): number {
  return transientFractionAt({ ...input, position: 0 });
}

/** (exp(z^2) erfc(z) - 1 + 2 z / sqrt pi) / z^2: the uptake of a half-space behind a surface resistance. */
function halfSpace(z: number): number {
  if (Math.abs(z) > 0.02) return (erfcScaled(z) - 1 + (2 * z) / Math.sqrt(Math.PI)) / (z * z);
  return 1 - (4 * z) / (3 * Math.sqrt(Math.PI)) + (z * z) / 2 - (8 * z ** 3) / (15 * Math.sqrt(Math.PI));
}

/** Uptake while only a thin skin has changed. Sphere exact, cylinder halfway between slab and sphere (first order). */
function shortUptake(shape: SeriesShape, biot: number, fourier: number): number {
  if (fourier <= 0) return 0;
  const root = Math.sqrt(fourier);
  let perAreaSlab: number;
  let perAreaSphere: number;
  if (biot === Infinity) {
    perAreaSlab = (2 * root) / Math.sqrt(Math.PI);
    perAreaSphere = perAreaSlab - fourier;
  } else {
    perAreaSlab = biot * fourier * halfSpace(biot * root);
    // r times theta obeys the slab's equation with Bi - 1 in place of Bi and starts as 1 - x.
    const h = biot - 1;
    const g = halfSpace(h * root);
    const slope = Math.abs(h * root) < 1e-6 ? -4 / (3 * Math.sqrt(Math.PI)) : (g - 1) / (h * root);
    perAreaSphere = biot * (fourier * g + fourier * root * slope);
  }
  if (shape === 'slab') return perAreaSlab;
  return shape === 'sphere' ? 3 * perAreaSphere : perAreaSlab + perAreaSphere;
}

function shortFractionAt(shape: SeriesShape, biot: number, fourier: number, position: number): number {
  if (fourier <= 0) return 1;
  const slab = halfSpaceAt(biot, fourier, 1 - position);
  if (shape === 'slab' || position < 0.5) return slab;
  const h = biot - 1;
  const u = biot === Infinity ? slab : halfSpaceAt(h, fourier, 1 - position);
  const sphere =
    Math.abs(h) < 1e-6
      ? slab
      : biot === Infinity
        ? (u - (1 - position)) / position
        : (u - (1 - position) + (u - 1) / h) / position;
  return shape === 'sphere' ? sphere : (slab + sphere) / 2;
}

function halfSpaceAt(biot: number, fourier: number, depth: number): number {
  const root = Math.sqrt(fourier);
  const s = depth / (2 * root);
  if (biot === Infinity) return erf(s);
  return erf(s) + Math.exp(-s * s) * erfcScaled(s + biot * root);
}
