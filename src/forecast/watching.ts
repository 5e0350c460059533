import { judgementThreshold } from '../science/judgements.ts';
import type { CourseStep, Watch } from './course.ts';
import { believedPH, calciumOf } from './observe.ts';
import { curdKgOf, curdMoistureOf } from './contents.ts';
import { firmnessOf, wheyPHOf, type Vat } from './vat-state.ts';

/** What a stretch of the walk is watched for, as this member's maker sees it. One object is reused from stretch to stretch. */
export interface Watching {
  watches: readonly Watch[];
  join: CourseStep['join'];
  /**
   * Beside each watch: the minute where the clock ends it, or where this maker says "now"; NaN where neither holds. What stands
   * past the last watch is left over from a stretch with more of them: the list is never cut, so that its room stays.
   */
  readonly thresholds: number[];
}

const CLOSE = 1e-9;
const DAY_MIN = 1440;

/** Turns to other watches, from the minute their step began. */
export function watchFor(
  watching: Watching,
  ends: { watches: readonly Watch[]; join: CourseStep['join'] },
  vat: Vat,
  startedMin: number,
): void {
  const { watches } = ends;
  watching.watches = watches;
  watching.join = ends.join;
  for (let i = 0; i < watches.length; i++) {
    const watch = watches[i];
    if (watch !== undefined) watching.thresholds[i] = thresholdOf(watch, vat, startedMin);
  }
}

function thresholdOf(watch: Watch, vat: Vat, startedMin: number): number {
  if (watch.kind === 'time') return startedMin + watch.minutes * (watch.byHands ? vat.inputs.pace : 1);
  if (watch.kind === 'days') return startedMin + DAY_MIN * watch.days;
  if (watch.kind !== 'judgement') return Number.NaN;
  const { mean, sd } = judgementThreshold({ judgement: watch.judgement, grade: watch.grade, ...calciumOf(vat) });
  return mean + sd * (watch.judgement === 'stretch' ? vat.inputs.stretchZ : vat.inputs.breakZ);
}

/** How far the end condition is met: negative before, zero or more after. */
export function howFarMet(watching: Watching, vat: Vat): number {
  const { watches, thresholds } = watching;
  if (watches.length === 0) return -1;
  const isFirst = watching.join === 'first';
  let result = isFirst ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  for (let i = 0; i < watches.length; i++) {
    const watch = watches[i];
    if (watch === undefined) continue;
    const threshold = thresholds[i] ?? Number.NaN;
    // Most steps end by the clock: those are not asked what else they might wait for.
    const value = watch.kind === 'time' ? vat.minute - threshold + CLOSE : metBy(watch, threshold, vat);
    result = isFirst ? Math.max(result, value) : Math.min(result, value);
  }
  return result;
}

function metBy(watch: Watch, threshold: number, vat: Vat): number {
  switch (watch.kind) {
    case 'time':
    case 'days':
      return vat.minute - threshold + CLOSE;
    case 'temperature':
      return vat.temperatureC - watch.atC;
    case 'cooled':
      return watch.atC - vat.temperatureC;
    case 'pH':
      return (
        watch.at - (watch.sample === 'whey' && vat.conditions.phase !== 'drained' ? wheyPHOf(vat) : believedPH(vat))
      );
    case 'flocculation':
      return Number.isNaN(vat.flocculationMin)
        ? -1e6
        : vat.minute - vat.rennetMin - watch.multiplier * (vat.flocculationMin - vat.rennetMin) + CLOSE;
    case 'judgement':
      switch (watch.judgement) {
        case 'stretch':
        case 'acidGel':
        case 'flocs':
        case 'millTear':
          return threshold - believedPH(vat);
        case 'cleanBreak':
          return firmnessOf(vat) - threshold;
        case 'grip':
        case 'panTrack':
          return threshold - curdMoistureOf(vat);
        case 'wheyTaste':
          return threshold - (vat.conditions.phase === 'drained' ? believedPH(vat) : wheyPHOf(vat));
        case 'tang':
          return vat.inputs.startPH - believedPH(vat) - threshold;
      }
    case 'moisture':
      return watch.percent - curdMoistureOf(vat);
    case 'mass':
      return watch.kgPerL - curdKgOf(vat) / vat.inputs.ground.plan.setup.milk.volumeL;
    // Sizes and salt are met out of the vat, by closed forms.
    case 'coreTemperature':
    case 'salt':
      return -1;
  }
}

/** Ends that the clock alone decides are met exactly, by ending an integration step on them. */
export function nextClockEnd(watching: Watching, vat: Vat, untilMin: number): number {
  const { watches, thresholds } = watching;
  let until = untilMin;
  for (let i = 0; i < watches.length; i++) {
    const watch = watches[i];
    if (watch === undefined) continue;
    let at = Number.NaN;
    if (watch.kind === 'time' || watch.kind === 'days') at = thresholds[i] ?? Number.NaN;
    if (watch.kind === 'flocculation') at = vat.rennetMin + watch.multiplier * (vat.flocculationMin - vat.rennetMin);
    if (at > vat.minute + CLOSE && at < until) until = at;
  }
  return until;
}
