import { z } from 'zod';
import { batchBodies, eventSchema, otherBodies } from '../record/event.ts';
import { keepingBodies } from '../record/keeping-events.ts';

/**
 * The published schema of one event (JSON Schema, draft 2020-12), written from the definitions that parse events:
 * one shape for each kind this program knows, and one for kinds it keeps without knowing them.
 */
export function eventJsonSchema(): object {
  const known = Object.entries({ ...batchBodies, ...otherBodies, ...keepingBodies });
  const shapes = known.map(([kind, body]) => eventSchema.extend({ kind: z.literal(kind), body }));
  const kinds = known.map(([kind]) => kind);
  const other = eventSchema.extend({ kind: eventSchema.shape.kind.meta({ not: { enum: kinds } }) });
  return {
    title: 'One event of the Vatside log',
    ...z.toJSONSchema(z.union([...shapes, other]), { io: 'input', unrepresentable: 'any' }),
  };
}
