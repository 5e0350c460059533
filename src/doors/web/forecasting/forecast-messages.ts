import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import type { History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { PackedForecast } from './packed-forecast.ts';

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

/** As it comes from the worker. */
export type ForecastReply =
  | { readonly number: number; readonly forecast: PackedForecast; readonly last: boolean }
  | { readonly number: number; readonly failed: string };

/** The same, opened by the page. */
export type ForecastAnswer =
  | { readonly number: number; readonly forecast: Forecast; readonly last: boolean }
  | { readonly number: number; readonly failed: string };

/** What is kept of a batch with its forecast, for the next opening of its card. */
export interface ToKeep {
  readonly streamId: string;
  /** Program, record and plan that it was foreseen by and for. */
  readonly version: string;
  /** Milliseconds UTC. */
  readonly writtenAt: number;
  /** What was foreseen at earlier moments; null where it is what was sent before. */
  readonly earlier: { readonly planned: Forecast | null; readonly before: Forecast | null } | null;
}

/** Asks the worker to keep its last whole answer, which it has at hand. */
export interface KeepOrder {
  /** Of the question that it answers. */
  readonly number: number;
  readonly keep: ToKeep;
}
