import { useMemo } from 'react';
import { useReader } from '../device/reader.tsx';
import type { PotSeen } from './pot-seen.ts';
import { potsView, type PotsView } from './pots-view.ts';
import type { Pot } from './use-pots.ts';

const EVERY_MS = 15_000;

/** The view of all pots, drawn anew when a record, a forecast or the quarter of a minute changes. */
export function usePotsView(input: {
  readonly pots: readonly Pot[];
  readonly burners: number | null;
  readonly nowAt: number;
}): PotsView {
  const { pots, burners, nowAt } = input;
  const { say, write } = useReader();
  const at = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const parts = pots.flatMap(({ batch, forecast, planned, failed, heardAt }) => [batch.record, forecast, planned, failed, heardAt]); // prettier-ignore
  const seen = useMemo(
    () => pots.map(({ potId, batch, forecast, planned, failed, heardAt }): PotSeen => ({ potId, record: batch.record, plan: batch.plan, forecast, planned, failed, heardAt })), // prettier-ignore
    // What a pot is drawn from, not the list that is new each second.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
    [parts.length, ...parts],
  );
  return useMemo(() => {
    const lastAt = seen.reduce((latest, { record }) => record.entries.reduce((newest, { loggedAt }) => Math.max(newest, loggedAt), latest), at); // prettier-ignore
    return potsView({ pots: seen, burners, nowAt: Math.min(lastAt, at + EVERY_MS), say, write });
  }, [seen, burners, at, say, write]);
}
