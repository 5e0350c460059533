import { useState } from 'react';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { useLog } from '../log/log-provider.tsx';
import type { Note } from '../log/event-log.ts';
import type { Event } from '../../../record/event.ts';
import { whyNotKind } from '../../../record/may-note.ts';
import type { PotSeen } from './pot-seen.ts';
import { notesAt, timeSetRight, type Together } from './together-entries.ts';

/** What one entry for all pots came to, pot by pot; each pot as it stood before. */
export type NotedAll = readonly { readonly pot: PotSeen; readonly at: number; readonly events: readonly Event[] }[];

interface Words {
  readonly say: Say;
  readonly write: Writer;
}

/** Notes one thing in all pots, sets one pot's time right, and takes all of it back; each in one step. */
export function useNotedAll(): {
  readonly failed: string | null;
  readonly noteAll: (input: { readonly what: Together; readonly pots: readonly PotSeen[]; readonly times: readonly number[] } & Words) => Promise<NotedAll | null>; // prettier-ignore
  readonly setRight: (input: { readonly what: Together; readonly noted: NotedAll; readonly potId: string; readonly at: number } & Words) => Promise<NotedAll | null>; // prettier-ignore
  readonly takeBack: (noted: NotedAll) => Promise<boolean>;
} {
  const { log, held } = useLog();
  const { access } = held;
  const [failed, setFailed] = useState<string | null>(null);
  const keep = async (notes: readonly Note[]): Promise<readonly Event[] | null> => {
    const [because] = access === 'none' ? [] : notes.flatMap(({ kind }) => whyNotKind(access, kind) ?? []);
    if (because !== undefined) {
      setFailed(because);
      return null;
    }
    try {
      const events = await log.recordAll(notes);
      setFailed(null);
      return events;
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
      return null;
    }
  };
  return {
    failed,
    noteAll: async ({ what, pots, times, ...words }) => {
      const parts = pots.map((pot, index) => ({ pot, at: times[index] ?? 0, notes: notesAt({ pot, what, at: times[index] ?? 0, ...words }) })); // prettier-ignore
      const events = await keep(parts.flatMap(({ notes }) => notes));
      if (events === null) return null;
      return parts.map(({ pot, at }) => ({ pot, at, events: events.filter(({ streamId }) => streamId === pot.potId) }));
    },
    setRight: async ({ what, noted, potId, at, ...words }) => {
      const one = noted.find(({ pot }) => pot.potId === potId);
      if (one === undefined) return null;
      const notes = timeSetRight({ pot: one.pot, what, at, noted: one, ...words });
      const events = await keep(notes);
      if (events === null) return null;
      const isNew = notes.some(({ kind }) => kind === 'retracted');
      const now = isNew ? events.filter(({ kind }) => kind !== 'retracted') : one.events;
      return noted.map((each) => (each.pot.potId === potId ? { ...each, at, events: now } : each));
    },
    takeBack: async (noted) => {
      const notes = noted.flatMap(({ pot, events }) => events.map(({ id }) => ({ kind: 'retracted', streamId: pot.potId, body: { replaces: id } })).reverse()); // prettier-ignore
      return (await keep(notes)) !== null;
    },
  };
}
