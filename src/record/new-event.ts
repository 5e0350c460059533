import { InputError, type Problem } from '../numbers/validity.ts';
import { nextClock } from './clock.ts';
import { EVENT_VERSION, eventSchema, LARGEST_EVENT_CHARS, type Event } from './event.ts';
import { bodyProblems, problemsOf, VAT_KINDS, type EventKinds } from './parse-event.ts';

/** What a device remembers between events. */
export interface DeviceState {
  readonly deviceId: string;
  /** Count of events this device has made; the next event takes it. */
  readonly deviceSeq: number;
  /** Latest hybrid clock made or seen. */
  readonly clock: string | undefined;
}

export interface NewEventInput {
  readonly kind: string;
  readonly body: unknown;
  readonly streamId: string;
  /** When it happened, milliseconds UTC; may lie before `loggedAt`. */
  readonly happenedAt: number;
  /** When it is being written down, milliseconds UTC. */
  readonly loggedAt: number;
  readonly person: string;
  readonly device: DeviceState;
  /** Ten bytes from the device's source of chance, for the id. */
  readonly randomBytes: Uint8Array;
  /** The kinds that the caller knows; those of the vat where left out. */
  readonly kinds?: EventKinds | undefined;
}

/**
 * Makes one event and the device state after it. Pure: time and chance come in.
 * @throws InputError when the kind is unknown, the body does not fit it, or a field is impossible
 */
export function newEvent(input: NewEventInput): { readonly event: Event; readonly device: DeviceState } {
  const { kind, streamId, happenedAt, loggedAt, person, device, randomBytes, kinds = VAT_KINDS } = input;
  if (kinds.schemaOf(kind) === undefined) {
    throw new InputError([problem('unknown-choice', 'kind', kind, 'a kind of event this program knows')]);
  }
  if (randomBytes.length < 10) {
    throw new InputError([problem('missing', 'randomBytes', randomBytes.length, 'ten bytes')]);
  }
  if (!(loggedAt >= 0 && loggedAt < 2 ** 48)) {
    throw new InputError([problem('impossible', 'loggedAt', loggedAt, 'milliseconds since 1970')]);
  }
  const clock = nextClock({ last: device.clock, nowMs: loggedAt });
  const parsed = eventSchema.safeParse({
    id: uuidV7(loggedAt, randomBytes),
    streamId,
    kind,
    version: EVENT_VERSION,
    happenedAt: Math.round(happenedAt),
    loggedAt: Math.round(loggedAt),
    clock,
    person,
    deviceId: device.deviceId,
    deviceSeq: device.deviceSeq,
    body: withoutUndefined(input.body),
  });
  if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
  const problems = bodyProblems(parsed.data, kinds);
  if (problems.length > 0) throw new InputError(problems);
  const chars = JSON.stringify(parsed.data).length;
  if (chars > LARGEST_EVENT_CHARS) {
    throw new InputError([problem('impossible', 'body', chars, `at most ${LARGEST_EVENT_CHARS} characters`)]);
  }
  return { event: parsed.data, device: { ...device, deviceSeq: device.deviceSeq + 1, clock } };
}

function problem(code: Problem['code'], field: string, value: unknown, expected: string): Problem {
  return { code, field, value, expected, remedy: 'See the event schema in openapi.json.' };
}

/** Optional fields that were given as undefined are left out, as they would be on the wire. */
function withoutUndefined(body: unknown): unknown {
  if (typeof body !== 'object' || body === null) return body;
  if (Array.isArray(body)) return body.map(withoutUndefined);
  return Object.fromEntries(
    Object.entries(body)
      .filter(([, value]) => value !== undefined)
      .map(([key, value]) => [key, withoutUndefined(value)]),
  );
}

/**
 * A UUID of version 7: 48 bits of milliseconds, then chance, so that ids made later sort later.
 * @source RFC 9562 (2024) Universally Unique IDentifiers, section 5.7. [from memory, not seen]
 */
export function uuidV7(ms: number, randomBytes: Uint8Array): string {
  const bytes = new Uint8Array(16);
  let rest = Math.floor(ms);
  for (let index = 5; index >= 0; index--) {
    bytes[index] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes.set(randomBytes.subarray(0, 10), 6);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
