/** Small dense linear algebra for a handful of numbers: Gauss-Jordan, textbook. */

/** Inverse of a small matrix that has one. */
export function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...Array.from({ length: size }, (_, j) => Number(i === j))]);
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let row = column; row < size; row++) {
      if (Math.abs(work[row]?.[column] ?? 0) > Math.abs(work[best]?.[column] ?? 0)) best = row;
    }
    const pivotRow = work[best];
    const swapped = work[column];
    if (pivotRow === undefined || swapped === undefined) throw new RangeError('not square');
    work[best] = swapped;
    const pivot = pivotRow[column] ?? 0;
    const scaled = pivotRow.map((value) => value / pivot);
    work[column] = scaled;
    for (const [row, values] of work.entries()) {
      if (row === column) continue;
      const factor = values[column] ?? 0;
      work[row] = values.map((value, i) => value - factor * (scaled[i] ?? 0));
    }
  }
  return work.map((row) => row.slice(size));
}

/** Slopes of `seen` on the columns of `design`, and the mean square of what is left. */
export function leastSquares(
  design: readonly (readonly number[])[],
  seen: readonly number[],
): { readonly slopes: readonly number[]; readonly residualVariance: number } {
  const width = design[0]?.length ?? 0;
  const sums = Array.from({ length: width }, (_, i) =>
    Array.from({ length: width }, (_unused, j) => design.reduce((sum, row) => sum + (row[i] ?? 0) * (row[j] ?? 0), 0)),
  );
  const products = Array.from({ length: width }, (_, i) =>
    design.reduce((sum, row, k) => sum + (row[i] ?? 0) * (seen[k] ?? 0), 0),
  );
  const slopes = inverse(sums).map((row) => row.reduce((sum, value, j) => sum + value * (products[j] ?? 0), 0));
  const left = design.map(
    (row, k) => (seen[k] ?? 0) - row.reduce((sum, value, i) => sum + value * (slopes[i] ?? 0), 0),
  );
  return {
    slopes,
    residualVariance: left.reduce((sum, value) => sum + value * value, 0) / Math.max(seen.length - width, 1),
  };
}
