import { z } from 'zod';
import { makeSchema } from './make.ts';

/**
 * The published JSON Schema of a make, from the very schema that reads it.
 * @returns a JSON Schema document, draft 2020-12; what it cannot say (ids used once, sources that resolve, settings a
 *   verb needs) `parseMake` checks
 */
export function makeJsonSchema(): object {
  return {
    ...z.toJSONSchema(makeSchema, { target: 'draft-2020-12', reused: 'ref' }),
    title: 'A make of Vatside',
    description:
      'One cheese as data: milk, aims, doses, steps, sources. Amounts are per litre of milk; every figure has a source, an index into `sources` or the words "common practice".',
  };
}
