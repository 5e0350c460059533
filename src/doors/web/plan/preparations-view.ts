import type { Forecast } from '../../../forecast/forecast.ts';
import { preparationsOf } from '../../../exchange/schedule.ts';
import type { Plan } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { amountRows } from './amounts-view.ts';
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

/** Which computed amount a preparation carries (`preparationSchema.amount` to `Amount.id`). */
const AMOUNT_OF: Readonly<Record<string, string>> = {
  'renneted-water': 'rennet-water',
  'wash-water': 'wash-water',
  'stretch-water': 'stretch-water',
  'ice-bath': 'ice',
  brine: 'brine',
};

/** Parallel preparations on the clock, with the amount each is for. */
export function preparationRows(
  input: { readonly plan: Plan; readonly forecast: Forecast; readonly zeroAt: number } & Telling,
): PreparationRow[] {
  const { plan, forecast, zeroAt, say, write } = input;
  const amounts = amountRows({ ...input, forecast });
  return preparationsOf({ plan, forecast }).map(({ id, step, preparation, startMin, isEveningBefore }) => {
    const at = zeroAt + startMin * MINUTE_MS;
    const amount = amounts.find((row) => row.id === `${step.id}-${AMOUNT_OF[preparation.amount] ?? ''}`);
    return {
      id,
      at,
      clock: isEveningBefore ? say('plan:prepare.evening') : write.clock(at),
      what: sentenceInUnits({ text: preparation.what, units: write.units }),
      amount: amount?.written.text ?? null,
      forStep: step.name,
    };
  });
}
