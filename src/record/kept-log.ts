/** What stands of a stream of things kept: noted bodies in the order they happened, what was taken back left out. */
import type { Event } from './event.ts';
import { ALL_KINDS, keepingBodies, type KeepingBody, type KeepingKind } from './keeping-events.ts';
import { mergeEvents } from './merge.ts';
import { standing } from './standing.ts';

/** A noted body with its event and moment (milliseconds UTC). */
export type Kept<K extends KeepingKind> = KeepingBody<K> & {
  readonly eventId: string;
  readonly at: number;
  readonly person: string;
};

/** One line of a stream, as it stands. */
export interface KeptLine {
  readonly kind: string;
  readonly body: Event['body'];
  readonly eventId: string;
  readonly at: number;
  readonly person: string;
}

export interface KeptLog {
  readonly streamId: string;
  /** Oldest first. */
  readonly lines: readonly KeptLine[];
  /** The bodies of one kind, oldest first. */
  readonly told: <K extends KeepingKind>(kind: K) => readonly Kept<K>[];
}

/**
 * Reads one stream, its events in any order and any number of times.
 * @throws EventConflictError when one id stands for two different events
 */
export function keptLog(events: readonly Event[]): KeptLog {
  const ordered = mergeEvents(events, []);
  const lines = standing(ordered, ALL_KINDS)
    .entries.filter((entry) => entry.isUnderstood && entry.retracted === null)
    .map(({ kind, body, eventId, at, person }) => ({ kind, body, eventId, at, person }))
    .sort((a, b) => a.at - b.at);
  return {
    streamId: ordered[0]?.streamId ?? '',
    lines,
    told: (kind) =>
      lines.flatMap((line) => {
        if (line.kind !== kind || !isBodyOf(kind, line.body)) return [];
        const { eventId, at, person } = line;
        return [{ ...line.body, eventId, at, person }];
      }),
  };
}

function isBodyOf<K extends KeepingKind>(kind: K, body: unknown): body is KeepingBody<K> {
  return keepingBodies[kind].safeParse(body).success;
}
