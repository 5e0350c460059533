/** A plan on the wall clock: forwards from a start, or back from when one must be done, and what to start meanwhile. */
import { dayEndStep, OVERNIGHT_MIN } from '../forecast/day-end.ts';
import type { Forecast } from '../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Preparation } from '../make/step.ts';

const MINUTE_MS = 60_000;
/** Start times are given to five minutes: nobody lights a burner at 8:53. */
const ROUND_MIN = 5;
/**
 * Makes in 20 that are meant to be done in time. The last two are left to the answer that a late curd has anyway, to be
 * chilled and stretched tomorrow: planning for them would start every make in the night. Our own choice.
 */
const KEPT_IN_20 = 18;
const LEAST_IN_20 = 10;
/** Begun this long before, or earlier, it is the work of the evening before. Our own choice. */
const EVENING_LEAD_MIN = 360;

/** When the maker wants to be done, or to start; milliseconds UTC. */
export interface ClockWish {
  readonly mode: 'done-by' | 'start-at';
  readonly at: number;
}

export interface Schedule {
  /** What the clock shows at minute zero, milliseconds UTC. */
  readonly zeroAt: number;
  /** The likeliest end of the day's last step that wants hands. */
  readonly endAt: number;
  /** The end that `keptIn20` makes in 20 keep. */
  readonly endLateAt: number;
  /** 18, or fewer where so many makes are not seen to end at all. */
  readonly keptIn20: number;
  /** The day's last step that wants hands. */
  readonly lastStepId: string;
  /** Done-by only: the start would lie in the past. `earliestEndAt` is what starting now would bring. */
  readonly tooLate: { readonly earliestEndAt: number } | null;
}

/**
 * Hangs a plan on the clock. `done-by` works back from the end of the day's last hands-on step that 18 makes in 20 keep;
 * `start-at` goes forwards.
 * @param input.now milliseconds UTC; a start before it is too late
 * @returns null when fewer than half of the makes are seen to end
 */
export function scheduleOf(input: {
  readonly plan: Pick<Plan, 'steps'>;
  readonly forecast: Forecast;
  readonly wish: ClockWish;
  readonly now: number;
}): Schedule | null {
  const { wish } = input;
  const day = dayLength(input);
  if (day === null) return null;
  const { likelyMin, keptMin: lateMin, keptIn20, lastStepId } = day;
  const round = ROUND_MIN * MINUTE_MS;
  const zeroAt = wish.mode === 'start-at' ? wish.at : Math.floor((wish.at - lateMin * MINUTE_MS) / round) * round;
  const soonest = Math.ceil(input.now / round) * round;
  return {
    zeroAt,
    endAt: zeroAt + likelyMin * MINUTE_MS,
    endLateAt: zeroAt + lateMin * MINUTE_MS,
    keptIn20,
    lastStepId,
    tooLate: wish.mode === 'done-by' && zeroAt < input.now ? { earliestEndAt: soonest + lateMin * MINUTE_MS } : null,
  };
}

/** From the first step to the day's last step that wants hands [min]. */
export interface DayLength {
  readonly likelyMin: number;
  /** What `keptIn20` makes in 20 keep. */
  readonly keptMin: number;
  readonly keptIn20: number;
  readonly lastStepId: string;
}

/**
 * How long the day of a plan is.
 * @returns null when fewer than half of the makes are seen to end
 */
export function dayLength(input: {
  readonly plan: Pick<Plan, 'steps'>;
  readonly forecast: Pick<Forecast, 'steps'>;
}): DayLength | null {
  const last = lastOfTheDay(input);
  if (last === undefined || !Number.isFinite(last.endMin.p50)) return null;
  let keptIn20 = KEPT_IN_20;
  while (keptIn20 > LEAST_IN_20 && !Number.isFinite(keptBy(last.endDots, keptIn20))) keptIn20--;
  const keptMin = keptBy(last.endDots, keptIn20);
  return Number.isFinite(keptMin) ? { likelyMin: last.endMin.p50, keptMin, keptIn20, lastStepId: last.stepId } : null;
}

/**
 * When so many makes of twenty are through, from twenty equally likely times: halfway between the last of them and the
 * next, because the eighteenth dot itself stands for 17.5 makes in 20 only. Infinity where the next is not seen to end.
 */
export function keptBy(dots: readonly number[], count: number): number {
  const last = dots[count - 1] ?? Number.NaN;
  const next = dots[count] ?? last;
  return Number.isFinite(next) ? (last + next) / 2 : next;
}

/** The day's end as it is told, every time rounded outward to five minutes. */
export interface Finish {
  readonly aboutAt: number;
  /** 1 make in 20 is done before. */
  readonly earlyAt: number;
  /** `keptIn20` makes in 20 are done by then. */
  readonly keptAt: number;
  readonly keptIn20: number;
  /** 1 make in 20 ends later; null where so many are not seen to end at all. */
  readonly lateAt: number | null;
}

