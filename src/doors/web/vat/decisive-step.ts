import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Spread } from '../../../numbers/stats.ts';

/** The next step that an eye, a hand or the acid ends: what the maker has to be there for. */
export interface Decisive {
  readonly stepId: string;
  readonly label: string;
  readonly dotsMin: readonly number[];
}

/** The very next step ahead that an eye, a hand or the acid ends, and when. */
export function decidedByEye(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
}): { readonly label: string; readonly endMin: Spread } | null {
  // prettier-ignore
  for (const step of input.plan.steps) {
    const foreseen = input.forecast.steps.find((one) => one.stepId === step.id);
    const isJudged = step.until.of.some(({ kind }) => kind === 'judgement' || kind === 'pH' || kind === 'flocculation');
    if (foreseen !== undefined && foreseen.state !== 'done' && isJudged) return { label: step.done, endMin: foreseen.endMin }; // prettier-ignore
  }
  return null;
}

/** The stretch or other last judgement of the make if it is still ahead, else the next one ahead. */
export function decisiveStep(input: { readonly plan: Plan; readonly forecast: Forecast }): Decisive | null {
  const ahead = input.plan.steps.flatMap((step) => {
    const foreseen = input.forecast.steps.find((one) => one.stepId === step.id);
    const isJudged = step.until.of.some((condition) => condition.kind === 'judgement' || condition.kind === 'pH');
    if (foreseen === undefined || foreseen.state === 'done' || !isJudged || foreseen.endDots.length === 0) return [];
    return [{ stepId: step.id, label: step.done, dotsMin: foreseen.endDots }];
  });
  return ahead.at(-1) ?? null;
}
