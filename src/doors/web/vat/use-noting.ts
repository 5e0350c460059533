import { useCallback, useState } from 'react';
import { mayNote } from '../../../record/may-note.ts';
import type { Note } from '../log/event-log.ts';
import { useLog } from '../log/log-provider.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import type { Entry } from './actions.ts';

/** What was just noted, so that it can be taken back or set right. */
export interface Noting {
  readonly eventIds: readonly string[];
  /** The stream of each; this pot's own unless it was noted for several. */
  readonly streamIds: readonly string[];
  readonly said: string;
  /** What was expected of it, told only after it was kept. */
  readonly expected: string | null;
  /** Set when the value is far from what was expected and wants a second look. */
  readonly doubt: string | null;
  /** The quantity that was read, where it can be set right by reading again. */
  readonly reads: PadQuantity | null;
}

/** What is said of something noted. */
export type Told = Omit<Noting, 'eventIds' | 'streamIds'>;

export interface Noter {
  /** The last thing noted here; it can be taken back until the next one. */
  readonly last: Noting | null;
  /** False once it has been on screen long enough. */
  readonly isFresh: boolean;
  /** Why nothing could be kept, if so. */
  readonly failed: string | null;
  readonly note: (entries: readonly Entry[], told: Told, happenedAt?: number) => Promise<void>;
  /** The same for things in several streams: all of them or none, and taken back together. */
  readonly noteAll: (notes: readonly Note[], told: Told) => Promise<void>;
  readonly undo: () => Promise<void>;
  readonly forget: () => void;
}

/** Notes things in the batch's stream: kept first, shown then, taken back by a further event. */
export function useNoting(streamId: string): Noter {
  const { log, held } = useLog();
  const { access } = held;
  const [last, setLast] = useState<Noting | null>(null);
  const [isFresh, setFresh] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  const noteAll = useCallback<Noter['noteAll']>(
    async (notes, told) => {
      // The screen says who may note; what it does by itself, such as an alarm that nobody answered, is left to them too.
      if (access !== 'none' && !notes.every(({ kind }) => mayNote(access, kind))) return;
      try {
        const events = await log.recordAll(notes);
        setFresh(true);
        setLast({
          ...told,
          eventIds: events.map((event) => event.id),
          streamIds: events.map((event) => event.streamId),
        });
        setFailed(null);
      } catch (error) {
        setFailed(error instanceof Error ? error.message : String(error));
      }
    },
    [log, access],
  );
  const note = useCallback<Noter['note']>(
    (entries, told, happenedAt) => {
      const when = happenedAt === undefined ? {} : { happenedAt };
      return noteAll(entries.map((entry) => ({ streamId, ...when, ...entry })), told); // prettier-ignore
    },
    [noteAll, streamId],
  );
  const undo = useCallback(async () => {
    if (last === null) return;
    try {
      await log.recordAll(takenBack(last));
      setLast(null);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  }, [log, last]);
  const forget = useCallback(() => setFresh(false), []);
  return { last, isFresh, failed, note, noteAll, undo, forget };
}

/** Takes back what was noted, the last thing first. */
export function takenBack({ eventIds, streamIds }: Pick<Noting, 'eventIds' | 'streamIds'>): Note[] {
  return eventIds
    .map((replaces, index) => ({ kind: 'retracted', body: { replaces }, streamId: streamIds[index] ?? '' }))
    .reverse();
}
