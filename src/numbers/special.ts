/**
 * Special functions that heat conduction and diffusion need: Bessel J0 and J1, the error function and its complements.
 * Good to about 1e-13 absolute (Bessel) and 1e-14 relative (error functions); tests hold them to published tables.
 */

const SQRT_PI = Math.sqrt(Math.PI);
const BESSEL_POINTS = 24; // aliasing error of the midpoint rule is J_48(16) < 1e-17
const BESSEL_SPLIT = 16; // above, the asymptotic series' smallest term is below exp(-32)

/** Midpoint nodes of (0, pi): sines, shared by J0 and J1; fixed numbers, not state. */
const BESSEL_SINES: readonly number[] = Array.from({ length: BESSEL_POINTS }, (_, i) =>
  Math.sin((Math.PI * (i + 0.5)) / BESSEL_POINTS),
);

/**
 * Bessel function of the first kind, order 0: J0(x) = (1/pi) integral over 0..pi of cos(x sin t) dt.
 * @source Abramowitz & Stegun (1964) Handbook of Mathematical Functions, 9.1.18, 9.2.5 (from memory, not seen)
 */
export function besselJ0(x: number): number {
  const z = Math.abs(x);
  if (z >= BESSEL_SPLIT) return besselFar(0, z);
  let sum = 0;
  for (const sine of BESSEL_SINES) sum += Math.cos(z * sine);
  return sum / BESSEL_POINTS;
}

/**
 * Bessel function of the first kind, order 1: J1(x) = (1/pi) integral over 0..pi of sin t sin(x sin t) dt.
 * @source Abramowitz & Stegun (1964) Handbook of Mathematical Functions, 9.1.21, 9.2.5 (from memory, not seen)
 */
export function besselJ1(x: number): number {
  const z = Math.abs(x);
  if (z >= BESSEL_SPLIT) return Math.sign(x) * besselFar(1, z);
  let sum = 0;
  for (const sine of BESSEL_SINES) sum += sine * Math.sin(z * sine);
  return (Math.sign(x) * sum) / BESSEL_POINTS;
}

/** Hankel's asymptotic series, summed to its smallest term; order 0 or 1, z well above the order. */
function besselFar(order: 0 | 1, z: number): number {
  const mu = 4 * order * order;
  let term = 1;
  let p = 1;
  let q = 0;
  for (let k = 1; k < 60; k++) {
    const next = (term * (mu - (2 * k - 1) ** 2)) / (k * 8 * z);
    if (Math.abs(next) > Math.abs(term) && k > 2) break;
    term = next;
    const sign = Math.floor(k / 2) % 2 === 0 ? 1 : -1;
    if (k % 2 === 0) p += sign * term;
    else q += sign * term;
    if (Math.abs(term) < 1e-17) break;
  }
  const angle = z - (order * 0.5 + 0.25) * Math.PI;
  return Math.sqrt(2 / (Math.PI * z)) * (p * Math.cos(angle) - q * Math.sin(angle));
}

/** Error function: erf(x) = (2/sqrt pi) integral over 0..x of exp(-t^2) dt. */
export function erf(x: number): number {
  const z = Math.abs(x);
  const value = z < 2 ? erfNear(z) : 1 - Math.exp(-z * z) * erfcScaledFar(z);
  return x < 0 ? -value : value;
}

/** Complementary error function, 1 - erf(x), without cancellation for large x. */
export function erfc(x: number): number {
  if (x < 2) return 1 - erf(x);
  return Math.exp(-x * x) * erfcScaledFar(x);
}

/** Scaled complement exp(x^2) erfc(x): stays finite for large x. For x below about -26 it overflows to infinity. */
export function erfcScaled(x: number): number {
  return x < 2 ? Math.exp(x * x) * (1 - erf(x)) : erfcScaledFar(x);
}

/** erf by its all-positive series, exp(-x^2) sum of 2^n x^(2n+1) / (2n+1)!!; no cancellation. */
function erfNear(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 1; n < 80 && term > 1e-17 * sum; n++) {
    term *= (2 * z * z) / (2 * n + 1);
    sum += term;
  }
  return (2 / SQRT_PI) * Math.exp(-z * z) * sum;
}

/** exp(x^2) erfc(x) by Laplace's continued fraction, evaluated from the tail; x at least 2. */
function erfcScaledFar(z: number): number {
  let tail = z;
  for (let n = 60; n >= 1; n--) tail = z + (0.5 * n) / tail;
  return 1 / (SQRT_PI * tail);
}
