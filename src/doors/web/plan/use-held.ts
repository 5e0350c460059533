import { useMemo, useState } from 'react';
import type { Draft } from './draft.ts';
import { isSameDraft, planBefore, type HeldPlan, type PlanBefore } from './held-plan.ts';
import type { Planning } from './use-planning.ts';

/** The plan as it was before what is being tried, and the two ways out. */
export interface Held {
  readonly draft: Draft | null;
  readonly before: PlanBefore | null;
  /** Takes an edit in; the first one since the last keeping holds what stood. */
  readonly edit: (next: Draft) => void;
  readonly keep: () => void;
  readonly goBack: () => void;
}

/** Holds the plan that stood before the first change, with its forecasts, until the new one is kept or left. */
export function useHeld(input: {
  readonly draft: Draft;
  readonly planning: Planning;
  readonly now: number;
  readonly change: (draft: Draft) => void;
}): Held {
  const { draft, planning, now, change } = input;
  const { forecast, isCurrent, planned } = planning;
  const [held, setHeld] = useState<HeldPlan | null>(null);
  return {
    draft: held?.draft ?? null,
    before: useMemo(() => (held === null ? null : planBefore(held, now)), [held, now]),
    edit: (next) => {
      if (held !== null) {
        if (isSameDraft(held.draft, next)) setHeld(null);
      } else if (planned.plan !== null && forecast !== null && isCurrent && !isSameDraft(draft, next)) {
        setHeld({ draft, plan: planned.plan, forecast });
      }
      change(next);
    },
    keep: () => setHeld(null),
    goBack: () => {
      if (held === null) return;
      change(held.draft);
      setHeld(null);
    },
  };
}
