import type { Spread } from '../../numbers/stats.ts';
import type { StepForecast } from '../forecast.ts';
import { KEPT_AT_MOST_MIN } from './rules.ts';

/** When a pot's steps begin and end, early, likely and late, on the pot's own clock; whole minutes. */
export interface StepTimes {
  readonly stepId: string;
  readonly state: StepForecast['state'];
  readonly start: Times;
  readonly end: Times;
  /** When 18 such makes in 20 are through; Infinity where so many never are. */
  readonly doneMin: number;
}

export interface Times {
  readonly p5: number;
  /** 1 in 5 sooner, and 1 in 5 later than `late`; neither further from the likeliest than kit is kept for. */
  readonly soon: number;
  readonly p50: number;
  readonly late: number;
  readonly p95: number;
}

const KEPT_IN_20 = 18; // of 20 equally likely ends, as one make's own clock counts them: our own choice
const LEAST_IN_20 = 10; // where fewer are seen to end, there is nothing to plan with: our own choice

/** The times of every step of a forecast; what is never reached falls back on the latest moment that is. */
export function stepTimes(steps: readonly StepForecast[]): StepTimes[] {
  return steps.map(({ stepId, state, startMin, endMin, endDots }) => ({
    stepId,
    state,
    start: timesOf(startMin, 0),
    end: timesOf(endMin, startMin.p50),
    doneMin: doneOf(endDots),
  }));
}

/** Halfway to the next of the twenty, because the eighteenth itself stands for 17.5 in 20; fewer where not so many end. */
function doneOf(dots: readonly number[]): number {
  for (let kept = KEPT_IN_20; kept >= LEAST_IN_20; kept--) {
    const last = dots[kept - 1] ?? Number.NaN;
    const next = dots[kept] ?? last;
    if (Number.isFinite(last)) return Math.ceil(Number.isFinite(next) ? (last + next) / 2 : last);
  }
  return Number.POSITIVE_INFINITY;
}

function timesOf(spread: Spread, otherwise: number): Times {
  const p5 = finite(spread.p5, otherwise);
  const p25 = finite(spread.p25, p5);
  const p50 = finite(spread.p50, p25);
  const p75 = finite(spread.p75, p50);
  const p95 = finite(spread.p95, p75);
  // Whole minutes, outward: what follows on something never starts in the same minute of the plan.
  const soon = Math.floor(Math.max(p5 + 0.75 * (p25 - p5), p50 - KEPT_AT_MOST_MIN));
  const late = Math.ceil(Math.min(p75 + 0.25 * (p95 - p75), p50 + KEPT_AT_MOST_MIN));
  return { p5: Math.floor(p5), soon, p50: Math.round(p50), late, p95: Math.ceil(p95) };
}

const finite = (value: number, otherwise: number): number => (Number.isFinite(value) ? value : otherwise);

/** The same times counted from another moment; early from early, late from late, as they hang together. */
export function since(times: Times, zero: Times, plus: number): Times {
  const counted = (at: keyof Times): number => Math.max(0, times[at] - zero[at]) + plus;
  return { p5: counted('p5'), soon: counted('soon'), p50: counted('p50'), late: counted('late'), p95: counted('p95') };
}
