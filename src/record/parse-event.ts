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

/** The schema of a kind's body, or undefined for a kind this program does not know. */
export function bodySchemaOf(kind: string): z.ZodType | undefined {
  return bodySchemas.get(kind);
}

/** The word before the colon of the stream that a known kind belongs to. */
export function streamTypeOf(kind: string): string {
  return STREAM_OF.get(kind) ?? 'batch';
}

/**
 * Reads one event from parsed JSON. An unknown kind or a newer version is let through: it is kept and folded after an
 * upgrade. A known kind must have the body its schema says.
 * @throws InputError with every problem and its path
 */
export function parseEvent(json: unknown): Event {
  const parsed = eventSchema.safeParse(json);
  if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
  const event = parsed.data;
  if (event.version <= EVENT_VERSION) {
    const problems = bodyProblems(event);
    if (problems.length > 0) throw new InputError(problems);
  }
  return event;
}

/** What is wrong with the body of an event of a known kind; nothing for kinds this program does not know. */
export function bodyProblems(event: Pick<Event, 'kind' | 'streamId' | 'body'>): Problem[] {
  const schema = bodySchemas.get(event.kind);
  if (schema === undefined) return [];
  const streamType = streamTypeOf(event.kind);
  const types = [streamType, ...(ALSO_IN.get(event.kind) ?? [])];
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
  const parsed = schema.safeParse(event.body);
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
      expected: issue.message.replace(/^Invalid input: expected /, ''),
      remedy: 'See the event schema in openapi.json.',
    };
  });
}
