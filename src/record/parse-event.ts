import type { z } from 'zod';
import { InputError, type Problem } from '../numbers/validity.ts';
import { pathText } from '../make/make.ts';
import { batchBodies, EVENT_VERSION, eventSchema, otherBodies, type Event } from './event.ts';

const bodySchemas: ReadonlyMap<string, z.ZodType> = new Map(Object.entries({ ...batchBodies, ...otherBodies }));

/** Which streams a kind may stand in; batch kinds stand in batches. */
const STREAM_OF: ReadonlyMap<string, string> = new Map<keyof typeof otherBodies, string>([
  ['makeSaved', 'make'],
  ['deviceNamed', 'device'],
  ['dayPlanned', 'day'],
  ['lotReceived', 'lot'],
  ['lotOpened', 'lot'],
  ['lotTested', 'lot'],
  ['lotUsedUp', 'lot'],
]);

/** Taking back is the same thing wherever it happens; lots and makes know it too. */
const ALSO_IN: ReadonlyMap<string, readonly string[]> = new Map([['retracted', ['lot', 'make']]]);

/** The kinds of event that a part of the program knows: the shape of each body, and the streams it may stand in. */
export interface EventKinds {
  /** Undefined for a kind that is not known. */
  readonly schemaOf: (kind: string) => z.ZodType | undefined;
  /** The word before the colon of the streams that a known kind may stand in, its own first. */
  readonly streamsOf: (kind: string) => readonly string[];
}

/** What the vat knows; the rest of the house knows more (`keeping-events.ts`). */
export const VAT_KINDS: EventKinds = {
  schemaOf: (kind) => bodySchemas.get(kind),
  streamsOf: (kind) => [STREAM_OF.get(kind) ?? 'batch', ...(ALSO_IN.get(kind) ?? [])],
};

/**
 * Reads one event from parsed JSON. An unknown kind or a newer version is let through: it is kept and folded after an
 * upgrade. A known kind must have the body its schema says.
 * @throws InputError with every problem and its path
 */
export function parseEvent(json: unknown, kinds = VAT_KINDS): Event {
  const parsed = eventSchema.safeParse(json, { reportInput: true });
  if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
  const event = parsed.data;
  const inherited = inheritedName(json, '');
  if (inherited !== null) throw new InputError([inheritedProblem(inherited)]);
  if (event.version <= EVENT_VERSION) {
    const problems = bodyProblems(event, kinds);
    if (problems.length > 0) throw new InputError(problems);
  }
  return event;
}

/** Names that every object has already; no field of ours is called so, and a reader might write into what all objects share. */
const INHERITED: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** Path of the first field with such a name; null where there is none. */
function inheritedName(json: unknown, path: string): string | null {
  if (typeof json !== 'object' || json === null) return null;
  for (const [key, value] of Object.entries(json)) {
    const here = Array.isArray(json) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
    const found = !Array.isArray(json) && INHERITED.has(key) ? here : inheritedName(value, here);
    if (found !== null) return found;
  }
  return null;
}

const inheritedProblem = (field: string): Problem => ({
  code: 'unknown-field',
  field,
  value: field.slice(field.lastIndexOf('.') + 1),
  expected: 'only fields of the schema',
  remedy: 'See the event schema in openapi.json.',
});

/** What is wrong with the body of an event of a known kind; nothing for kinds this program does not know. */
export function bodyProblems(event: Pick<Event, 'kind' | 'streamId' | 'body'>, kinds = VAT_KINDS): Problem[] {
  const schema = kinds.schemaOf(event.kind);
  if (schema === undefined) return [];
  const types = kinds.streamsOf(event.kind);
  const [streamType = ''] = types;
  if (!types.some((type) => event.streamId.startsWith(`${type}:`))) {
    return [
      {
        code: 'contradiction',
        field: 'streamId',
        value: event.streamId,
        expected: `a ${streamType} stream, because the kind is ${event.kind}`,
        remedy: `Write it as "${streamType}:…".`,
      },
    ];
  }
  const parsed = schema.safeParse(event.body, { reportInput: true });
  return parsed.success ? [] : problemsOf(parsed.error, 'body');
}

/** Zod's issues as problems with the path of the field. */
export function problemsOf(error: z.ZodError, root: string): Problem[] {
  return error.issues.map((issue) => {
    const path = pathText(root === '' ? issue.path : [root, ...issue.path]);
    return {
      code: issue.code === 'unrecognized_keys' ? 'unknown-field' : 'wrong-type',
      field: path === '' ? 'event' : path,
      value: issue.input,
      expected: issue.message.replace(/^Invalid (input|option): expected /, ''),
      remedy: 'See the event schema in openapi.json.',
    };
  });
}
