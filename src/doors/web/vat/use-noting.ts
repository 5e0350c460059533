import { useCallback, useState } from 'react';
import { useLog } from '../log/log-provider.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import type { Entry } from './actions.ts';

/** What was just noted, so that it can be taken back or set right. */
export interface Noting {
  readonly eventIds: readonly string[];
  readonly said: string;
  /** What was expected of it, told only after it was kept. */
  readonly expected: string | null;
  /** Set when the value is far from what was expected and wants a second look. */
  readonly doubt: string | null;
  /** The quantity that was read, where it can be set right by reading again. */
  readonly reads: PadQuantity | null;
}

export interface Noter {
  /** The last thing noted here; it can be taken back until the next one. */
  readonly last: Noting | null;
  /** False once it has been on screen long enough. */
  readonly isFresh: boolean;
  /** Why nothing could be kept, if so. */
  readonly failed: string | null;
  readonly note: (entries: readonly Entry[], told: Omit<Noting, 'eventIds'>, happenedAt?: number) => Promise<void>;
  readonly undo: () => Promise<void>;
  readonly forget: () => void;
}

/** Notes things in the batch's stream: kept first, shown then, taken back by a further event. */
export function useNoting(streamId: string): Noter {
  const { log } = useLog();
  const [last, setLast] = useState<Noting | null>(null);
  const [isFresh, setFresh] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  const note = useCallback<Noter['note']>(
    async (entries, told, happenedAt) => {
      try {
        const when = happenedAt === undefined ? {} : { happenedAt };
        const events = await log.recordAll(entries.map((entry) => ({ streamId, ...when, ...entry })));
        setFresh(true);
        setLast({ ...told, eventIds: events.map((event) => event.id) });
        setFailed(null);
      } catch (error) {
        setFailed(error instanceof Error ? error.message : String(error));
      }
    },
    [log, streamId],
  );
  const undo = useCallback(async () => {
    if (last === null) return;
    try {
      await log.recordAll([...last.eventIds].reverse().map((replaces) => ({ kind: 'retracted', body: { replaces }, streamId }))); // prettier-ignore
      setLast(null);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  }, [log, streamId, last]);
  const forget = useCallback(() => setFresh(false), []);
  return { last, isFresh, failed, note, undo, forget };
}
