import type { Note } from '../log/event-log.ts';
import type { Event } from '../../../record/event.ts';

/** What can have been read at one pot and noted at another. */
const MOVABLE: ReadonlySet<string> = new Set(['reading', 'judged', 'weighed']);

/** Readings and judgements noted at the wrong pot: taken back here, noted there, at the time they were taken. Empty where there is nothing to move. */
export function movedTo(input: { readonly events: readonly Event[]; readonly potId: string }): Note[] {
  const { events, potId } = input;
  if (events.some(({ kind }) => kind !== 'timerSet' && !MOVABLE.has(kind))) return [];
  const moved = events.filter(({ kind }) => MOVABLE.has(kind));
  if (moved.length === 0) return [];
  return [
    ...events.map(({ id, streamId }): Note => ({ kind: 'retracted', streamId, body: { replaces: id } })),
    ...moved.map(({ kind, body, happenedAt }): Note => ({ kind, streamId: potId, body, happenedAt })),
  ];
}
