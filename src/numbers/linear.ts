/** Small dense matrices, row-major in one array: what a covariance of some dozens of inputs needs. */

/**
 * Lower Cholesky factor of a symmetric positive definite matrix (Cholesky-Banachiewicz, row by row).
 * @param matrix  n x n, row-major; only its lower half is read
 * @returns n x n, row-major, zero above the diagonal; null where the matrix is not positive definite
 */
export function choleskyFactor(matrix: Float64Array, n: number): Float64Array | null {
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (factor[i * n + k] ?? 0) * (factor[j * n + k] ?? 0);
      if (i === j) {
        if (!(sum > 0)) return null;
        factor[i * n + i] = Math.sqrt(sum);
      } else {
        factor[i * n + j] = sum / (factor[j * n + j] ?? 1);
      }
    }
  }
  return factor;
}

/** Writes `factor * z` into `out`, for a lower factor. */
export function lowerTimes(factor: Float64Array, z: ArrayLike<number>, out: Float64Array): void {
  const n = out.length;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let k = 0; k <= i; k++) sum += (factor[i * n + k] ?? 0) * (z[k] ?? 0);
    out[i] = sum;
  }
}

/** True where a lower factor is nought but on its diagonal. */
export function isDiagonal(factor: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) if (factor[i * n + j] !== 0) return false;
  return true;
}

/** Squared length of the solution of `factor * x = difference`, and the log of the factor's determinant: what a normal density needs. */
export function normalExponent(factor: Float64Array, difference: Float64Array, work: Float64Array): number {
  const n = difference.length;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    let sum = difference[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (factor[i * n + k] ?? 0) * (work[k] ?? 0);
    const x = sum / (factor[i * n + i] ?? 1);
    work[i] = x;
    squares += x * x;
  }
  return squares;
}

export function logDeterminant(factor: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(factor[i * n + i] ?? 1);
  return sum;
}

/** Solves `factor * factor' * x = b` in place, for a lower factor: `b` becomes `x`. */
export function choleskySolve(factor: Float64Array, b: Float64Array): void {
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
