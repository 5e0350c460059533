import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastAnswer } from './forecast-messages.ts';

/** A forecast on screen and whether it still answers the question being asked. */
export interface ForecastState {
  /** The newest one there is; null until the first has come. */
  readonly forecast: Forecast | null;
  /** The plan it was computed for. */
  readonly of: Plan | null;
  /** The record it knows of, by identity; null where it knows of none. */
  readonly knows: object | null;
  /** Number of the question it answers. */
  readonly answers: number;
  /** Number of the question asked last. */
  readonly asked: number;
  readonly askedFor: Plan | null;
  readonly askedWith: object | null;
  /** True while a longer run for the same question is still under way. */
  readonly refining: boolean;
  readonly failed: string | null;
}

export const NO_FORECAST: ForecastState = {
  forecast: null,
  of: null,
  knows: null,
  answers: 0,
  asked: 0,
  askedFor: null,
  askedWith: null,
  refining: false,
  failed: null,
};

/** What was kept of an earlier visit, answering no question of this one, though of the plan and the record it opens with. */
export const startingWith = (kept: {
  readonly shown: Forecast | null;
  readonly plan: Plan | null;
  readonly record: object | null;
}): ForecastState =>
  kept.shown === null
    ? NO_FORECAST
    : { ...NO_FORECAST, forecast: kept.shown, of: kept.plan, knows: kept.record, answers: -1 };

/** A question as it is asked: its number, and what its answer will know of. */
export interface Question {
  readonly number: number;
  readonly plan: Plan;
  readonly record: object | null;
}

/** A new question: what is on screen stays, marked as the answer to an older one. */
export function asked(state: ForecastState, question: Question): ForecastState {
  const { number, plan, record } = question;
  return { ...state, asked: number, askedFor: plan, askedWith: record, refining: false, failed: null };
}

/** A reply from the worker; one that answers an older question than the last is not shown. */
export function replied(state: ForecastState, reply: ForecastAnswer): ForecastState {
  if (reply.number !== state.asked) return state;
  if ('failed' in reply) return { ...state, refining: false, failed: reply.failed };
  return {
    ...state,
    forecast: reply.forecast,
    of: state.askedFor,
    knows: state.askedWith,
    answers: reply.number,
    refining: !reply.last,
    failed: null,
  };
}

/** True when the forecast shown answers what is being asked now. */
export const isCurrent = (state: ForecastState): boolean => state.forecast !== null && state.answers === state.asked;
