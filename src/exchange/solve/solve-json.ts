/** Question and answer as JSON: open ends are left out, what is never reached is null. */
import { z } from 'zod';
import { AIM_QUANTITIES, type Answer, type Question } from '../../forecast/question.ts';
import { schemaProblems } from '../../make/problems.ts';
import { InputError } from '../../numbers/validity.ts';
import { withNulls } from '../with-nulls.ts';

export const questionSchema = z.strictObject({
  aims: z.array(
    z.strictObject({
      quantity: z.enum(AIM_QUANTITIES),
      /** Either end may be left out, not both. `endMin` in minutes since the plan's zero. */
      low: z.number().optional(),
      high: z.number().optional(),
      /** Of a pH: the step at whose end it is meant. */
      stepId: z.string().optional(),
    }),
  ),
  free: z.array(z.strictObject({ id: z.string(), low: z.number().optional(), high: z.number().optional() })),
  probability: z.number().optional(),
});

/**
 * A question from unread JSON.
 * @throws InputError with every field that cannot be read
 */
export function questionFrom(json: unknown): Question {
  const parsed = questionSchema.safeParse(json);
  if (!parsed.success) {
    const remedy = 'See POST /api/solve in /api/openapi.json.';
    throw new InputError(schemaProblems({ issues: parsed.error.issues, json, whole: 'question', remedy }));
  }
  const { aims, free, probability } = parsed.data;
  return {
    aims: aims.map(({ quantity, low, high, stepId }) => ({
      quantity,
      low: low ?? Number.NEGATIVE_INFINITY,
      high: high ?? Number.POSITIVE_INFINITY,
      ...(stepId === undefined ? {} : { stepId }),
    })),
    free: free.map(({ id, low, high }) => ({ id, ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) })), // prettier-ignore
    ...(probability === undefined ? {} : { probability }),
  };
}

/** Question and answer as they go on the wire. */
export function solveDocument(input: { readonly question: Question; readonly answer: Answer }): object {
  const { question, answer } = input;
  return { question: { ...question, aims: question.aims.map(withoutOpenEnds) }, answer: withNulls(answer) };
}

const withoutOpenEnds = ({ low, high, ...aim }: Question['aims'][number]): object => ({
  ...aim,
  ...(Number.isFinite(low) ? { low } : {}),
  ...(Number.isFinite(high) ? { high } : {}),
});
