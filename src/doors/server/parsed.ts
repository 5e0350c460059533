import type { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { problemsOf } from '../../record/parse-event.ts';

/**
 * A value as its schema reads it.
 * @param field path of the value, empty where it has none
 * @throws InputError with every problem and its path
 */
export function parsed<T>(schema: z.ZodType<T>, value: unknown, field: string): T {
  const result = schema.safeParse(value, { reportInput: true });
  if (!result.success) throw new InputError(problemsOf(result.error, field));
  return result.data;
}
