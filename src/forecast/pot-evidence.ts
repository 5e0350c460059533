import { choleskyFactor, choleskySolve, lowerTimes } from '../numbers/linear.ts';
import { normalHypercube } from '../numbers/normal.ts';
import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { courseOf } from './course.ts';
import { groundOf } from './inputs.ts';
import { benchOf } from './simulate.ts';
import { AT, DIMENSIONS, UNCERTAIN, type Beliefs } from './uncertain.ts';

/**
 * What one pot's notes say of its uncertain inputs, as straight lines: for each note, `value = slopes . u + noise`, where `u`
 * are the inputs in standard units of what was believed and the noise has the stated variance.
 */
export interface EvidenceLine {
  readonly slopes: Float64Array;
  readonly value: number;
  /** Of the note itself (1), and of what no straight line of the inputs explains. */
  readonly variance: number;
}

/** How a kitchen's beliefs stand in the general prior's units: `z = mean + sd u`. */
export interface Scale {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
}

const DRAWS = 160; // five a slope: our own choice
const WIDER = 1.3; // the second draw looks a little beyond where the first found the pot to be; our own choice
/** A note that no member comes near is a slip: it says nothing. Standard deviations, our own choice. */
const SLIP_SD = 6;

/**
 * The evidence of one pot: many makes are run with its notes, and the distance of each note from what they expected is fitted
 * by straight lines in their inputs (least squares); once over the whole prior, and again about where this pot lies, so that
 * what is curved is straight enough there.
 *
 * @param input.seed  the same for all pots: no pot's draw depends on the others
 */
export function evidenceOf(input: { plan: Plan; history: History; beliefs?: Beliefs; seed: number }): {
  readonly lines: readonly EvidenceLine[];
  readonly scale: Scale;
} {
  const { plan, history, seed } = input;
  const scale = scaleOf(input.beliefs ?? {});
  const notes = history.readings.length + history.judgements.length;
  if (notes === 0) return { lines: [], scale };
  const bench = benchOf(courseOf({ plan, history }), groundOf(plan), undefined);
  const misfits = (u: Float64Array): Float64Array =>
    bench.run(u.map((value, d) => (scale.mean[d] ?? 0) + (scale.sd[d] ?? 1) * value)).innovations.slice();
  const wide = normalHypercube({ members: DRAWS, dimensions: DIMENSIONS, seed });
  const first = linesThrough(wide, misfits);
  const own = ownPosterior(first);
  if (own === null) return { lines: first, scale };
  const near = normalHypercube({ members: DRAWS, dimensions: DIMENSIONS, seed: seed + 1 });
  const out = new Float64Array(DIMENSIONS);
  for (let i = 0; i < DRAWS; i++) {
    const row = near.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS);
    lowerTimes(own.factor, row, out);
    for (let d = 0; d < DIMENSIONS; d++) row[d] = (own.mean[d] ?? 0) + WIDER * (out[d] ?? 0);
  }
  return { lines: linesThrough(near, misfits), scale };
}

function scaleOf(beliefs: Beliefs): Scale {
  const mean = new Float64Array(DIMENSIONS);
  const sd = new Float64Array(DIMENSIONS).fill(1);
  for (const name of UNCERTAIN) {
    const belief = beliefs[name];
    if (belief === undefined) continue;
    mean[AT[name]] = belief.mean;
    sd[AT[name]] = belief.sd;
  }
  return { mean, sd };
}

/** Least-squares lines of every note's misfit in the inputs; notes that say nothing, or are slips, are left out. */
function linesThrough(rows: Float64Array, misfits: (u: Float64Array) => Float64Array): EvidenceLine[] {
  const n = DIMENSIONS + 1; // an input each, and the misfit in the middle
  const draws = rows.length / DIMENSIONS;
  const at = (i: number, d: number): number => (d === DIMENSIONS ? 1 : (rows[i * DIMENSIONS + d] ?? 0));
  const all = Array.from({ length: draws }, (_, i) => misfits(rows.slice(i * DIMENSIONS, (i + 1) * DIMENSIONS)));
  const normal = new Float64Array(n * n);
  for (let i = 0; i < draws; i++) {
    for (let d = 0; d < n; d++) {
      for (let e = 0; e <= d; e++) normal[d * n + e] = (normal[d * n + e] ?? 0) + at(i, d) * at(i, e);
    }
  }
  const factor = choleskyFactor(normal, n);
  if (factor === null) return [];
  const lines: EvidenceLine[] = [];
  for (let k = 0; k < (all[0]?.length ?? 0); k++) {
    const values = all.map((one) => one[k] ?? Number.NaN);
    if (!values.every(Number.isFinite)) continue;
    const fit = Float64Array.from({ length: n }, (_, d) => values.reduce((sum, v, i) => sum + v * at(i, d), 0));
    choleskySolve(factor, fit);
    let unexplained = 0;
    for (let i = 0; i < draws; i++) {
      let rest = values[i] ?? 0;
      for (let d = 0; d < n; d++) rest -= (fit[d] ?? 0) * at(i, d);
      unexplained += (rest * rest) / (draws - n);
    }
    const slopes = Float64Array.from({ length: DIMENSIONS }, (_, d) => -(fit[d] ?? 0));
    const value = fit[DIMENSIONS] ?? 0;
    const variance = 1 + unexplained;
    if (Math.abs(value) < SLIP_SD * Math.sqrt(dot(slopes, slopes) + variance)) lines.push({ slopes, value, variance });
  }
  return lines;
}

/** Where this pot lies by its own notes alone; null where they say nothing. */
function ownPosterior(lines: readonly EvidenceLine[]): { mean: Float64Array; factor: Float64Array } | null {
  if (lines.length === 0) return null;
  const n = DIMENSIONS;
  const precision = new Float64Array(n * n);
  const mean = new Float64Array(n);
  for (const { slopes, value, variance } of lines) {
    for (let d = 0; d < n; d++) {
      const slope = (slopes[d] ?? 0) / variance;
      mean[d] = (mean[d] ?? 0) + slope * value;
      for (let e = 0; e <= d; e++) precision[d * n + e] = (precision[d * n + e] ?? 0) + slope * (slopes[e] ?? 0);
    }
  }
  for (let d = 0; d < n; d++) precision[d * n + d] = (precision[d * n + d] ?? 0) + 1;
  const factor = choleskyFactor(precision, n);
  if (factor === null) return null;
  choleskySolve(factor, mean);
  const covariance = new Float64Array(n * n);
  const column = new Float64Array(n);
  for (let d = 0; d < n; d++) {
    column.fill(0);
    column[d] = 1;
    choleskySolve(factor, column);
    for (let e = 0; e < n; e++) covariance[e * n + d] = column[e] ?? 0;
  }
  const spread = choleskyFactor(covariance, n);
  return spread === null ? null : { mean, factor: spread };
}

/** Sum of the products. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}
