import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Spread } from '../numbers/stats.ts';
import { continued, fewOf } from './continued.ts';
import type { AimForecast, Band, BandQuantity, Forecast, Outcome, StepForecast } from './forecast.ts';
import { told, type Members } from './simulate.ts';

/** Members of a make, and what they say together. */
export interface Base {
  readonly members: Members;
  readonly forecast: Forecast;
}

/**
 * A first look at a changed make, from a few members only: what all members said before, and on top of it how far the change
 * moves the few (control variates by common random numbers; Hammersley and Handscomb 1964, from memory, not seen). The few
 * alone would be off by their own sampling error; their difference is off by next to nothing. What has no counterpart before
 * the change, and what has to be made ready, is told by the few alone.
 *
 * @param input.count  how many of the members: 20 or more
 * @returns a forecast of so many members, until that of all is there
 */
export function firstLook(base: Base, input: { plan: Plan; history: History; count: number }): Forecast {
  const few = told(fewOf(base.members, input.count));
  const next = told(continued(base.members, input));
  return moved({ was: base.forecast, few, next });
}

interface Looks {
  readonly was: Forecast;
  readonly few: Forecast;
  readonly next: Forecast;
}

function moved({ was, few, next }: Looks): Forecast {
  const band = (name: BandQuantity): Band => bandMoved(was.bands[name], few.bands[name], next.bands[name]);
  return {
    ...next,
    bands: {
      pH: band('pH'),
      wheyPH: band('wheyPH'),
      temperatureC: band('temperatureC'),
      curdMoisturePercent: band('curdMoisturePercent'),
      curdKg: band('curdKg'),
      saltPercent: band('saltPercent'),
    },
    steps: next.steps.map((step) => stepMoved(step, { was, few, next })),
    outcome: outcomeMoved(was.outcome, few.outcome, next.outcome),
    aims: next.aims.map((aim) => aimMoved(aim, was.aims, few.aims)),
  };
}

/** What it was, and what the few say of the change; what the few say where nothing was said before. */
function plus(was = Number.NaN, few = Number.NaN, next = Number.NaN): number {
  // Also where the few never come there, with the change or without it: then it stays what all said.
  if (Object.is(few, next)) return was;
  const value = was + (next - few);
  return Number.isFinite(value) ? value : next;
}

const LINES = ['p5', 'p25', 'p50', 'p75', 'p95'] as const;

function spreadMoved(was: Spread, few: Spread, next: Spread): Spread {
  const [p5, p25, p50, p75, p95] = ascending(LINES.map((line) => plus(was[line], few[line], next[line])));
  return { ...next, p5: p5 ?? next.p5, p25: p25 ?? next.p25, p50: p50 ?? next.p50, p75: p75 ?? next.p75, p95: p95 ?? next.p95 }; // prettier-ignore
}

/** No quantile below the one before it; what is not known stays where it is. */
const ascending = (values: readonly number[]): number[] => {
  let least = Number.NEGATIVE_INFINITY;
  return values.map((value) => (Number.isNaN(value) ? value : (least = Math.max(least, value))));
};

function bandMoved(was: Band, few: Band, next: Band): Band {
  const at = next.p50.map((_, i) => ascending(LINES.map((line) => plus(was[line][i], few[line][i], next[line][i])))); // prettier-ignore
  const line = (n: number): number[] => at.map((values) => values[n] ?? Number.NaN);
  return { p5: line(0), p25: line(1), p50: line(2), p75: line(3), p95: line(4) };
}

function stepMoved(step: StepForecast, { was, few, next }: Looks): StepForecast {
  const before = was.steps.find(({ stepId }) => stepId === step.stepId);
  const fewBefore = few.steps.find(({ stepId }) => stepId === step.stepId);
  if (before === undefined || fewBefore === undefined || step.state === 'done') return step;
  // Nothing that is still to come lies before now.
  const ahead = (spread: Spread): Spread => {
    const from = (value: number): number => Math.max(value, next.nowMin);
    return { ...spread, p5: from(spread.p5), p25: from(spread.p25), p50: from(spread.p50), p75: from(spread.p75), p95: from(spread.p95) }; // prettier-ignore
  };
  const start = spreadMoved(before.startMin, fewBefore.startMin, step.startMin);
  const dots = step.endDots.map((dot, i) => Math.max(plus(before.endDots[i], fewBefore.endDots[i], dot), next.nowMin));
  return {
    ...step,
    startMin: step.state === 'coming' ? ahead(start) : step.startMin,
    endMin: ahead(spreadMoved(before.endMin, fewBefore.endMin, step.endMin)),
    endDots: ascending(dots),
  };
}

function outcomeMoved(was: Outcome, few: Outcome, next: Outcome): Outcome {
  const spread = (name: Exclude<keyof Outcome, 'readyWithinPlannedRest'>): Spread => spreadMoved(was[name], few[name], next[name]); // prettier-ignore
  return {
    cheeseKg: spread('cheeseKg'),
    curdKg: spread('curdKg'),
    moisturePercent: spread('moisturePercent'),
    fatInDryMatterPercent: spread('fatInDryMatterPercent'),
    saltPercent: spread('saltPercent'),
    saltInMoisturePercent: spread('saltInMoisturePercent'),
    pHAtStretch: spread('pHAtStretch'),
    wheyL: spread('wheyL'),
    pieces: spread('pieces'),
    cultureToReadyMin: spread('cultureToReadyMin'),
    readyWithinPlannedRest: share(plus(was.readyWithinPlannedRest, few.readyWithinPlannedRest, next.readyWithinPlannedRest)), // prettier-ignore
  };
}

const share = (value: number): number => Math.min(Math.max(value, 0), 1);

function aimMoved(aim: AimForecast, was: readonly AimForecast[], few: readonly AimForecast[]): AimForecast {
  const before = was.find((one) => one.aim === aim.aim);
  const fewBefore = few.find((one) => one.aim === aim.aim);
  if (before === undefined || fewBefore === undefined) return aim;
  const probability = share(plus(before.probability, fewBefore.probability, aim.probability));
  return { ...aim, probability, spread: spreadMoved(before.spread, fewBefore.spread, aim.spread) };
}
