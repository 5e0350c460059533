import type { Spread } from '../numbers/stats.ts';
import type { Plan } from '../make/plan.ts';
import type { Finding } from '../science/finding.ts';
import { equalMembers } from './bands.ts';
import type { Forecast } from './forecast.ts';
import { acidAim } from './on-course.ts';
import type { Members } from './simulate.ts';
import { aimForecasts, stepForecasts } from './summary.ts';

/** What a choice would bring, in the numbers that a maker weighs. */
export interface ChoiceForecast {
  /** When the last step is over, minutes since zero. */
  readonly endMin: Spread;
  /** Chance of the aim that decides: the acid while it is ahead, afterwards the least likely one. */
  readonly chance: number;
  /** Which aim that is: index into the plan's `make.aims`; null for a make whose aims are all behind it. */
  readonly aim: number | null;
  readonly aims: readonly AimChance[];
  /** What it would be. */
  readonly makeId: string;
  readonly makeName: string;
  readonly moisturePercent: Spread;
  readonly cheeseKg: Spread;
  /** Cautions that hold then. */
  readonly findings: readonly Finding[];
}

export interface AimChance {
  /** Into the plan's `make.aims`. */
  readonly index: number;
  readonly quantity: string;
  readonly low: number;
  readonly high: number;
  readonly p50: number;
  readonly probability: number;
}

const NEVER: Spread = { p5: Number.POSITIVE_INFINITY, p25: Number.POSITIVE_INFINITY, p50: Number.POSITIVE_INFINITY, p75: Number.POSITIVE_INFINITY, p95: Number.POSITIVE_INFINITY }; // prettier-ignore

/** The numbers of one forecast. */
export function choiceForecast(plan: Plan, forecast: Forecast): ChoiceForecast {
  const { make } = plan;
  return {
    ...weighed(plan, forecast),
    makeId: make.id,
    makeName: make.name,
    moisturePercent: forecast.outcome.moisturePercent,
    cheeseKg: forecast.outcome.cheeseKg,
    findings: forecast.findings.filter((finding) => finding.severity !== 'info'),
  };
}

/** As much of it as choices are sorted by, from members that nobody has told of yet. */
export function sketched(plan: Plan, members: Members): Weighed {
  const { course, ensemble, seed, members: count } = members;
  const runs = equalMembers({ results: ensemble.results, weights: ensemble.weights, count, seed });
  return weighed(plan, { steps: stepForecasts(course, runs), aims: aimForecasts(course, runs) });
}

export type Weighed = Pick<ChoiceForecast, 'endMin' | 'chance' | 'aim' | 'aims'>;

function weighed(plan: Plan, forecast: Pick<Forecast, 'steps' | 'aims'>): Weighed {
  const aims = forecast.aims.flatMap(({ aim: index, spread, probability }): AimChance[] => {
    const aim = plan.make.aims[index];
    return aim === undefined
      ? []
      : [{ index, quantity: aim.quantity, low: aim.low, high: aim.high, p50: spread.p50, probability }];
  });
  const acid = acidAim(plan, forecast);
  const least = [...forecast.aims].sort((a, b) => a.probability - b.probability)[0];
  return {
    endMin: forecast.steps.at(-1)?.endMin ?? NEVER,
    chance: acid?.chance ?? least?.probability ?? Number.NaN,
    aim: acid?.index ?? least?.aim ?? null,
    aims,
  };
}
