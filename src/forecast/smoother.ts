import { choleskyFactor } from '../numbers/linear.ts';
import { normalHypercube } from '../numbers/normal.ts';
import { seededRandom } from '../numbers/random.ts';
import { place, type Gaussian } from './proposal.ts';
import { DIMENSIONS } from './uncertain.ts';

/**
 * Moves an ensemble towards what was observed: the ensemble smoother with multiple data assimilation (Emerick and Reynolds
 * 2013, Computers & Geosciences 55:3). Each pass takes in a share of the evidence by linear regression of the inputs on the
 * innovations, with the noise that a share has; where the answers are not linear the members end near the truth but not on it,
 * which is why they only propose and the likelihood decides (`ensemble.ts`).
 *
 * @param input.innovations of one member: distance of each observation from what the member expected, in its own standard
 * deviations; NaN where it says nothing
 * @returns rows, `members` x `DIMENSIONS`
 */
export function smoothedRows(input: {
  members: number;
  seed: number;
  prior: Gaussian;
  innovations: (row: Float64Array) => Float64Array;
}): Float64Array {
  const { members, prior } = input;
  const rows = normalHypercube({ members, dimensions: DIMENSIONS, seed: input.seed + 101 });
  place(rows, 0, members, prior);
  const random = seededRandom(input.seed + 202);
  for (let pass = 0; pass < PASSES; pass++) {
    const all = Array.from({ length: members }, (_, i) =>
      input.innovations(rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS)).slice(),
    );
    const used = believed(all);
    if (used.length === 0) return rows;
    update({ rows, innovations: all.map((one) => used.map((k) => one[k] ?? 0)), normal: () => random.normal() });
  }
  return rows;
}

const FURTHEST_SD = 5; // our own choice
const PASSES = 4; // our own choice; each takes a quarter of the evidence
/** An observation that hardly any member can explain is left to the likelihood, which has a floor for slips. Our own choice. */
const BELIEVED_SPREADS = 4;

/** Observations that all members have and that are not far outside what they say. */
function believed(all: readonly Float64Array[]): number[] {
  const count = all[0]?.length ?? 0;
  const used: number[] = [];
  for (let k = 0; k < count; k++) {
    const values = all.map((one) => one[k] ?? Number.NaN);
    if (values.some((value) => !Number.isFinite(value))) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    if (Math.abs(mean) < BELIEVED_SPREADS * Math.sqrt(variance + 1)) used.push(k);
  }
  return used;
}

/** One pass: row += C_zy (C_yy + alpha I)^-1 (innovation + sqrt(alpha) noise), y = minus the innovation. */
function update(input: { rows: Float64Array; innovations: number[][]; normal: () => number }): void {
  const { rows, innovations } = input;
  const members = innovations.length;
  const m = innovations[0]?.length ?? 0;
  const meanY = new Float64Array(m);
  const meanZ = new Float64Array(DIMENSIONS);
  for (let i = 0; i < members; i++) {
    for (let k = 0; k < m; k++) meanY[k] = (meanY[k] ?? 0) - (innovations[i]?.[k] ?? 0) / members;
    for (let d = 0; d < DIMENSIONS; d++) meanZ[d] = (meanZ[d] ?? 0) + (rows[i * DIMENSIONS + d] ?? 0) / members;
  }
  const cross = new Float64Array(DIMENSIONS * m);
  const own = new Float64Array(m * m);
  for (let i = 0; i < members; i++) {
    for (let k = 0; k < m; k++) {
      const y = (-(innovations[i]?.[k] ?? 0) - (meanY[k] ?? 0)) / (members - 1);
      for (let d = 0; d < DIMENSIONS; d++) {
        cross[d * m + k] = (cross[d * m + k] ?? 0) + y * ((rows[i * DIMENSIONS + d] ?? 0) - (meanZ[d] ?? 0));
      }
      for (let j = 0; j <= k; j++) {
        own[k * m + j] = (own[k * m + j] ?? 0) + y * (-(innovations[i]?.[j] ?? 0) - (meanY[j] ?? 0));
      }
    }
  }
  for (let k = 0; k < m; k++) own[k * m + k] = (own[k * m + k] ?? 0) + PASSES;
  const factor = choleskyFactor(own, m);
  if (factor === null) return;
  const noise = Math.sqrt(PASSES);
  const right = new Float64Array(m);
  for (let i = 0; i < members; i++) {
    for (let k = 0; k < m; k++) right[k] = (innovations[i]?.[k] ?? 0) + noise * input.normal();
    solveInPlace(factor, right);
    for (let d = 0; d < DIMENSIONS; d++) {
      let move = 0;
      for (let k = 0; k < m; k++) move += (cross[d * m + k] ?? 0) * (right[k] ?? 0);
      const moved = (rows[i * DIMENSIONS + d] ?? 0) + move;
      // Regression can overshoot where answers are not linear; nothing lies further out than this in any kitchen.
      rows[i * DIMENSIONS + d] = Math.min(Math.max(moved, -FURTHEST_SD), FURTHEST_SD);
    }
  }
}

/** Solves factor factor' x = b in place, for a lower factor. */
function solveInPlace(factor: Float64Array, b: Float64Array): void {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    let sum = b[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (factor[i * n + k] ?? 0) * (b[k] ?? 0);
    b[i] = sum / (factor[i * n + i] ?? 1);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] ?? 0;
    for (let k = i + 1; k < n; k++) sum -= (factor[k * n + i] ?? 0) * (b[k] ?? 0);
    b[i] = sum / (factor[i * n + i] ?? 1);
  }
}
