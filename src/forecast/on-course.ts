import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Verb } from '../make/step.ts';
import type { Forecast } from './forecast.ts';

/** Why a make is not where it was planned to be. */
export type CourseReason =
  | { readonly code: 'begun'; readonly minutes: number }
  | { readonly code: 'hot-spell' | 'cold-spell'; readonly temperatureC: number; readonly minutes: number }
  | { readonly code: 'no-heat'; readonly minutes: number }
  | { readonly code: 'dose'; readonly ingredient: string; readonly fractionOfPlan: number }
  | { readonly code: 'acid' | 'setting' | 'heating' | 'whey' | 'cooling' | 'hands' };

/** Whether a make is on course, and where it departs: minutes since the batch's zero. */
export interface OnCourse {
  readonly state: 'on-course' | 'early' | 'late' | 'off' | 'too-little';
  /** The first step to come that is over at another time than planned, else the next to wait for; null where none is left. */
  readonly stepId: string | null;
  readonly nowMin: number;
  readonly plannedMin: number;
  /** The acid aim that is still ahead, its chance, and when it is decided; null where none is. */
  readonly aim: { readonly index: number; readonly chance: number; readonly atMin: number } | null;
  readonly because: CourseReason | null;
}

/** A shift smaller than this is not worth a word (common practice, no source). */
const SHIFT_WORTH_SAYING_MIN = 10;
/** Nor one smaller than this share of the time still to go: no band is drawn narrower (acidification notes 5.5, rule 3). */
const SHIFT_SHARE = 0.1;
/** Below even chances an aim is slipping. */
const SLIPPING_BELOW = 0.5;
/** A late start explains a shift of which it makes at least this share (our own choice). */
const EXPLAINS_SHARE = 0.5;

/**
 * Compares what is foreseen now with what was foreseen when the plan that runs was taken.
 * @param input.planned  the forecast as the batch was opened, or as the last choice was taken
 */
export function onCourse(input: {
  readonly plan: Plan;
  readonly history: History;
  readonly forecast: Forecast;
  readonly planned: Forecast | null;
}): OnCourse {
  const { plan, history, forecast, planned } = input;
  const aim = acidAim(plan, forecast);
  const next = nextShift({ plan, forecast, planned });
  const place = { stepId: next?.stepId ?? null, nowMin: next?.nowMin ?? Number.NaN, plannedMin: next?.plannedMin ?? Number.NaN, aim }; // prettier-ignore
  const shift = next === null ? 0 : next.nowMin - next.plannedMin;
  const isShifted = next !== null && isWorthSaying(next, forecast.nowMin);
  const because = next === null ? null : reasonFor({ ...input, next, shift });
  if (aim !== null && aim.chance < SLIPPING_BELOW) return { state: 'off', ...place, because: toldIn(plan, history) ?? because ?? { code: 'acid' } }; // prettier-ignore
  const told = toldIn(plan, history) !== null;
  if (history.readings.length + history.judgements.length === 0 && !told && !isShifted) return { state: 'too-little', ...place, because: null }; // prettier-ignore
  if (!isShifted) return { state: 'on-course', ...place, because: null };
  return { state: shift < 0 ? 'early' : 'late', ...place, because };
}

/** The acid aim whose moment is still to come. */
export function acidAim(plan: Plan, forecast: Pick<Forecast, 'aims' | 'steps'>): OnCourse['aim'] {
  for (const { aim: index, probability } of forecast.aims) {
    const aim = plan.make.aims[index];
    const moment = forecast.steps.find((step) => step.stepId === aim?.moment);
    if (aim?.quantity !== 'pH' || moment === undefined || moment.state === 'done') continue;
    return { index, chance: probability, atMin: moment.endMin.p50 };
  }
  return null;
}

interface Shift {
  readonly stepId: string;
  readonly verb: Verb;
  readonly nowMin: number;
  readonly plannedMin: number;
  /** How much later than planned the step now running, or the next one, begins. */
  readonly begunLaterMin: number;
}

/** The first step to come that is over at another time than planned; where none is, the next that the clock alone does not end. */
function nextShift(input: { plan: Plan; forecast: Forecast; planned: Forecast | null }): Shift | null {
  const { plan, forecast, planned } = input;
  let begunLaterMin = Number.NaN;
  let next: Shift | null = null;
  for (const step of plan.steps) {
    const now = forecast.steps.find((one) => one.stepId === step.id);
    const then = planned?.steps.find((one) => one.stepId === step.id);
    if (now === undefined || then === undefined || now.state === 'done') continue;
    if (Number.isNaN(begunLaterMin)) begunLaterMin = now.startMin.p50 - then.startMin.p50;
    if (!step.until.of.some((condition) => condition.kind !== 'time')) continue;
    if (!Number.isFinite(now.endMin.p50) || !Number.isFinite(then.endMin.p50)) continue;
    const shift = {
      stepId: step.id,
      verb: step.verb,
      nowMin: now.endMin.p50,
      plannedMin: then.endMin.p50,
      begunLaterMin,
    };
    if (isWorthSaying(shift, forecast.nowMin)) return shift;
    next ??= shift;
  }
  return next;
}

const isWorthSaying = ({ nowMin, plannedMin }: Shift, atMin: number): boolean =>
  Math.abs(nowMin - plannedMin) >= Math.max(SHIFT_WORTH_SAYING_MIN, SHIFT_SHARE * (nowMin - atMin));

function reasonFor(input: { plan: Plan; history: History; next: Shift; shift: number }): CourseReason {
  const { plan, history, next, shift } = input;
  if (next.begunLaterMin * Math.sign(shift) >= EXPLAINS_SHARE * Math.abs(shift)) return { code: 'begun', minutes: next.begunLaterMin }; // prettier-ignore
  return toldIn(plan, history) ?? { code: PROCESS[next.verb] ?? 'hands' };
}

/** What a step waits for. */
const PROCESS: Partial<Record<Verb, 'acid' | 'setting' | 'heating' | 'whey' | 'cooling'>> = {
  ripen: 'acid',
  restToAcid: 'acid',
  mat: 'acid',
  set: 'setting',
  warm: 'heating',
  cook: 'heating',
  wash: 'heating',
  stir: 'whey',
  drain: 'whey',
  cool: 'cooling',
};

/** The last thing that is known to have gone otherwise. */
function toldIn(plan: Plan, history: History): CourseReason | null {
  const odd = history.additions.find((entry) => entry.fractionOfPlan !== 1);
  const last = (history.disturbances ?? []).filter((one) => one.kind !== 'cut' && one.minutes > 0).at(-1);
  if (last?.kind === 'noHeat') return { code: 'no-heat', minutes: last.minutes };
  if (last?.kind === 'temperature') {
    const code = last.temperatureC > plannedC(plan, history, last.elapsedMin) ? 'hot-spell' : 'cold-spell';
    return { code, temperatureC: last.temperatureC, minutes: last.minutes };
  }
  return odd === undefined ? null : { code: 'dose', ingredient: odd.ingredient, fractionOfPlan: odd.fractionOfPlan };
}

/** What the vat was to be at; where no step says, at what the last one left it. */
function plannedC(plan: Plan, history: History, elapsedMin: number): number {
  const begun = new Set(history.steps.filter((step) => step.startedMin <= elapsedMin).map((step) => step.stepId));
  const wanted = plan.steps
    .filter((step) => begun.has(step.id))
    .flatMap(({ set }) => [set.atC ?? set.toC ?? set.stopAtC]);
  return wanted.filter((each) => typeof each === 'number').at(-1) ?? Number.NaN;
}
