import type { Forecast } from '../../../forecast/forecast.ts';
import { preparationsOf } from '../../../exchange/schedule.ts';
import type { Plan } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { preparedAmount } from '../../../forecast/ready-amount.ts';
import { readyWritten } from './amount-written.ts';
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
  /** What to do now that the evening for it is gone. */
  readonly late: string | null;
  readonly forStep: string;
}

/** Parallel preparations on the clock, with the amount each is for. */
export function preparationRows(
  input: { readonly plan: Plan; readonly forecast: Forecast; readonly zeroAt: number; readonly now: number } & Telling,
): PreparationRow[] {
  const { plan, forecast, zeroAt, now, say, write } = input;
  const inUnits = (text: string): string => sentenceInUnits({ text, units: write.units });
  const nowMin = (now - zeroAt) / MINUTE_MS;
  return preparationsOf({ plan, forecast, nowMin }).map(
    ({ id, step, preparation, startMin, isEveningBefore, isTooLate }) => {
      const at = zeroAt + startMin * MINUTE_MS;
      const ready = preparedAmount({ plan, forecast, step, preparation });
      return {
        id,
        at,
        clock: isTooLate ? say('plan:prepare.now') : isEveningBefore ? say('plan:prepare.evening') : write.clock(at),
        what: inUnits(preparation.what),
        amount: ready === null ? null : readyWritten(ready, input).text,
        late: isTooLate ? inUnits(preparation.ifLate ?? say('plan:prepare.late')) : null,
        forStep: step.name,
      };
    },
  );
}
