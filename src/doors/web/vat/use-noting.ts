import { useCallback, useEffect, useMemo, useState } from 'react';
import { mayNote } from '../../../record/may-note.ts';
import type { Note } from '../log/event-log.ts';
import { notKeptOf, type NotKept } from '../log/not-kept.ts';
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

/** What could not be kept, and the way to try it once more: each at the moment at which it was noted. */
export interface Unsaved extends NotKept {
  /** What would have been said of each; nothing for something taken back. */
  readonly said: readonly string[];
  readonly again: () => void;
}

/** Things that are kept together, and what is said of them; null where they take back what was noted last. */
interface Attempt {
  readonly notes: readonly Note[];
  readonly told: Told | null;
}

interface Left {
  readonly why: NotKept;
  readonly left: readonly Attempt[];
}

/** What is not kept outlives its screen: whoever looks at Today meanwhile finds it at the vat again. */
const leftOf = new Map<string, Left>();

export interface Noter {
  /** The last thing noted here; it can be taken back until the next one. */
  readonly last: Noting | null;
  /** False once it has been on screen long enough. */
  readonly isFresh: boolean;
  /** What could not be kept, if so. */
  readonly failed: Unsaved | null;
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
  const [unsaved, setUnsaved] = useState<Left | null>(() => leftOf.get(streamId) ?? null);
  useEffect(
    () => void (unsaved === null ? leftOf.delete(streamId) : leftOf.set(streamId, unsaved)),
    [streamId, unsaved],
  );
  const keep = useCallback(
    async ({ notes, told }: Attempt): Promise<void> => {
      const at = Date.now();
      const without = (left: readonly Attempt[] = []): readonly Attempt[] => left.filter((one) => !isSame(one.notes, notes)); // prettier-ignore
      try {
        const events = await log.recordAll(notes);
        setFresh(true);
        setLast(told === null ? null : { ...told, eventIds: events.map(({ id }) => id), streamIds: events.map(({ streamId }) => streamId) }); // prettier-ignore
        setUnsaved((before) => {
          const left = without(before?.left);
          return before === null || left.length === 0 ? null : { ...before, left };
        });
      } catch (error) {
        const attempt = { notes: notes.map((one) => ({ happenedAt: at, ...one })), told };
        setUnsaved((before) => ({ why: notKeptOf(error), left: [...without(before?.left), attempt] }));
      }
    },
    [log],
  );
  const noteAll = useCallback<Noter['noteAll']>(
    async (notes, told) => {
      // The screen says who may note; what it does by itself, such as an alarm that nobody answered, is left to them too.
      if (access !== 'none' && !notes.every(({ kind }) => mayNote(access, kind))) return;
      await keep({ notes, told });
    },
    [keep, access],
  );
  const note = useCallback<Noter['note']>(
    (entries, told, happenedAt) => {
      const when = happenedAt === undefined ? {} : { happenedAt };
      return noteAll(entries.map((entry) => ({ streamId, ...when, ...entry })), told); // prettier-ignore
    },
    [noteAll, streamId],
  );
  const undo = useCallback(async () => {
    if (last !== null) await keep({ notes: takenBack(last), told: null });
  }, [keep, last]);
  const failed = useMemo<Unsaved | null>(() => {
    if (unsaved === null) return null;
    const { why, left } = unsaved;
    const again = async (): Promise<void> => {
      for (const attempt of left) await keep(attempt);
    };
    return { ...why, said: left.flatMap(({ told }) => told?.said ?? []), again: () => void again() };
  }, [keep, unsaved]);
  const forget = useCallback(() => setFresh(false), []);
  return { last, isFresh, failed, note, noteAll, undo, forget };
}

/** Whether two attempts note the same, whenever they were made. */
const isSame = (one: readonly Note[], other: readonly Note[]): boolean => {
  const text = (notes: readonly Note[]): string => JSON.stringify(notes.map(({ kind, body, streamId }) => [kind, body, streamId])); // prettier-ignore
  return text(one) === text(other);
};

/** Takes back what was noted, the last thing first. */
export function takenBack({ eventIds, streamIds }: Pick<Noting, 'eventIds' | 'streamIds'>): Note[] {
  return eventIds
    .map((replaces, index) => ({ kind: 'retracted', body: { replaces }, streamId: streamIds[index] ?? '' }))
    .reverse();
}
