/** Roots and minima of one-dimensional functions. Every search is bracketed, so it always ends. */

export interface RootSearch {
  /** Continuous on [low, high]. */
  readonly f: (x: number) => number;
  readonly low: number;
  readonly high: number;
  /** Absolute error of the root asked for; default 1e-12 of the bracket's size. */
  readonly tolerance?: number;
}

const MAX_STEPS = 200; // our own choice: bisection alone needs fewer than 60 for a double

/**
 * A root of `f` between `low` and `high` by Brent's method: inverse quadratic or secant steps,
 * falling back to halving whenever they do not shrink the bracket fast enough.
 * @param search.low  one end [any unit], `f` there has the other sign than at `high`
 * @returns x with f(x) = 0 within the tolerance
 * @throws RangeError where the ends do not bracket a sign change
 * @source Brent R.P. (1973) Algorithms for Minimization without Derivatives, ch. 4 (from memory, not seen)
 */
export function rootBetween(search: RootSearch): number {
  const { f, low, high } = search;
  const tolerance = search.tolerance ?? 1e-12 * Math.max(Math.abs(low), Math.abs(high), 1);
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0)) {
    throw new RangeError(`no sign change between ${low} (f = ${fa}) and ${high} (f = ${fb})`);
  }
  let c = a;
  let fc = fa;
  let step = b - a;
  let previousStep = step;
  for (let i = 0; i < MAX_STEPS; i++) {
    if (fb * fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      previousStep = step;
    }
    // b is kept the best estimate, c the other side of the bracket.
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const within = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= within || fb === 0) return b;
    if (Math.abs(previousStep) >= within && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(within * q), Math.abs(previousStep * q))) {
        previousStep = step;
        step = p / q;
      } else {
        step = half;
        previousStep = half;
      }
    } else {
      step = half;
      previousStep = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > within ? step : Math.sign(half) * within;
    fb = f(b);
  }
  return b;
}

/**
 * The place where a claim turns from false to true, by halving; for claims that are monotone but not smooth
 * ("the core is cold enough after x minutes").
 * @param search.isReached  false at `low`, true at `high`
 * @returns the smallest x found to be true, within `tolerance`; null when it is still false at `high`
 */
export function firstReached(search: {
  readonly isReached: (x: number) => boolean;
  readonly low: number;
  readonly high: number;
  readonly tolerance: number;
}): number | null {
  if (search.isReached(search.low)) return search.low;
  if (!search.isReached(search.high)) return null;
  let low = search.low;
  let high = search.high;
  for (let i = 0; i < MAX_STEPS && high - low > search.tolerance; i++) {
    const middle = 0.5 * (low + high);
    if (search.isReached(middle)) high = middle;
    else low = middle;
  }
  return high;
}