/** One early and two late figures of the same last step, so that nobody has to set two spans against each other. */
export function finishOf(input: { readonly schedule: Schedule; readonly forecast: Forecast }): Finish {
  const { schedule, forecast } = input;
  const last = forecast.steps.find((step) => step.stepId === schedule.lastStepId)?.endMin;
  const at = (minutes: number): number => schedule.zeroAt + minutes * MINUTE_MS;
  const toFive = (atMs: number, rounding: (value: number) => number): number =>
    rounding(atMs / (ROUND_MIN * MINUTE_MS)) * ROUND_MIN * MINUTE_MS;
  const late = last?.p95 ?? Number.POSITIVE_INFINITY;
  return {
    aboutAt: toFive(schedule.endAt, Math.round),
    earlyAt: last === undefined ? schedule.zeroAt : toFive(at(last.p5), Math.floor),
    keptAt: toFive(schedule.endLateAt, Math.ceil),
    keptIn20: schedule.keptIn20,
    lateAt: Number.isFinite(late) ? toFive(at(late), Math.ceil) : null,
  };
}

/** Forecast of the last step of the first day that wants hands. */
function lastOfTheDay(input: {
  readonly plan: Pick<Plan, 'steps'>;
  readonly forecast: Pick<Forecast, 'steps'>;
}): Forecast['steps'][number] | undefined {
  const foreseen = new Map(input.forecast.steps.map((step) => [step.stepId, step]));
  const lengthMin = (stepId: string): number | undefined => {
    const step = foreseen.get(stepId);
    return step === undefined ? undefined : step.endMin.p50 - step.startMin.p50;
  };
  const last = dayEndStep({ steps: input.plan.steps, lengthMin });
  return foreseen.get(last ?? '') ?? input.forecast.steps.at(-1);
}

/** Something to start while something else runs. */
export interface TimedPreparation {
  readonly id: string;
  readonly step: PlannedStep;
  readonly preparation: Preparation;
  /** Minutes since zero; negative before it. */
  readonly startMin: number;
  /** The work of the evening before: begun so early that no time of the clock is meant. */
  readonly isEveningBefore: boolean;
  /** The evening before is over: `preparation.ifLate` says what to do now, where the make knows. */
  readonly isTooLate: boolean;
}

/** A preparation that is begun the evening before, or earlier still. */
export const isForTheEvening = (preparation: Preparation): boolean => preparation.leadMinutes.value >= EVENING_LEAD_MIN;

/**
 * True where the night that such a preparation needs is gone. A night freezes ice and chills brine, whatever longer time
 * the make asks for.
 * @param input.leftMin until it must be ready [min]
 */
export const isNightGone = (input: { readonly preparation: Preparation; readonly leftMin: number }): boolean =>
  isForTheEvening(input.preparation) && input.leftMin < Math.min(input.preparation.leadMinutes.value, OVERNIGHT_MIN);

/**
 * Parallel preparations in the order of the clock. Each is counted back from the early end of its step's start (5 makes
 * in 100), so that it is ready when the step comes sooner than expected; the stretching water from the first look at the
 * curd, by the time that this burner takes for it.
 */
export function preparationsOf(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  /** Minutes since zero, negative before it; left out, the plan is for another day. */
  readonly nowMin?: number;
}): TimedPreparation[] {
  const { plan, forecast, nowMin = Number.NEGATIVE_INFINITY } = input;
  const early = new Map(forecast.steps.map((step) => [step.stepId, step.startMin.p5]));
  return plan.steps
    .flatMap((step, index) =>
      step.prepare.map((preparation): TimedPreparation => {
        const leadMin = preparation.leadMinutes.value;
        const burnerMin = forecast.needs.stretchWaterHeatMin?.p75;
        const lookMin = preparation.amount === 'stretch-water' ? firstLookBefore({ ...input, index }) : undefined;
        const readyMin = early.get(step.id) ?? 0;
        const startMin =
          lookMin !== undefined && burnerMin !== undefined && Number.isFinite(burnerMin)
            ? lookMin - burnerMin
            : readyMin - leadMin;
        const isTooLate = isNightGone({ preparation, leftMin: readyMin - nowMin });
        return {
          id: `${step.id}-${preparation.id}`,
          step,
          preparation,
          startMin: Math.floor(startMin / ROUND_MIN) * ROUND_MIN,
          isEveningBefore: isForTheEvening(preparation) && readyMin - leadMin < 0 && !isTooLate,
          isTooLate,
        };
      }),
    )
    .sort((a, b) => Number(isFirst(b)) - Number(isFirst(a)) || a.startMin - b.startMin);
}

const isFirst = (timed: TimedPreparation): boolean => timed.isEveningBefore || timed.isTooLate;

/** The first look of the nearest step before that ends by a look. */
function firstLookBefore(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly index: number;
}): number | undefined {
  const before = new Set(input.plan.steps.slice(0, input.index).map((step) => step.id));
  return input.forecast.steps.filter((step) => before.has(step.stepId) && step.looksMin.length > 0).at(-1)?.looksMin[0];
}
