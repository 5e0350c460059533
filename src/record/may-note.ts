/** Who may note what, where a log is shared: by the role that a device was given and the kind of the event. */
import type { BatchKind, Event, OtherKind } from './event.ts';
import type { KeepingKind } from './keeping-events.ts';

/** A reader looks (a class), a helper notes what is seen and read, a maker does everything. From the least to the most. */
export const ROLES = ['reader', 'helper', 'maker'] as const;
export type Role = (typeof ROLES)[number];

/** Whether a role does all that another one may. */
export const isAtLeast = (role: Role, least: Role): boolean => ROLES.indexOf(role) >= ROLES.indexOf(least);

type Kind = BatchKind | OtherKind | KeepingKind;

/** What was seen, read, weighed, tasted, answered or set as a reminder. Nothing here decides how a make goes on. */
const HELPER_KINDS: ReadonlySet<string> = new Set<Kind>([
  'prepared',
  'reading',
  'judged',
  'timerSet',
  'alarmAnswered',
  'weighed',
  'noted',
  'tasted',
  'answered',
  'pieceTurned',
  'pieceBrushed',
  'pieceWeighed',
  'pieceTasted',
  'pieceLooked',
  'placeChecked',
  'brineChecked',
  'lotCounted',
]);

/** Undo and setting right: a helper's own entries only. */
const OWN_ONLY: ReadonlySet<string> = new Set<Kind>(['retracted', 'corrected']);

/** Whether the kind alone may come from the role; undo and setting right also depend on what they replace. */
export function mayNote(role: Role, kind: string): boolean {
  return role === 'maker' || (role === 'helper' && (HELPER_KINDS.has(kind) || OWN_ONLY.has(kind)));
}

/** Told like every sentence of the code: by the book, in the reader's language. */
const WHY = {
  looks: { because: 'This device may look only: a reader notes nothing.' },
  decides: { because: 'A helper notes readings, judgements and notes; this is for a maker to note.' },
  another: { because: 'A helper notes what its own device saw, nothing in the name of another.' },
  notOwn: { because: 'A helper takes back or sets right only what it noted itself.' },
} as const;

/** Why a kind of event is not for a role to note; null where it is. */
export function whyNotKind(role: Role, kind: string): string | null {
  if (mayNote(role, kind)) return null;
  return role === 'reader' ? WHY.looks.because : WHY.decides.because;
}

/** Whoever sends events: the role of the paired device, and the name that its log goes by. */
export interface Noting {
  readonly role: Role;
  /** The device id of its own events; null for a script, which has no log: a helper's has the route for readings alone. */
  readonly logDevice: string | null;
}

/**
 * Why an event is not taken from a device, in words; null where it is taken.
 * @param input.replaced the event that this one takes back or sets right, where it is known
 */
export function whyNotNoted(input: {
  readonly by: Noting;
  readonly event: Pick<Event, 'kind' | 'deviceId' | 'streamId'> & { readonly body: Readonly<Record<string, unknown>> };
  readonly replaced: Pick<Event, 'kind' | 'deviceId' | 'streamId'> | undefined;
}): string | null {
  const { by, event, replaced } = input;
  if (by.role === 'maker') return null;
  const because = whyNotKind(by.role, event.kind);
  if (because !== null) return because;
  if (event.deviceId !== by.logDevice) return WHY.another.because;
  if (!OWN_ONLY.has(event.kind)) return null;
  const isOwn = replaced !== undefined && replaced.deviceId === by.logDevice && replaced.streamId === event.streamId; // prettier-ignore
  const becomes = event.kind === 'corrected' ? event.body['kind'] : replaced?.kind;
  const isHelpers = replaced !== undefined && mayNote('helper', replaced.kind) && becomes === replaced.kind;
  return isOwn && isHelpers ? null : WHY.notOwn.because;
}
