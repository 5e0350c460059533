import { otherBodies, type Event, type JsonObject } from './event.ts';
import { mergeEvents } from './merge.ts';
import { standing } from './standing.ts';

/** One saving of a make: the whole of it, as it was then. */
export interface SavedVersion {
  readonly eventId: string;
  /** Milliseconds UTC. */
  readonly at: number;
  readonly make: JsonObject;
}

/** The fold of one make's stream: how it stands, what it was before, and what it was written from. */
export interface SavedMake {
  /** `make:…`. */
  readonly streamId: string;
  /** The make it was written from, `stretched-ball`; null where it was written by itself. */
  readonly from: string | null;
  /** Oldest first, those taken back left out. */
  readonly versions: readonly SavedVersion[];
  /** How it stands; null once every saving was taken back. */
  readonly current: SavedVersion | null;
}

/**
 * A make that somebody wrote or changed, from its events in any order and any number of times. The last saving counts.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldSavedMake(events: readonly Event[]): SavedMake {
  const ordered = mergeEvents(events, []);
  let from: string | null = null;
  const versions: SavedVersion[] = [];
  for (const entry of standing(ordered).entries) {
    if (!entry.isUnderstood || entry.retracted !== null || entry.kind !== 'makeSaved') continue;
    const read = otherBodies.makeSaved.safeParse(entry.body);
    if (!read.success) continue;
    from ??= read.data.from ?? null;
    versions.push({ eventId: entry.eventId, at: entry.at, make: read.data.make });
  }
  return { streamId: ordered[0]?.streamId ?? '', from, versions, current: versions.at(-1) ?? null };
}
