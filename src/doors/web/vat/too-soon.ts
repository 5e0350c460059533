import type { Forecast } from '../../../forecast/forecast.ts';
import { foreseen, type Standing } from './current-step.ts';
import { clockOf, type Telling } from './said.ts';

/** Sooner by less than this is nothing to ask about (common practice, no source). */
const LEAST_MISSING_MIN = 5;
/** A step that has lasted at least this share of its shortest foreseen time is left to the eye (our own choice). */
const ENOUGH_OF_SHORTEST = 0.5;

/**
 * What is asked when a step is ended long before the forecast, which knows every reading, thinks it can be: a slip of
 * the finger, or a wrong reading. The step is ended all the same, because the maker decides; the way back stands beside it.
 * @returns null where there is nothing to ask
 */
export function tooSoon(input: {
  readonly standing: Standing;
  readonly forecast: Forecast | null;
  readonly nowMin: number;
  readonly telling: Telling;
}): string | null {
  const { standing, forecast, nowMin, telling } = input;
  if (standing.stage !== 'running' || standing.step === null || standing.startedAt === null) return null;
  const earliestMin = foreseen({ forecast, stepId: standing.step.id })?.endMin.p5;
  if (earliestMin === undefined || !Number.isFinite(earliestMin)) return null;
  const startMin = (standing.startedAt - telling.zeroAt) / 60_000;
  const isMissingMuch = earliestMin - nowMin > LEAST_MISSING_MIN;
  const isEnough = nowMin - startMin >= ENOUGH_OF_SHORTEST * (earliestMin - startMin);
  return isMissingMuch && !isEnough ? telling.say('vat:saved.tooSoon', { at: clockOf(telling, earliestMin) }) : null;
}
