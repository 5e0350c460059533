import { useCallback, useMemo, useState } from 'react';
import { dayNumber } from '../../../record/day-number.ts';
import { ALL_KINDS } from '../../../record/keeping-events.ts';
import { keptThings, type KeptThings } from '../../../record/kept-things.ts';
import { useNow } from '../device/use-now.ts';
import type { Note } from '../log/event-log.ts';
import { useLog } from '../log/log-provider.tsx';
import { localDay, wallInstant } from '../plan/wall-clock.ts';

const MINUTE_MS = 60_000;

/** The local day of an instant, as a number. */
export const localDayNumber = (at: number): number => dayNumber(localDay(at));

/** Noon of a local day, for the writer's dates; the epoch for what is no day. */
export const noonOf = (day: string): number => wallInstant({ day, time: '12:00' }) ?? 0;

/** What is kept in this log, and today. */
export function useKept(): { readonly kept: KeptThings; readonly now: number; readonly today: number } {
  const { held } = useLog();
  const now = useNow(MINUTE_MS);
  const kept = useMemo(() => keptThings(held.streams), [held.streams]);
  return { kept, now, today: localDayNumber(now) };
}

/** What was just noted, in words, with the way back. */
export interface JustNoted {
  readonly words: string;
  readonly eventIds: readonly string[];
  readonly streamIds: readonly string[];
}

export interface Keeping {
  readonly last: JustNoted | null;
  /** Why it could not be kept, if so. */
  readonly failed: string | null;
  /** True where all of it was kept. */
  readonly note: (notes: readonly Omit<Note, 'kinds'>[], words: string) => Promise<boolean>;
  readonly undo: () => Promise<void>;
  readonly forget: () => void;
}

/** Notes things in the streams of what is kept: all of them or none; the last can be taken back. */
export function useKeeping(): Keeping {
  const { log } = useLog();
  const [last, setLast] = useState<JustNoted | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const write = useCallback(
    async (notes: readonly Note[]): Promise<JustNoted | null> => {
      try {
        const events = await log.recordAll(notes.map((note) => ({ ...note, kinds: ALL_KINDS })));
        setFailed(null);
        return { words: '', eventIds: events.map(({ id }) => id), streamIds: events.map(({ streamId }) => streamId) };
      } catch (error) {
        setFailed(error instanceof Error ? error.message : String(error));
        return null;
      }
    },
    [log],
  );
  const note = useCallback<Keeping['note']>(
    async (notes, words) => {
      const noted = await write(notes);
      if (noted !== null) setLast(words === '' ? null : { ...noted, words });
      return noted !== null;
    },
    [write],
  );
  const undo = useCallback(async () => {
    if (last === null) return;
    // The last thing first, each by an event of its own.
    const back = last.eventIds.map((replaces, i) => ({ kind: 'retracted', body: { replaces }, streamId: last.streamIds[i] ?? '' })); // prettier-ignore
    if ((await write(back.reverse())) !== null) setLast(null);
  }, [last, write]);
  const forget = useCallback(() => setLast(null), []);
  return { last, failed, note, undo, forget };
}
