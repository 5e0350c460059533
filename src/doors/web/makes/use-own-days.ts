import { useDeferredValue, useMemo } from 'react';
import { dayLength } from '../../../exchange/schedule.ts';
import type { DayOf } from '../../../exchange/typical-day.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { useAside } from '../forecasting/use-aside.ts';
import type { Draft } from '../plan/draft.ts';
import { planFor } from '../plan/plan-for.ts';
import type { OwnMake } from './own-makes.ts';

/**
 * How long the day of each make of one's own is with this milk, by its id: nobody worked that out when the page was built.
 * Those that are not there yet come one after the other from a worker.
 */
export function useOwnDays(input: {
  readonly own: readonly OwnMake[];
  readonly draft: Draft;
  readonly units: UnitSystem;
}): ReadonlyMap<string, readonly DayOf[]> {
  const { own, units } = input;
  const draft = useDeferredValue(input.draft);
  const questions = useMemo(
    () =>
      own.flatMap(({ make }) => {
        const { plan } = planFor({ draft, make, units });
        return plan === null ? [] : [{ key: make.id, plan }];
      }),
    [own, draft, units],
  );
  const answers = useAside(questions, true);
  return useMemo(
    () =>
      new Map(
        questions.flatMap(({ key, plan }) => {
          const forecast = answers.get(key);
          const day = forecast === undefined ? null : dayLength({ plan, forecast });
          return day === null
            ? []
            : [[key, [{ milkL: plan.setup.milk.volumeL, likelyMin: day.likelyMin, keptMin: day.keptMin }]]];
        }),
      ),
    [questions, answers],
  );
}
