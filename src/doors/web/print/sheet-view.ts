import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import { foreseen } from '../vat/current-step.ts';
import { keyNumbers } from '../vat/key-numbers.ts';
import { clockOf, asSaid, type Telling } from '../vat/said.ts';
import { untilText } from '../vat/until.ts';

/** One step as it stands on paper, numbered as on screen. */
export interface SheetStep {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly how: string;
  readonly until: string | null;
  readonly expected: string;
  readonly boxes: readonly { readonly label: string; readonly text: string }[];
  /** What is to be read, each beside a ruled blank. */
  readonly readings: readonly string[];
}

/** The steps of a make as its sheet prints them; what is not known prints as a blank, never as a zero. */
export function sheetSteps(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly telling: Telling;
}): readonly SheetStep[] {
  const { plan, forecast, telling } = input;
  return plan.steps.map((step, index) => {
    const start = foreseen({ forecast, stepId: step.id })?.startMin.p50;
    return {
      id: step.id,
      number: index + 1,
      name: step.name,
      how: asSaid(step.how, telling),
      until: untilText({ step, plan, telling }),
      expected: start === undefined || !Number.isFinite(start) ? '' : clockOf(telling, start),
      boxes: keyNumbers({ step, plan, forecast, telling, nowMin: 0, nextLookMin: null }).map((number) => ({
        label: number.label,
        text: number.kitchen === null ? number.written.text : `${number.written.text} (${number.kitchen})`,
      })),
      readings: readingsOf({ step, plan, telling }),
    };
  });
}

function readingsOf(input: { readonly step: PlannedStep; readonly plan: Plan; readonly telling: Telling }): string[] {
  const { step, plan, telling } = input;
  return step.watch
    .filter((watch) => watch.quantity !== 'pH' || plan.setup.pHMeter)
    .map((watch) => {
      const what =
        watch.quantity === 'judgement'
          ? telling.say(`record:judgement.${watch.judgement ?? 'tang'}`)
          : telling.say(`record:quantity.${watch.quantity === 'flocculation' ? 'flocculationMin' : watch.quantity}`);
      return telling.say('record:sheet.reading', { what, good: watch.good });
    });
}
