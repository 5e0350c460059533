import { z } from 'zod';
import { batchBodies, eventSchema, otherBodies } from '../record/event.ts';
import { keepingBodies } from '../record/keeping-events.ts';
import { copyEndSchema, copyHeaderSchema } from './copy/copy-format.ts';

/**
 * The published schema of one event (JSON Schema, draft 2020-12), written from the definitions that parse events:
 * one shape for each kind this program knows, and one for kinds it keeps without knowing them.
 */
export function eventJsonSchema(): object {
  return {
    title: 'One event of the Vatside log',
    ...z.toJSONSchema(eventShapes(), { io: 'input', unrepresentable: 'any' }),
  };
}

/** The published schema of one line of a copy: its first, an event, or its last. */
export function copyJsonSchema(): object {
  return {
    title: 'One line of a copy of a Vatside store (NDJSON): the first, an event, or the last',
    ...z.toJSONSchema(z.union([copyHeaderSchema, copyEndSchema, eventShapes()]), {
      io: 'input',
      unrepresentable: 'any',
      // What many kinds share stands once.
      reused: 'ref',
    }),
  };
}

function eventShapes(): z.ZodType {
  const known = Object.entries({ ...batchBodies, ...otherBodies, ...keepingBodies });
  const shapes = known.map(([kind, body]) => eventSchema.extend({ kind: z.literal(kind), body }));
  const kinds = known.map(([kind]) => kind);
  const other = eventSchema.extend({ kind: eventSchema.shape.kind.meta({ not: { enum: kinds } }) });
  return z.union([...shapes, other]);
}
