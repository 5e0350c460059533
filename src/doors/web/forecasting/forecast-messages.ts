import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import type { History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';

/** What the page asks of the worker. The newest number wins: older questions are dropped between two runs. */
export interface ForecastQuestion {
  readonly number: number;
  readonly plan: Plan;
  readonly history: History;
  readonly seed: number;
  /** What pots beside this one have told; a stranger's kitchen where left out. */
  readonly beliefs?: JointBeliefs;
  /** Run sizes in order: the first is quick enough to follow typing, the later ones narrow the sampling noise. */
  readonly members: readonly number[];
}

export type ForecastReply =
  | { readonly number: number; readonly forecast: Forecast; readonly last: boolean }
  | { readonly number: number; readonly failed: string };
