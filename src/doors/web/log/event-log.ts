import type { ClockOffset } from '../../../record/clock-offset.ts';
import type { Event } from '../../../record/event.ts';
import type { Role } from '../../../record/may-note.ts';
import type { EventKinds } from '../../../record/parse-event.ts';
import type { NotKept } from './not-kept.ts';
import type { SetAside } from '../../../store/browser-schema.ts';

/** What the server lets this device do: a role, or nothing where it is not paired. With no server it is the owner of its own log. */
export type Access = Role | 'none';

/** What the log holds at one moment. The object changes when, and only when, something in it does. */
export interface LogSnapshot {
  /** False until what the device holds has been read. */
  readonly isReady: boolean;
  /** Events of each stream, in the order they came in; `foldOnce` takes these. */
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  /** Own events that no server has yet. */
  readonly waiting: number;
  /** Events that a server refused, with its reason; they are still in the log. */
  readonly setAside: readonly SetAside[];
  /** What is wrong with keeping or exchanging, for a quiet banner; a missing network is not. */
  readonly problems: readonly string[];
  readonly deviceId: string;
  /** Whether the server answered when it was last asked; true while nobody has asked it. */
  readonly isInTouch: boolean;
  /** Whether the server has no room for what waits; false again with the first round that went through. */
  readonly isServerFull: boolean;
  /** Why the last thing noted is not on this device; null once something is kept again. */
  readonly notKept: NotKept | null;
  /** How far this device's clock is from the server's, as it was last measured; null while it never was. */
  readonly clockOffset: ClockOffset | null;
  /** As the server said last, also after the page was loaded anew without it. */
  readonly access: Access;
}

/** One thing to note. `happenedAt` is now unless it is given. */
export interface Note {
  readonly kind: string;
  readonly body: unknown;
  readonly streamId: string;
  readonly happenedAt?: number;
  readonly person?: string;
  /** The kinds that the screen knows, where it notes more than the vat does. */
  readonly kinds?: EventKinds;
}

/** The log of this device: everything noted here or elsewhere, network or none. */
export interface EventLog {
  /** For `useSyncExternalStore`, with `snapshot`. */
  readonly subscribe: (listener: () => void) => () => void;
  readonly snapshot: () => LogSnapshot;
  /**
   * Notes one thing. When it returns, the event is on the device's disk and in the snapshot.
   * @throws InputError when the kind or body is not right; NotForRoleError when this device's role may not note it; any other error means it could not be kept
   */
  record(note: Note): Promise<Event>;
  /** Notes several things in one step: all of them or none. */
  recordAll(notes: readonly Note[]): Promise<Event[]>;
  /**
   * Takes in ready-made events: the worked example, or a file somebody saved. Known ones are passed over.
   * @throws EventConflictError when an id is here with other content; then nothing is taken in
   */
  takeIn(events: readonly Event[]): Promise<void>;
  /** Where everything noted here lies. With a stream, whether that stream can have left the device at all. */
  savedWhere(streamId?: string): 'here' | 'here and server';
  /** A new stream id: `newStreamId('batch')`. */
  newStreamId(type: 'batch' | 'vat' | 'lot' | 'brine' | 'piece' | 'place' | 'make' | 'day' | 'device'): string;
  /** Exchanges with the server now, if there is one; never throws for a missing network. */
  synchroniseNow(): Promise<void>;
  /** Puts what a server refused back among what waits for it: this device may have another role by now. */
  sendAgain(): Promise<void>;
  /**
   * Fetches a stream that this device does not follow, such as an old batch that is opened; from then on it goes on with it.
   * @returns whether the stream is on the device now; never throws for a missing network
   */
  fetchStream(streamId: string): Promise<boolean>;
  /** Everything as one file to keep. */
  fileText(): string;
  close(): Promise<void>;
}
