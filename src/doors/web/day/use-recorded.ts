import { useMemo } from 'react';
import { historyOf } from '../../../exchange/history.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { useLog } from '../log/log-provider.tsx';
import { whichPots } from '../pots/which-pots.ts';
import { openBatch } from '../vat/batch.ts';
import type { RecordedPot } from './day-input.ts';

/** How often the clock alone makes the day be planned anew while pots are under way. */
const EVERY_MS = 300_000;

/** Pots of the maker's own record that are made ready or under way; those of the worked example stand aside. */
export function useRecorded(now: number): readonly RecordedPot[] {
  const { held } = useLog();
  const tick = Math.floor(now / EVERY_MS) * EVERY_MS;
  return useMemo(
    () =>
      whichPots(held.streams).running.flatMap(({ batchId, demo }): RecordedPot[] => {
        const batch = openBatch({ streamId: batchId, events: held.streams.get(batchId), isReady: true });
        if (demo || batch.state !== 'open') return [];
        const { record, plan, seed } = batch;
        const hasBegun = record.steps.length > 0;
        const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), 0);
        const history = hasBegun ? historyOf({ record, nowAt: Math.max(tick, lastAt) }) : NO_HISTORY;
        const ready = record.prepared.map(({ item }) => item);
        return [{ potId: batchId, name: record.name, plan, history, seed, zeroAt: record.zeroAt, hasBegun, ready }];
      }),
    [held.streams, tick],
  );
}
