import { useEffect, useState } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { keepForesight, mayShow, readForesight, type KeptForesight, type Written } from './kept-foresight.ts';
import type { Foresight } from './use-batch.ts';

/** What this device last foresaw of a batch; undefined while it is being looked up, which takes a moment at most. */
export function useKeptForesight(streamId: string): Written | null | undefined {
  const [found, setFound] = useState<{ readonly of: string; readonly kept: Written | null } | null>(null);
  useEffect(() => {
    let isWanted = true;
    const look = async (): Promise<void> => {
      const kept = await readForesight(streamId);
      if (isWanted) setFound({ of: streamId, kept });
    };
    void look();
    return () => {
      isWanted = false;
    };
  }, [streamId]);
  return found?.of === streamId ? found.kept : undefined;
}

/** What was kept, where it is of this record and not old; decided once, as the card is opened. */
export function useShown(kept: Written | null, record: BatchRecord): KeptForesight | null {
  const [shown] = useState(() => (kept !== null && mayShow({ kept, record, nowAt: Date.now() }) ? kept : null));
  return shown;
}

/** Keeps on this device what is foreseen, whenever the page has a moment to spare. */
export function useKeeping(streamId: string, foresight: Foresight, record: BatchRecord): void {
  const { forecast, planned, before, isCurrent, isRefining } = foresight;
  useEffect(() => {
    // A longer run is on its way, and kept in place of this one. While the plan is taken to fill a silence, what is foreseen hangs on an answer.
    if (forecast === null || !isCurrent || isRefining || forecast.assumedFromMin !== undefined) return;
    const keep = (): void => void keepForesight({ streamId, kept: { forecast, planned, before }, record, writtenAt: Date.now() }); // prettier-ignore
    if (!('requestIdleCallback' in globalThis)) {
      const timer = setTimeout(keep, 200);
      return () => clearTimeout(timer);
    }
    const idle = requestIdleCallback(keep, { timeout: 2000 });
    return () => cancelIdleCallback(idle);
  }, [streamId, forecast, planned, before, isCurrent, isRefining, record]);
}
