import { ACID_STATE } from '../science/acidification.ts';
import type { Vat } from './vat-state.ts';

/**
 * Longest integration step [min]: under 0.01 pH and 0.05 K of a fine reference, ends of steps within a minute
 * (`step-size.test.ts`).
 */
export const STEP_MIN = 10;
const SLOW_FROM_MIN = 2880; // after two days nothing in a curd is quick any more: our own choice
const SLOWLY = 6; // our own choice
const STEPS_TO_SUGAR_END = 3; // our own choice
/** A step may be so much longer where it then ends on what comes next: rather that than a short one after it. Our own choice. */
const LITTLE_MORE = 1.25;

/** How long the next integration step is, with `aheadMin` to go until something happens. */
export function nextStepMin(vat: Vat, stepMin: number, aheadMin: number): number {
  const longest = longestStepMin(vat, stepMin);
  if (aheadMin <= LITTLE_MORE * longest) return aheadMin;
  return aheadMin < 2 * longest ? aheadMin / 2 : longest;
}

/**
 * Steps are halved while the flecks are still to come (a rate that follows the cooling milk, and a moment to be met), and
 * where the curd's sugar, used as it is now, would be gone within a few of them: the souring then stops short.
 */
function longestStepMin(vat: Vat, stepMin: number): number {
  if (vat.minute > SLOW_FROM_MIN) return SLOWLY * stepMin;
  if (!Number.isNaN(vat.rennetMin) && Number.isNaN(vat.flocculationMin)) return stepMin / 2;
  const usedPerHour = -(vat.acidWork.k1[ACID_STATE.curdLactoseMM] ?? 0);
  const left = vat.acid[ACID_STATE.curdLactoseMM] ?? 0;
  return usedPerHour * STEPS_TO_SUGAR_END * (stepMin / 60) > left ? stepMin / 2 : stepMin;
}
