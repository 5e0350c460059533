import type { Forecast } from '../../../forecast/forecast.ts';
import type { ForecastReply } from './forecast-messages.ts';

/** A forecast on screen and whether it still answers the question being asked. */
export interface ForecastState {
  /** The newest one there is; null until the first has come. */
  readonly forecast: Forecast | null;
  /** Number of the question it answers. */
  readonly answers: number;
  /** Number of the question asked last. */
  readonly asked: number;
  /** True while a longer run for the same question is still under way. */
  readonly refining: boolean;
  readonly failed: string | null;
}

export const NO_FORECAST: ForecastState = { forecast: null, answers: 0, asked: 0, refining: false, failed: null };

/** A new question: what is on screen stays, marked as the answer to an older one. */
export function asked(state: ForecastState, number: number): ForecastState {
  return { ...state, asked: number, refining: false, failed: null };
}

/** A reply from the worker; one that answers an older question than the last is not shown. */
export function replied(state: ForecastState, reply: ForecastReply): ForecastState {
  if (reply.number !== state.asked) return state;
  if ('failed' in reply) return { ...state, refining: false, failed: reply.failed };
  return { ...state, forecast: reply.forecast, answers: reply.number, refining: !reply.last, failed: null };
}

/** True when the forecast shown answers what is being asked now. */
export const isCurrent = (state: ForecastState): boolean => state.forecast !== null && state.answers === state.asked;
