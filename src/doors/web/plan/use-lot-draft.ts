import { useCallback, useMemo } from 'react';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { KeptLot } from '../lots/kept-lots.ts';
import { useLots } from '../lots/use-lots.ts';
import type { Draft } from './draft.ts';
import { lotFacts, withLotFacts, withoutLotFacts, type LotFacts } from './lot-facts.ts';
import { useDraft } from './use-draft.ts';

/** Bottles age by the half-day: a forecast is not computed anew for every minute of theirs. */
const HALF_DAY_MS = 43_200_000;

/** The draft with what the chosen packets and bottles say in it; only what was typed is kept. */
export function useLotDraft(input: {
  readonly makeIds: readonly string[];
  readonly units: UnitSystem;
  readonly now: number;
}): {
  readonly draft: Draft;
  readonly lots: readonly KeptLot[];
  readonly facts: LotFacts;
  readonly change: (draft: Draft) => void;
} {
  const { makeIds, units } = input;
  const { draft: kept, change } = useDraft(makeIds, units);
  const lots = useLots();
  const now = Math.ceil(input.now / HALF_DAY_MS) * HALF_DAY_MS;
  const facts = useMemo(() => lotFacts({ chosen: kept.lots, lots, now, units }), [kept.lots, lots, now, units]);
  return {
    draft: useMemo(() => withLotFacts(kept, facts), [kept, facts]),
    lots,
    facts,
    change: useCallback((draft) => change(withoutLotFacts({ draft, kept, facts })), [change, kept, facts]),
  };
}
