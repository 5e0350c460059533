import { eventSchema, type Event } from '../record/event.ts';

const TEXTS = ['id', 'streamId', 'kind', 'clock', 'person', 'deviceId'] as const;
const NUMBERS = ['version', 'happenedAt', 'loggedAt', 'deviceSeq'] as const;
const FIELDS = TEXTS.length + NUMBERS.length + 1;

/**
 * An event as the store wrote it. It was checked in full before it was kept, and a make in its body is long: here it is
 * only looked over. Bodies are left to the fold, which keeps what it cannot read; one of them must not hide the others.
 * @throws ZodError where it is no event at all
 */
export function storedEvent(text: string): Event {
  const json: unknown = JSON.parse(text);
  return isEvent(json) ? json : eventSchema.parse(json);
}

function isEvent(json: unknown): json is Event {
  if (typeof json !== 'object' || json === null) return false;
  const fields: Readonly<Record<string, unknown>> = { ...json };
  const { body } = fields;
  return (
    Object.keys(fields).length === FIELDS &&
    TEXTS.every((name) => typeof fields[name] === 'string') &&
    NUMBERS.every((name) => typeof fields[name] === 'number') &&
    typeof body === 'object' && body !== null && !Array.isArray(body)
  ); // prettier-ignore
}
