import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { AsideQuestion } from '../forecasting/use-aside.ts';
import { assumedText } from './assumed-view.ts';
import { withFact, type Draft } from './draft.ts';
import { isFactPath } from './draft-fields.ts';
import { planFor } from './plan-for.ts';

/** Key of the question that answers nothing more: what the others are compared with. */
const AS_IT_STANDS = 'as it stands';
/** A narrowing below this share of the span is sampling noise with so few members. */
const LEAST_NARROWING = 0.05;

/** The plan once as it stands, and once for every gap as if the maker had said what was assumed. */
export function narrowingQuestions(input: {
  readonly plan: Plan;
  readonly draft: Draft;
  readonly units: UnitSystem;
}): AsideQuestion[] {
  const { plan, draft, units } = input;
  const asked = plan.assumed
    .filter((one) => one.widens !== 'little')
    .flatMap((one) => {
      if (!isFactPath(one.field)) return [];
      const said = planFor({ draft: withFact(draft, one.field, assumedText(one, units)), make: plan.make, units }).plan;
      return said === null ? [] : [{ key: one.field, plan: said }];
    });
  return [{ key: AS_IT_STANDS, plan }, ...asked];
}

/**
 * The one answer that would narrow the finish most, by the forecasts themselves.
 * @returns its path; null where none narrows it noticeably
 */
export function narrowest(answers: ReadonlyMap<string, Forecast>): string | null {
  const now = widthOf(answers.get(AS_IT_STANDS));
  if (now === null) return null;
  let best: string | null = null;
  let least = now * (1 - LEAST_NARROWING);
  for (const [key, forecast] of answers) {
    const width = widthOf(forecast);
    if (!isFactPath(key) || width === null || width >= least) continue;
    best = key;
    least = width;
  }
  return best;
}

/** Half of the makes end inside this span, minutes; the far tails of so few members say little. */
function widthOf(forecast: Forecast | undefined): number | null {
  const end = forecast?.steps.at(-1)?.endMin;
  const width = end === undefined ? Number.NaN : end.p75 - end.p25;
  return Number.isFinite(width) ? width : null;
}
