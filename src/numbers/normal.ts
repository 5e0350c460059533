import { seededRandom } from './random.ts';

// Rational approximation of the inverse normal distribution (Acklam 2003, relative error below 1.2e-9), from memory;
// the round trip through the error function is a test. Highest power first.
type Quintic = readonly [number, number, number, number, number, number];
const CENTRE_NUMERATOR: Quintic = [-3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1, 2.506628277459239]; // prettier-ignore
const CENTRE_DENOMINATOR: Quintic = [-5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1, 1]; // prettier-ignore
const TAIL_NUMERATOR: Quintic = [-7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968, 2.938163982698783]; // prettier-ignore
const TAIL_DENOMINATOR: Quintic = [0, 7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1]; // prettier-ignore
const TAIL_BELOW = 0.02425;

/** Written out, not looped: a forecast asks for some twenty thousand. */
const horner = (c: Quintic, x: number): number => ((((c[0] * x + c[1]) * x + c[2]) * x + c[3]) * x + c[4]) * x + c[5];

/**
 * The standard normal value that lies above a share `probability` of all.
 * @param probability in (0, 1)
 * @source Acklam (2003), algorithm for the inverse normal cumulative distribution [from memory]
 */
export function normalQuantile(probability: number): number {
  if (probability < TAIL_BELOW) {
    const q = Math.sqrt(-2 * Math.log(probability));
    return horner(TAIL_NUMERATOR, q) / horner(TAIL_DENOMINATOR, q);
  }
  if (probability > 1 - TAIL_BELOW) return -normalQuantile(1 - probability);
  const q = probability - 0.5;
  const r = q * q;
  return (horner(CENTRE_NUMERATOR, r) * q) / horner(CENTRE_DENOMINATOR, r);
}

/**
 * Latin hypercube of standard normal values (McKay, Beckman & Conover 1979): each of `dimensions` columns visits every
 * one of `members` equal slices once, so that medians move far less from seed to seed than with independent draws.
 * @returns row-major `members` x `dimensions`
 */
export function normalHypercube(input: { members: number; dimensions: number; seed: number }): Float64Array {
  const { members, dimensions, seed } = input;
  const random = seededRandom(seed);
  const table = new Float64Array(members * dimensions);
  const order = new Int32Array(members);
  for (let d = 0; d < dimensions; d++) {
    for (let i = 0; i < members; i++) order[i] = i;
    for (let i = members - 1; i > 0; i--) {
      const j = Math.floor(random.uniform() * (i + 1));
      const kept = order[i] ?? 0;
      order[i] = order[j] ?? 0;
      order[j] = kept;
    }
    for (let i = 0; i < members; i++) {
      table[i * dimensions + d] = normalQuantile(((order[i] ?? 0) + 0.5 + (random.uniform() - 0.5) * 0.999) / members);
    }
  }
  return table;
}
