/** The contract of a sum as JSON Schema (draft 2020-12), written from the schemas that read its input. */
import { z } from 'zod';
import { calculatorNamed } from './answer.ts';

const cautionSchema = z.strictObject({
  id: z.string(),
  severity: z.enum(['info', 'caution', 'stop']),
  text: z.string(),
});

export interface CalcSchemas {
  readonly name: string;
  readonly answers: string;
  readonly input: object;
  /** Of the whole envelope, the result inside. */
  readonly output: object;
  readonly example: unknown;
}

/** @throws InputError for a name that no sum has */
export function calcSchemas(name: string): CalcSchemas {
  const { answers, input, result, example } = calculatorNamed(name);
  const envelope = z.strictObject({
    name: z.literal(name),
    result,
    cautions: z.array(cautionSchema),
    assumptions: z.array(z.string()),
    sources: z.array(z.string()),
  });
  return {
    name,
    answers,
    input: z.toJSONSchema(input, { target: 'draft-2020-12', io: 'input' }),
    output: z.toJSONSchema(envelope, { target: 'draft-2020-12', io: 'output' }),
    example,
  };
}
