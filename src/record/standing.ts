import type { Earlier, RecordEntry, UnknownEvent } from './batch-record.ts';
import { batchBodies, EVENT_VERSION, type BatchKind, type Event } from './event.ts';
import { bodyProblems, VAT_KINDS, type EventKinds } from './parse-event.ts';

/** How each noted thing stands after corrections and retractions. */
export interface Standing {
  /** In fold order, one a thing noted; corrections and retractions are inside the entry they touch. */
  readonly entries: readonly RecordEntry[];
  readonly unknown: readonly UnknownEvent[];
}

type Correction = { readonly event: Event; readonly kind: string; readonly body: Event['body']; readonly at: number | undefined; readonly because: string | undefined }; // prettier-ignore

/**
 * Applies corrections and retractions to events in fold order.
 *
 * A correction or retraction counts only when it stands after what it names: an event cannot set right what was not
 * yet there, and no circle can arise. A retraction may name a retraction or a correction: what it undid then stands again.
 *
 * @param kinds the kinds that the caller can read; those of the vat where left out
 */
export function standing(ordered: readonly Event[], kinds = VAT_KINDS): Standing {
  const unknown: UnknownEvent[] = [];
  const place = new Map<string, number>();
  const readable: Event[] = [];
  for (const event of ordered) {
    const because = whyUnread(event, kinds);
    if (because !== undefined) unknown.push({ event, because });
    place.set(event.id, readable.length);
    readable.push(event);
  }
  const unread = new Set(unknown.map((item) => item.event.id));

  // Backwards: whether something stands depends only on what came after it.
  const retractedBy = new Map<string, Event>();
  const correctionsOf = new Map<string, Correction[]>();
  const rootOf = (event: Event): Event | undefined => {
    let here: Event | undefined = event;
    while (here !== undefined && here.kind === 'corrected' && !unread.has(here.id)) {
      const named: Event | undefined = earlierNamed(here, place, readable);
      here = named;
    }
    return here;
  };
  for (const event of [...readable].reverse()) {
    if (unread.has(event.id) || retractedBy.has(event.id)) continue;
    if (event.kind === 'retracted') {
      const named = earlierNamed(event, place, readable);
      if (named === undefined) unknown.push({ event, because: 'names-nothing' });
      // Backwards, so an earlier retraction of the same thing replaces a later one: the first one is the one shown.
      else retractedBy.set(named.id, event);
    } else if (event.kind === 'corrected') {
      const root = rootOf(event);
      if (root === undefined || root.kind === 'retracted') {
        unknown.push({ event, because: 'names-nothing' });
        continue;
      }
      const body = batchBodies.corrected.parse(event.body);
      const list = correctionsOf.get(root.id) ?? [];
      list.unshift({ event, kind: body.kind, body: body.body, at: body.happenedAt, because: body.because });
      correctionsOf.set(root.id, list);
    }
  }

  const entries = readable
    .filter((event) => unread.has(event.id) || (event.kind !== 'corrected' && event.kind !== 'retracted'))
    .map((event) =>
      entryOf(event, correctionsOf.get(event.id) ?? [], retractedBy.get(event.id), !unread.has(event.id)),
    );
  return { entries, unknown };
}

function earlierNamed(event: Event, place: ReadonlyMap<string, number>, events: readonly Event[]): Event | undefined {
  const id = event.body['replaces'];
  const at = typeof id === 'string' ? place.get(id) : undefined;
  const own = place.get(event.id);
  return at === undefined || own === undefined || at >= own ? undefined : events[at];
}

function entryOf(
  event: Event,
  corrections: readonly Correction[],
  retraction: Event | undefined,
  isUnderstood: boolean,
): RecordEntry {
  const was: Earlier[] = [];
  let now: { kind: string; body: Event['body']; at: number; person: string } = { kind: event.kind, body: event.body, at: event.happenedAt, person: event.person }; // prettier-ignore
  for (const { event: by, kind, body, at, because } of corrections) {
    was.push({
      ...now,
      replacedBy: by.person,
      replacedAt: by.happenedAt,
      ...(because === undefined ? {} : { because }),
    });
    now = { kind, body, at: at ?? now.at, person: now.person };
  }
  return {
    ...now,
    eventId: event.id,
    loggedAt: event.loggedAt,
    deviceId: event.deviceId,
    was,
    retracted: retraction === undefined ? null : { at: retraction.happenedAt, person: retraction.person },
    isUnderstood,
  };
}

function whyUnread(event: Event, kinds: EventKinds): UnknownEvent['because'] | undefined {
  if (kinds.schemaOf(event.kind) === undefined) return 'unknown-kind';
  if (event.version > EVENT_VERSION) return 'newer-version';
  if (bodyProblems(event, kinds).length > 0) return 'unreadable-body';
  if (event.kind !== 'corrected') return undefined;
  const { kind, body } = batchBodies.corrected.parse(event.body);
  if (!isPlainBatchKind(kind)) return 'unknown-kind';
  return batchBodies[kind].safeParse(body).success ? undefined : 'unreadable-body';
}

function isPlainBatchKind(kind: string): kind is BatchKind {
  return Object.hasOwn(batchBodies, kind) && kind !== 'corrected' && kind !== 'retracted';
}
