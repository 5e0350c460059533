import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';
import type { CallAnswer } from './call.ts';

/** What calls are computed from: what was noted, what was planned, what is foreseen. */
export interface CallsInput {
  readonly record: BatchRecord;
  readonly plan: Plan;
  /** Null until the first forecast is there. */
  readonly forecast: Forecast | null;
  /** As foreseen when the plan that runs was taken, and just before the last reading. */
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
  readonly telling: Telling;
}

export const MINUTE_MS = 60_000;

/** How long a due call is put off by one tap (common practice, no source). */
export const LATER_MIN = 5;

export function answer(
  telling: Telling,
  id: string,
  input: { readonly notes?: CallAnswer['notes']; readonly againMin?: number; readonly words?: string } = {},
): CallAnswer {
  const { notes = [], againMin = null, words = id } = input;
  return { id, label: telling.say(`bell:answer.${words}`, { count: againMin ?? 0 }), notes, againMin };
}

/** What every due call can be answered with: heard, or once more in a while. */
export const dueAnswers = (telling: Telling): readonly CallAnswer[] => [
  answer(telling, 'heard'),
  answer(telling, 'later', { againMin: LATER_MIN }),
];
