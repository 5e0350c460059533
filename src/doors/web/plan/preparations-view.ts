import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { amountRows } from './amounts-view.ts';
import type { Telling } from './spans.ts';

const MINUTE_MS = 60_000;

/** Something to start while something else runs, with the clock time to start it. */
export interface PreparationRow {
  readonly id: string;
  readonly at: number;
  readonly clock: string;
  /** Set where it is not the day of the make. */
  readonly day: string | null;
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

/**
 * Parallel preparations in the order of the clock. Each is counted back from the early end of its step's start, so
 * that it is ready when the step comes sooner than expected.
 */
export function preparationRows(
  input: { readonly plan: Plan; readonly forecast: Forecast; readonly zeroAt: number } & Telling,
): PreparationRow[] {
  const { plan, forecast, zeroAt, write } = input;
  const startOf = new Map(forecast.steps.map((step) => [step.stepId, step.startMin.p5]));
  const amounts = amountRows({ ...input, forecast });
  return plan.steps
    .flatMap((step) =>
      step.prepare.map((preparation) => {
        const startMin = startOf.get(step.id) ?? 0;
        const at = zeroAt + Math.floor((startMin - preparation.leadMinutes.value) / 5) * 5 * MINUTE_MS;
        const amount = amounts.find((row) => row.id === `${step.id}-${AMOUNT_OF[preparation.amount] ?? ''}`);
        return {
          id: `${step.id}-${preparation.id}`,
          at,
          clock: write.clock(at),
          day: write.day(at) === write.day(zeroAt) ? null : write.day(at),
          what: sentenceInUnits({ text: preparation.what, units: write.units }),
          amount: amount?.written.text ?? null,
          forStep: step.name,
        };
      }),
    )
    .sort((a, b) => a.at - b.at);
}
