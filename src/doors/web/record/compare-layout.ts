/** Where names and ticks of the comparison stand. Pure. */

/** Names nearer than this lie on each other, px. */
const APART_PX = 22;

/**
 * Moves names that would lie on each other apart, and keeps all inside the frame; their order stays.
 * @returns the place of each, in the order of the ideals
 */
export function labelPlaces(input: {
  readonly ideals: readonly number[];
  readonly heightPx: number;
}): readonly number[] {
  const { ideals, heightPx } = input;
  const order = ideals.map((_, index) => index).sort((a, b) => (ideals[a] ?? 0) - (ideals[b] ?? 0));
  const places: number[] = ideals.map(() => 0);
  let least = 8;
  for (const index of order) {
    const place = Math.max(least, ideals[index] ?? 0);
    places[index] = place;
    least = place + APART_PX;
  }
  // Whatever ran over the foot moves up again.
  let most = heightPx - 4;
  for (const index of [...order].reverse()) {
    const place = Math.min(most, places[index] ?? 0);
    places[index] = place;
    most = place - APART_PX;
  }
  return places;
}

/** Round minutes for the axis, hours where it is long. */
export function axisTicks(input: {
  readonly fromMin: number;
  readonly toMin: number;
  readonly most: number;
}): readonly number[] {
  const { fromMin, toMin, most } = input;
  const step = [15, 30, 60, 120, 240, 480].find((one) => (toMin - fromMin) / one <= most) ?? 1440;
  const ticks: number[] = [];
  // Adding nothing makes a plain zero of a negative one.
  for (let tick = Math.ceil(fromMin / step) * step; tick <= toMin; tick += step) ticks.push(tick + 0);
  return ticks;
}
