/**
 * Heat conduction by finite volumes, written for the tests alone and on another principle than the series of the house:
 * shells of equal thickness, each keeping its own heat, stepped implicitly (Crank and Nicolson). Lengths in half
 * thicknesses or radii, time as Fourier number, temperature as the share of the first difference to the bath.
 */

/** 0 for a slab, 1 for a cylinder, 2 for a sphere. */
export type Curvature = 0 | 1 | 2;

export interface Shells {
  readonly curvature: Curvature;
  /** Volume of each shell, the whole body 1/(curvature + 1). */
  readonly volume: Float64Array;
  /** Conductance between each shell and the next outward; the last is that to the bath. */
  readonly conductance: Float64Array;
}

/** A body cut into shells; the surface passes heat by its Biot number (Infinity: it is at the bath; 0: none). */
export function shellsOf(body: { curvature: Curvature; biot: number; cells: number }): Shells {
  const { curvature, biot, cells } = body;
  const width = 1 / cells;
  const power = curvature + 1;
  const volume = Float64Array.from(
    { length: cells },
    (_, i) => (((i + 1) * width) ** power - (i * width) ** power) / power,
  );
  const conductance = Float64Array.from({ length: cells }, (_, i) => {
    const area = ((i + 1) * width) ** curvature;
    if (i < cells - 1) return area / width;
    return biot === 0 ? 0 : area / (width / 2 + 1 / biot);
  });
  return { curvature, volume, conductance };
}

/** One step of the shares, in place, toward a bath share; theta 1/2 is Crank and Nicolson, 1 is fully implicit. */
export function stepShells(of: {
  shells: Shells;
  share: Float64Array;
  bath: number;
  fourierStep: number;
  theta: number;
}): void {
  const { shells, share, bath, fourierStep, theta } = of;
  const { volume, conductance } = shells;
  const n = share.length;
  const flow = (i: number): number => {
    const inward = i === 0 ? 0 : (conductance[i - 1] ?? 0) * ((share[i - 1] ?? 0) - (share[i] ?? 0));
    const outer = i === n - 1 ? bath : (share[i + 1] ?? 0);
    return inward + (conductance[i] ?? 0) * (outer - (share[i] ?? 0));
  };
  const right = share.map((value, i) => (volume[i] ?? 0) * value + (1 - theta) * fourierStep * flow(i));
  right[n - 1] = (right[n - 1] ?? 0) + theta * fourierStep * (conductance[n - 1] ?? 0) * bath;
  // Thomas's elimination of the tridiagonal system.
  const upper = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const below = i === 0 ? 0 : -theta * fourierStep * (conductance[i - 1] ?? 0);
    const above = i === n - 1 ? 0 : -theta * fourierStep * (conductance[i] ?? 0);
    const middle =
      (volume[i] ?? 0) + theta * fourierStep * ((i === 0 ? 0 : (conductance[i - 1] ?? 0)) + (conductance[i] ?? 0));
    const pivot = middle - below * (i === 0 ? 0 : (upper[i - 1] ?? 0));
    upper[i] = above / pivot;
    right[i] = ((right[i] ?? 0) - below * (i === 0 ? 0 : (right[i - 1] ?? 0))) / pivot;
  }
  for (let i = n - 1; i >= 0; i--) {
    share[i] = (right[i] ?? 0) - (upper[i] ?? 0) * (i === n - 1 ? 0 : (share[i + 1] ?? 0));
  }
}

/** Mean over the volume. */
export function meanOf(shells: Shells, share: Float64Array): number {
  const total = shells.volume.reduce((sum, each) => sum + each, 0);
  return share.reduce((sum, each, i) => sum + each * (shells.volume[i] ?? 0), 0) / total;
}

/** Mean and centre of a body that starts at 1 in a bath at 0, after a Fourier number. */
export function cooledByVolumes(of: { curvature: Curvature; biot: number; fourier: number; cells?: number }): {
  readonly mean: number;
  readonly centre: number;
} {
  const shells = shellsOf({ ...of, cells: of.cells ?? 400 });
  const share = new Float64Array(of.cells ?? 400).fill(1);
  const steps = 1200;
  // Steps grow evenly from small ones, because everything happens fast at first; the first few damp the jump.
  const unit = of.fourier / ((steps * (steps + 1)) / 2);
  for (let i = 1; i <= steps; i++) {
    stepShells({ shells, share, bath: 0, fourierStep: i * unit, theta: i <= 8 ? 1 : 0.5 });
  }
  // The innermost shells are flat: a parabola through two of them meets the axis.
  const centre = (share[0] ?? 0) + ((share[0] ?? 0) - (share[1] ?? 0)) / 8;
  return { mean: meanOf(shells, share), centre };
}
