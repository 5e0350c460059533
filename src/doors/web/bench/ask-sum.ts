import { bareAnswer } from '../../../exchange/calc/answer.ts';
import { InputError } from '../../../numbers/validity.ts';
import type { SumQuestion, SumReply } from './sum-messages.ts';

/** One sum asked: its answer, or everything that is wrong with the question. */
export function askSum({ name, input }: SumQuestion): SumReply {
  try {
    return { answer: bareAnswer({ name, input }) };
  } catch (error) {
    if (error instanceof InputError) return { problems: error.problems };
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}
