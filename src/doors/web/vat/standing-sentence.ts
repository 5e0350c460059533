import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { clockOf, type Telling } from './said.ts';

/** "As it stands: done about 17:20, 6 in 10 to make the aim": what choices are weighed against. */
export function standingSentence(input: {
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): string | null {
  const { plan, forecast, telling } = input;
  const last = forecast?.steps.at(-1);
  if (forecast === null || last === undefined || !Number.isFinite(last.endMin.p50)) return null;
  const end = clockOf(telling, last.endMin.p50);
  const acid = forecast.aims.find((foreseen) => plan.make.aims[foreseen.aim]?.quantity === 'pH');
  return acid === undefined
    ? telling.say('vat:wrong.asStands', { end })
    : telling.say('vat:wrong.asStandsAim', { end, inTen: Math.round(acid.probability * 10) });
}
