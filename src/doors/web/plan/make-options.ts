import type { Say } from '../../../exchange/words.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Make } from '../../../make/make.ts';
import type { MakeOption } from './makes-choice.tsx';
import type { AsideQuestion } from '../forecasting/use-aside.ts';
import type { Draft } from './draft.ts';
import { planFor } from './plan-for.ts';
import { canBeConfirmed, problemSentence } from './problem-text.ts';
import type { Planning } from './use-planning.ts';

/** Each make with its hours on this milk, or the reason it does not fit. */
export function makeOptions(input: {
  readonly makes: readonly Make[];
  readonly draft: Draft;
  readonly units: UnitSystem;
  readonly planning: Pick<Planning, 'plan' | 'forecast'>;
  readonly aside: ReadonlyMap<string, Forecast>;
  readonly say: Say;
}): MakeOption[] {
  const { makes, draft, units, planning, aside, say } = input;
  return makes.map((make) => {
    const { plan, problems } = planFor({ draft, make, units });
    const own =
      planning.plan?.make.id === make.id
        ? planning.forecast?.steps.at(-1)?.endMin.p50
        : aside.get(make.id)?.steps.at(-1)?.endMin.p50;
    const refused = problems.find(
      (problem) => problem.code === 'contradiction' && problem.field.startsWith('milk.') && !canBeConfirmed(problem),
    );
    return {
      make,
      totalMin: own !== undefined && Number.isFinite(own) ? own : null,
      handsMin: plan === null ? null : plan.steps.reduce((sum, { handsMin }) => sum + handsMin.start + handsMin.during + handsMin.end, 0), // prettier-ignore
      stops: refused === undefined ? null : problemSentence({ problem: refused, draft, units, say }),
    };
  });
}

/** Every make but the one on the table, planned for the same milk, to learn its hours. */
export function otherMakes(input: {
  readonly makes: readonly Make[];
  readonly draft: Pick<Draft, 'facts' | 'confirmed' | 'changes' | 'makeId'>;
  readonly units: UnitSystem;
}): AsideQuestion[] {
  return input.makes
    .filter((make) => make.id !== input.draft.makeId)
    .flatMap((make) => {
      const { plan } = planFor({ ...input, make });
      return plan === null ? [] : [{ key: make.id, plan }];
    });
}
