/** What every member would come to anywhere between the bounds, from the few places where it was really run. */
import { quadraticFit, termCount, termsAt } from '../numbers/quadratic.ts';
import type { Wanted } from './question.ts';

/** One place where all members were run: the free inputs from -1 to 1, and what came of it. */
export interface Looked {
  readonly at: readonly number[];
  /** One array an aim, one value a member. */
  readonly values: readonly Float64Array[];
  /** Mean end of the day, minutes since zero. */
  readonly endMin: number;
}

/** How the members stand at one place. */
export interface Standing {
  /** Share that meets all aims, counted softly at the edges so that it has a slope everywhere. */
  readonly share: number;
  /** The same of each aim alone, and of all but that one. */
  readonly alone: Float64Array;
  readonly without: Float64Array;
  /** How far outside the middle of the members lies, summed over the aims, in standard deviations: what comes nearest where nothing reaches. */
  readonly miss: number;
  readonly endMin: number;
}

const SOFT_EDGE = 0.1; // of the members' standard deviation; our own choice: blurs a share of 0.8 by about 0.01

/** Judges any place: by the fit, or by what was really seen there. */
export interface Surface {
  readonly stands: (at: readonly number[]) => Standing;
  readonly seen: (looked: Looked) => Standing;
}

/** Fits one quadratic a member and aim (in logarithms where all values are above 0: salt, weight and time follow powers). */
export function surfaceOf(input: { readonly looked: readonly Looked[]; readonly aims: readonly Wanted[] }): Surface {
  const { looked, aims } = input;
  const members = looked[0]?.values[0]?.length ?? 0;
  const terms = termCount(looked[0]?.at.length ?? 0);
  const scales = aims.map((aim, index) => scaleOf(aim, looked.map((one) => one.values[index] ?? new Float64Array()))); // prettier-ignore
  const outputs = members * aims.length + 1;
  const scaled = (one: Looked): Float64Array => {
    const all = new Float64Array(outputs);
    for (const [index, scale] of scales.entries())
      for (let m = 0; m < members; m++) all[index * members + m] = scale.of(one.values[index]?.[m] ?? Number.NaN);
    all[outputs - 1] = one.endMin;
    return all;
  };
  const fit = quadraticFit({ points: looked.map((one) => one.at), values: looked.map(scaled) });
  const basis = new Float64Array(terms);
  const values = new Float64Array(outputs);
  return {
    stands: (at) => {
      termsAt(at, basis);
      for (let output = 0; output < outputs; output++) {
        let value = 0;
        for (let t = 0; t < terms; t++) value += (fit[output * terms + t] ?? 0) * (basis[t] ?? 0);
        values[output] = value;
      }
      return standingOf({ scales, values, members });
    },
    seen: (one) => standingOf({ scales, values: scaled(one), members }),
  };
}

/** Counts the members, aim by aim and together. */
function standingOf(input: {
  readonly scales: readonly Scale[];
  readonly values: Float64Array;
  readonly members: number;
}): Standing {
  const { scales, values, members } = input;
  const count = scales.length;
  const meets = new Float64Array(count);
  const alone = new Float64Array(count);
  const without = new Float64Array(count);
  let share = 0;
  const means = new Float64Array(count);
  for (let m = 0; m < members; m++) {
    let all = 1;
    for (let j = 0; j < count; j++) {
      const value = values[j * members + m] ?? Number.NaN;
      const met = scales[j]?.meets(value) ?? 1;
      means[j] = (means[j] ?? 0) + value / members;
      meets[j] = met;
      alone[j] = (alone[j] ?? 0) + met / members;
      all *= met;
    }
    share += all / members;
    for (let j = 0; j < count; j++) {
      let others = 1;
      for (let k = 0; k < count; k++) if (k !== j) others *= meets[k] ?? 1;
      without[j] = (without[j] ?? 0) + others / members;
    }
  }
  const miss = scales.reduce((sum, scale, j) => sum + scale.outside(means[j] ?? Number.NaN), 0);
  return { share, alone, without, miss, endMin: values[values.length - 1] ?? Number.NaN };
}

interface Scale {
  readonly of: (value: number) => number;
  readonly meets: (scaled: number) => number;
  readonly outside: (scaled: number) => number;
}

/** The scale an aim is fitted on, and how softly its edges are met there. */
function scaleOf(aim: Wanted, values: readonly Float64Array[]): Scale {
  const all = values.flatMap((each) => Array.from(each)).filter(Number.isFinite);
  const isByRatio = all.every((value) => value > 0);
  const scaled = (value: number): number => (isByRatio ? Math.log(Math.max(value, Number.MIN_VALUE)) : value);
  // A member that never comes there is put far beyond both ends.
  const far = 2 * all.reduce((most, value) => Math.max(most, Math.abs(value)), Math.abs(Number.isFinite(aim.high) ? aim.high : aim.low)); // prettier-ignore
  const low = aim.low > 0 || !isByRatio ? scaled(aim.low) : Number.NEGATIVE_INFINITY;
  const high = scaled(aim.high);
  const scatter = Math.max(spreadOf(Array.from(values[0] ?? [], scaled)), 1e-6);
  const soft = SOFT_EDGE * scatter;
  const inside = (distance: number): number => (distance === Infinity ? 1 : 1 / (1 + Math.exp(-distance / soft)));
  return {
    of: (value) => scaled(Number.isFinite(value) ? value : far),
    meets: (value) => inside(value - low) * inside(high - value),
    outside: (value) => Math.max(low - value, value - high, 0) / scatter,
  };
}

function spreadOf(values: readonly number[]): number {
  const known = values.filter(Number.isFinite);
  const mean = known.reduce((sum, value) => sum + value, 0) / Math.max(known.length, 1);
  return Math.sqrt(known.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(known.length - 1, 1));
}
