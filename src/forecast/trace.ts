import { ACID_STATE } from '../science/acidification.ts';
import { believedPH } from './observe.ts';
import { TRACE_EVERY_MIN, TRACE_POINTS } from './run.ts';
import { curdKgAt, curdKgOf, curdMoistureAt, curdMoistureOf, curdPHOf, wheyPHOf, type Vat } from './vat-state.ts';
import type { Walk } from './walk.ts';

/**
 * The trace: every traced quantity on one grid of minutes, whatever the integration steps are. Between the ends of a step it
 * follows the parabola through its start, its middle and its end.
 */

const CLOSE = 1e-9;

/** What a reading, a re-warming or a pour changed, changed at once: the next step's curve starts from here. */
export function traceFromHere(walk: Walk): void {
  noteValues(walk.vat, walk.before);
}

/** Fills the trace from the last point up to now. */
export function traceTo(walk: Walk): void {
  const { vat, run, before, after } = walk;
  noteValues(vat, after);
  const last = Math.min(Math.floor(vat.minute / TRACE_EVERY_MIN + CLOSE), TRACE_POINTS - 1);
  const from = vat.kept.minute;
  const span = vat.minute - from;
  for (let p = walk.tracedTo + 1; p <= last; p++) {
    const share = span > CLOSE ? Math.min(Math.max((p * TRACE_EVERY_MIN - from) / span, 0), 1) : 1;
    for (let q = 0; q < after.length; q++) {
      const end = after[q] ?? Number.NaN;
      const start = before[q] ?? Number.NaN;
      const middle = middleValue(walk, q);
      run.trace[q * TRACE_POINTS + p] =
        Number.isNaN(middle) || Number.isNaN(start)
          ? end
          : (1 - share) * (1 - 2 * share) * start + 4 * share * (1 - share) * middle + share * (2 * share - 1) * end;
    }
    walk.tracedTo = p;
  }
  walk.before = after;
  walk.after = before;
}

/** The traced quantities as they stand, in the order of the trace. */
function noteValues(vat: Vat, into: Float64Array): void {
  const cut = !Number.isNaN(vat.cutMin);
  into[0] = believedPH(vat);
  into[1] = vat.conditions.phase === 'curd-in-whey' ? wheyPHOf(vat) : Number.NaN;
  into[2] = vat.temperatureC;
  into[3] = cut ? curdMoistureOf(vat) : Number.NaN;
  into[4] = cut ? curdKgOf(vat) : Number.NaN;
  into[5] = Number.NaN;
}

/** One of them halfway through the step last made; NaN where it has none. */
function middleValue({ vat, before, after }: Walk, quantity: number): number {
  const { middle } = vat;
  const isCut = !Number.isNaN(vat.cutMin);
  switch (quantity) {
    case 0: {
      // The member's own error runs straight from the one end to the other.
      const errorBefore = (before[0] ?? 0) - (vat.kept.acid[ACID_STATE.curdPH] ?? 0);
      const errorAfter = (after[0] ?? 0) - curdPHOf(vat);
      return middle.curdPH + (errorBefore + errorAfter) / 2;
    }
    case 1:
      return vat.conditions.phase === 'curd-in-whey' ? middle.wheyPH : Number.NaN;
    case 2:
      return middle.temperatureC;
    case 3:
      return isCut ? curdMoistureAt(vat, middle.wheyFraction, middle.curdStrength) : Number.NaN;
    case 4:
      return isCut ? curdKgAt(vat, middle.wheyFraction) : Number.NaN;
    default:
      return Number.NaN;
  }
}
