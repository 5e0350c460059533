import type { Forecast } from '../../../forecast/forecast.ts';
import { preparationsOf } from '../../../exchange/schedule.ts';
import type { Plan } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { preparedAmount } from '../../../forecast/ready-amount.ts';
import { readyWritten } from './amounts-view.ts';
import type { Telling } from './spans.ts';

const MINUTE_MS = 60_000;

/** Something to start while something else runs, with the clock time to start it. */
export interface PreparationRow {
  readonly id: string;
  readonly at: number;
  /** The time to start it, or the evening before. */
  readonly clock: string;
  readonly what: string;
  readonly amount: string | null;
  readonly forStep: string;
}

/** Parallel preparations on the clock, with the amount each is for. */
export function preparationRows(
  input: { readonly plan: Plan; readonly forecast: Forecast; readonly zeroAt: number } & Telling,
): PreparationRow[] {
  const { plan, forecast, zeroAt, say, write } = input;
  return preparationsOf({ plan, forecast }).map(({ id, step, preparation, startMin, isEveningBefore }) => {
    const at = zeroAt + startMin * MINUTE_MS;
    const ready = preparedAmount({ plan, forecast, step, preparation });
    return {
      id,
      at,
      clock: isEveningBefore ? say('plan:prepare.evening') : write.clock(at),
      what: sentenceInUnits({ text: preparation.what, units: write.units }),
      amount: ready === null ? null : readyWritten(ready, input).text,
      forStep: step.name,
    };
  });
}
