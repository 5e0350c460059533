import { useEffect, useMemo, useRef, useState } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Earlier, KeptForesight, Written } from './foresight-store.ts';
import { mayShow, readForesight, versionOf } from './kept-foresight.ts';
import type { KeepableForesight } from './use-batch.ts';

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

/** Has the worker keep on this device what is foreseen, which it has at hand: the page only says so. */
export function useKeeping(streamId: string, foresight: KeepableForesight, record: BatchRecord): void {
  const { forecast, planned, before, isCurrent, isRefining, keep } = foresight;
  const version = useMemo(() => versionOf(record), [record]);
  const sent = useRef<Pick<Earlier, 'streamId' | 'version' | 'planned' | 'before'> | null>(null);
  useEffect(() => {
    // A longer run is on its way, and kept in place of this one. While the plan is taken to fill a silence, what is foreseen hangs on an answer.
    if (forecast === null || !isCurrent || isRefining || forecast.assumedFromMin !== undefined) return;
    const last = sent.current;
    const isSent = last?.streamId === streamId && last.version === version && last.planned === planned && last.before === before; // prettier-ignore
    const earlier = isSent ? null : { planned, before };
    if (keep({ streamId, version, writtenAt: Date.now(), earlier })) sent.current = { streamId, version, planned, before }; // prettier-ignore
  }, [streamId, forecast, planned, before, isCurrent, isRefining, keep, version]);
}
