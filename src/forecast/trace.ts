import { ACID_STATE } from '../science/acidification.ts';
import { changeToMiddle } from '../science/acidification-step.ts';
import { curdKgAt, curdWaterKg, noteCurd, type CurdState } from './contents.ts';
import { believedPH, believedPHAt } from './observe.ts';
import { TRACED, TRACE_EVERY_MIN, TRACE_POINTS } from './run.ts';
import { curdPHOf, wheyPHOf, type Vat } from './vat-state.ts';
import type { Walk } from './walk.ts';

/**
 * The trace: every traced quantity on one grid of minutes, whatever the integration steps are. Between the ends of a step it
 * follows the parabola through its start, its middle and its end.
 */

const CLOSE = 1e-9;

/** What a reading, a re-warming or a pour changed, changed at once: the next step's curve starts from here. */
export function traceFromHere(walk: Walk): void {
  noteValues(walk, walk.before);
}

/** Fills the trace from the last point up to now. */
export function traceTo(walk: Walk): void {
  const { vat, run, before, middle, after } = walk;
  noteValues(walk, after);
  const last = Math.min(Math.floor(vat.minute / TRACE_EVERY_MIN + CLOSE), TRACE_POINTS - 1);
  if (walk.tracedTo < last) {
    noteMiddle(walk);
    const from = vat.kept.minute;
    const span = vat.minute - from;
    for (let p = walk.tracedTo + 1; p <= last; p++) {
      const share = span > CLOSE ? Math.min(Math.max((p * TRACE_EVERY_MIN - from) / span, 0), 1) : 1;
      const ofBefore = (1 - share) * (1 - 2 * share);
      const ofMiddle = 4 * share * (1 - share);
      const ofAfter = share * (2 * share - 1);
      for (let q = 0; q < SALT; q++) {
        const end = after[q] ?? Number.NaN;
        const between = ofBefore * (before[q] ?? 0) + ofMiddle * (middle[q] ?? 0) + ofAfter * end;
        // What was not there before the step stands as it is after it.
        run.trace[q * TRACE_POINTS + p] = Number.isNaN(between) ? end : between;
      }
    }
    walk.tracedTo = last;
  }
  walk.before = after;
  walk.after = before;
}

/** Salt is traced in the brine, by `after-vat.ts`. */
const SALT = TRACED.indexOf('saltPercent');

/** The traced quantities as they stand, in the order of the trace. */
function noteValues({ vat, curd }: Walk, into: Float64Array): void {
  into[0] = believedPH(vat);
  into[1] = vat.conditions.phase === 'curd-in-whey' ? wheyPHOf(vat) : Number.NaN;
  into[2] = vat.temperatureC;
  if (isCut(vat)) noteCurd(vat, curd);
  noteWeight(vat, curd, into);
}

/** The same halfway through the step last made: as `advance` left it, and what had soured by then. */
function noteMiddle({ vat, before, middle: into, after, curd }: Walk): void {
  const { middle, acidWork, span } = vat;
  const hasWhey = vat.conditions.phase === 'curd-in-whey';
  let { curdPH, wheyPH } = middle;
  curd.wheyFraction = middle.curd.wheyFraction;
  curd.serumL = middle.curd.serumL;
  curd.strength = middle.curd.strength;
  curd.lactoseMM = middle.curd.lactoseMM;
  if (!Number.isNaN(vat.cultureMin)) {
    curdPH += changeToMiddle(acidWork, ACID_STATE.curdPH, span.hours);
    if (hasWhey) {
      const { lactatePerLactose } = vat.acidParameters.culture;
      wheyPH += changeToMiddle(acidWork, ACID_STATE.wheyPH, span.hours);
      curd.strength += changeToMiddle(acidWork, ACID_STATE.curdStrength, span.hours);
      curd.lactoseMM += changeToMiddle(acidWork, ACID_STATE.curdLactoseMM, span.hours);
      curd.lactoseMM += changeToMiddle(acidWork, ACID_STATE.curdLactateMM, span.hours) / lactatePerLactose;
    }
  }
  if (vat.curdWasRead) {
    // The member's own error runs straight from the one end to the other.
    const errorBefore = (before[0] ?? 0) - (vat.kept.acid[ACID_STATE.curdPH] ?? 0);
    const errorAfter = (after[0] ?? 0) - curdPHOf(vat);
    into[0] = curdPH + (errorBefore + errorAfter) / 2;
  } else into[0] = believedPHAt(vat, curdPH);
  into[1] = hasWhey ? wheyPH : Number.NaN;
  into[2] = middle.temperatureC;
  noteWeight(vat, curd, into);
}

const isCut = (vat: Vat): boolean => !Number.isNaN(vat.cutMin);

/** Moisture and weight of the curd, from the cut on. */
function noteWeight(vat: Vat, curd: CurdState, into: Float64Array): void {
  const curdKg = isCut(vat) ? curdKgAt(vat, curd) : Number.NaN;
  into[3] = isCut(vat) ? (100 * curdWaterKg(vat, curd.serumL)) / curdKg : Number.NaN;
  into[4] = curdKg;
}
