import { useCallback, useMemo, useState } from 'react';
import type { UnitSystem } from '../../../exchange/written.ts';
import { draftSchema, firstDraft, inUnits, type Draft } from './draft.ts';
import { localDay } from './wall-clock.ts';

const KEY = 'vatside.plan-draft';
/** What a first plan is of: milk anybody can buy, eaten the same week, and enough to show what a plan is. Our own choice. */
const FIRST_MAKE = 'stretched-ball';
/** From this hour on, "done by five" most likely means tomorrow. */
const MORNING_ENDS_H = 8;
const DAY_MS = 86_400_000;

function storedDraft(): Draft | null {
  const text = localStorage.getItem(KEY);
  if (text === null) return null;
  try {
    const draft = draftSchema.parse(JSON.parse(text));
    return draft.clock.day < localDay(Date.now()) ? { ...draft, clock: { ...draft.clock, day: nextDay() } } : draft;
  } catch {
    return null;
  }
}

const nextDay = (): string => localDay(new Date().getHours() < MORNING_ENDS_H ? Date.now() : Date.now() + DAY_MS);

/** The draft of the plan, kept on this device so that a reload loses nothing half typed. */
export function useDraft(
  makeIds: readonly string[],
  units: UnitSystem,
): {
  readonly draft: Draft;
  readonly change: (draft: Draft) => void;
} {
  const [draft, setDraft] = useState<Draft>(() => {
    const fresh = firstDraft({
      today: nextDay(),
      makeId: makeIds.includes(FIRST_MAKE) ? FIRST_MAKE : (makeIds[0] ?? ''),
      units,
    });
    const stored = storedDraft();
    if (stored === null) return fresh;
    return makeIds.includes(stored.makeId) ? stored : { ...stored, makeId: fresh.makeId };
  });
  const change = useCallback((next: Draft) => {
    setDraft(next);
    localStorage.setItem(KEY, JSON.stringify(next));
  }, []);
  // The draft keeps the units it was typed in; the reader sees it in theirs.
  return { draft: useMemo(() => inUnits(draft, units), [draft, units]), change };
}

/** The plan as it was left, or a first one; for what is brought into it from elsewhere. */
export function leftDraft(units: UnitSystem): Draft {
  return inUnits(storedDraft() ?? firstDraft({ today: nextDay(), makeId: FIRST_MAKE, units }), units);
}

/** Puts a plan from elsewhere (Today's list) on the table. */
export function keepDraft(draft: Draft): void {
  localStorage.setItem(KEY, JSON.stringify(draft));
}
