import { useMemo } from 'react';
import { scheduleOf, type Schedule } from '../../../exchange/schedule.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Make } from '../../../make/make.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Book } from '../../../exchange/book.ts';
import { isCurrent } from '../forecasting/forecast-state.ts';
import { useForecast } from '../forecasting/use-forecast.ts';
import type { Draft } from './draft.ts';
import { planFor, type Planned } from './plan-for.ts';
import { firstPotsWish } from './pots-together.ts';
import { wallInstant } from './wall-clock.ts';

/** So few follow the typing within a frame or two; the rest come once it rests. Our own choice. */
const PLAN_MEMBERS = [32, 1000] as const;

/** Everything the plan screen stands on at one moment. */
export interface Planning {
  readonly planned: Planned;
  /** The last plan that fitted, in the reader's words: what is shown while an answer is being put right. */
  readonly plan: Plan | null;
  readonly forecast: Forecast | null;
  readonly isCurrent: boolean;
  readonly isRefining: boolean;
  readonly failed: string | null;
  readonly schedule: Schedule | null;
}

/** A draft worked out into plan, forecast and clock; the forecast follows in a worker. */
export function usePlanning(input: {
  readonly draft: Draft;
  readonly make: Make;
  readonly units: UnitSystem;
  readonly now: number;
  readonly book: Book;
}): Planning {
  const { draft, make, units, now, book } = input;
  // The clock is no part of the plan: moving "done by" must not compute the forecast anew.
  const { facts, confirmed, changes } = draft;
  const planned = useMemo(
    () => planFor({ draft: { facts, confirmed, changes }, make, units }),
    [facts, confirmed, changes, make, units],
  );
  const state = useForecast(planned.plan, { members: PLAN_MEMBERS });
  const fitted = planned.plan ?? state.askedFor;
  const plan = fitted === null ? null : book.plan(fitted);
  const schedule = useMemo(() => {
    const at = wallInstant(draft.clock);
    return state.forecast === null || at === null || plan === null
      ? null
      : scheduleOf({
          plan,
          forecast: state.forecast,
          wish: firstPotsWish({ clock: draft.clock, pots: draft.pots }, at),
          now,
        });
  }, [plan, state.forecast, draft.clock, draft.pots, now]);
  return {
    planned,
    plan,
    forecast: state.forecast,
    isCurrent: planned.plan !== null && state.of === planned.plan && isCurrent(state),
    isRefining: state.refining,
    failed: state.failed,
    schedule,
  };
}
