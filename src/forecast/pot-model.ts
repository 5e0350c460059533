import { choleskyFactor, choleskySolve, logDeterminant, normalExponent } from '../numbers/linear.ts';
import type { EvidenceLine } from './pot-evidence.ts';
import { SHARES, type SharedThing } from './shares.ts';
import { DIMENSIONS, UNCERTAIN } from './uncertain.ts';

/** One pot of a class as the joint model sees it. */
export interface PotLines {
  readonly id: string;
  readonly lines: readonly EvidenceLine[];
}

/** Which pots share what, and which pot has been found to differ in which thing. */
export interface Bonds {
  readonly shares: (a: string, b: string, thing: SharedThing) => boolean;
  readonly isFreed: (id: string, thing: SharedThing) => boolean;
}

/** A pot that differs may differ by so many standard deviations of what is usual: a double dose, a forgotten packet. Our own choice. */
const FREED_SD = 3;

const THING = UNCERTAIN.map((name) => SHARES[name]?.thing ?? null);
const SHARE = Float64Array.from(UNCERTAIN, (name) => SHARES[name]?.share ?? 0);

/** Prior covariance of one input between two pots, in standard units. */
function bond(bonds: Bonds, pots: { a: string; b: string }, d: number): number {
  const { a, b } = pots;
  const thing = THING[d] ?? null;
  if (thing === null) return a === b ? 1 : 0;
  if (a === b) return bonds.isFreed(a, thing) ? FREED_SD * FREED_SD : 1;
  if (bonds.isFreed(a, thing) || bonds.isFreed(b, thing) || !bonds.shares(a, b, thing)) return 0;
  return SHARE[d] ?? 0;
}

interface Row extends EvidenceLine {
  readonly id: string;
}

const rowsOf = (pots: readonly PotLines[]): Row[] =>
  pots.flatMap(({ id, lines }) => lines.map((line) => ({ ...line, id })));

/** Covariance of all notes before they were read, by the rows. */
function covarianceOf(rows: readonly Row[], bonds: Bonds): Float64Array {
  const n = rows.length;
  const matrix = new Float64Array(n * n);
  const between = new Map<string, Float64Array>();
  const bondsOf = (a: string, b: string): Float64Array => {
    const key = `${a}\n${b}`;
    const known = between.get(key) ?? Float64Array.from({ length: DIMENSIONS }, (_, d) => bond(bonds, { a, b }, d));
    between.set(key, known);
    return known;
  };
  rows.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      const other = rows[j];
      if (other === undefined) continue;
      const k = bondsOf(row.id, other.id);
      let sum = i === j ? row.variance : 0;
      for (let d = 0; d < DIMENSIONS; d++) sum += (k[d] ?? 0) * (row.slopes[d] ?? 0) * (other.slopes[d] ?? 0);
      matrix[i * n + j] = sum;
      matrix[j * n + i] = sum;
    }
  });
  return matrix;
}

/** Log-density of all notes under these bonds, but for the constant that all bonds share: what tells an odd pot. */
export function logEvidence(pots: readonly PotLines[], bonds: Bonds): number {
  const rows = rowsOf(pots);
  if (rows.length === 0) return 0;
  const factor = choleskyFactor(covarianceOf(rows, bonds), rows.length);
  if (factor === null) return Number.NEGATIVE_INFINITY;
  const values = Float64Array.from(rows, (row) => row.value);
  return -0.5 * normalExponent(factor, values, new Float64Array(rows.length)) - logDeterminant(factor, rows.length);
}

/** What the other pots' notes say of one pot's inputs: mean and covariance in standard units, its own notes not counted. */
export function toldByOthers(input: { id: string; pots: readonly PotLines[]; bonds: Bonds }): {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
} {
  const { id, bonds } = input;
  const rows = rowsOf(input.pots.filter((pot) => pot.id !== id));
  const n = DIMENSIONS;
  const mean = new Float64Array(n);
  const covariance = new Float64Array(n * n);
  for (let d = 0; d < n; d++) covariance[d * n + d] = 1;
  const factor = rows.length === 0 ? null : choleskyFactor(covarianceOf(rows, bonds), rows.length);
  if (factor === null) return { mean, covariance };
  const weights = Float64Array.from(rows, (row) => row.value);
  choleskySolve(factor, weights);
  const cross = (d: number): Float64Array =>
    Float64Array.from(rows, (row) => bond(bonds, { a: id, b: row.id }, d) * (row.slopes[d] ?? 0));
  const all = Array.from({ length: n }, (_, d) => cross(d));
  all.forEach((column, d) => {
    mean[d] = column.reduce((sum, c, r) => sum + c * (weights[r] ?? 0), 0);
    const solved = column.slice();
    choleskySolve(factor, solved);
    all.forEach((other, e) => {
      covariance[e * n + d] = (covariance[e * n + d] ?? 0) - other.reduce((sum, c, r) => sum + c * (solved[r] ?? 0), 0);
    });
  });
  return { mean, covariance };
}

/** How much one pot's notes can say of another: information on what both share, in units of the prior's. */
export function informs(input: { from: PotLines; id: string; bonds: Bonds }): number {
  const { from, id, bonds } = input;
  let sum = 0;
  for (let d = 0; d < DIMENSIONS; d++) {
    const shared = bond(bonds, { a: id, b: from.id }, d);
    if (shared > 0) for (const { slopes, variance } of from.lines) sum += (shared * (slopes[d] ?? 0)) ** 2 / variance;
  }
  return sum;
}
