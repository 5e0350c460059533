import type { History } from '../make/history.ts';
import { wheyStepAt } from './as-done.ts';
import { wheyContents, wheyLitres } from './contents.ts';
import type { Course } from './course.ts';
import { note, SLIP_SPAN, weigh } from './evidence.ts';
import { MOST_DRAWN } from './pouring.ts';
import type { MemberRun } from './run.ts';
import type { Vat } from './vat-state.ts';

const WHEY_LN_SD = 0.06; // marks on a bucket, what clings and what drips on: our own choice
const DRAWN_AS_PLANNED_SD = 0.3; // of the planned volume; hands stop where it suits them: our own choice

/**
 * Whey measured as it was drawn or ran off. What was drawn is known from then on (`as-done.ts`); as evidence it says that so
 * much stood free. Whey that ran off in draining is all the whey that was there, and weighs moisture and yield both ways.
 * Several measurements of one drawing: each is its total up to then.
 */
export function observeWhey(input: {
  vat: Vat;
  run: MemberRun;
  course: Course;
  index: number;
  reading: History['readings'][number];
}): void {
  const { vat, run, course, index, reading } = input;
  const step = wheyStepAt(course.steps, reading.elapsedMin);
  if (step === undefined || !(reading.value > 0)) return;
  const milkL = course.plan.setup.milk.volumeL;
  const isOver = Number.isFinite(vat.freeWheyL) && step.endedMin !== null && step.endedMin < reading.elapsedMin;
  const freeL = isOver ? vat.freeWheyL : wheyLitres(wheyContents(vat));
  if (!(freeL > 0)) return;
  const weighed = (z: number): void => weigh(run, index, { z, sd: WHEY_LN_SD, span: SLIP_SPAN.ln });
  if (step.verb === 'drain') {
    // Half-way through a draining its whey is not yet what ran off; the last measurement is.
    if (step.endedMin === null || reading.value !== step.wheyOffL) return;
    note(run, index, freeL, WHEY_LN_SD * freeL);
    weighed(Math.log(reading.value / freeL) / WHEY_LN_SD);
    return;
  }
  const share = step.plan.set.fractionOfVat;
  const wantedL = typeof share === 'number' ? share * milkL : freeL;
  const mostL = MOST_DRAWN * freeL;
  note(run, index, Math.min(wantedL, mostL), DRAWN_AS_PLANNED_SD * wantedL);
  weighed(Math.max(Math.log(reading.value / mostL), 0) / WHEY_LN_SD);
}
