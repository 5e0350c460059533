import { solveDocument } from '../../../exchange/solve/solve-json.ts';
import type { Question } from '../../../forecast/question.ts';
import { solve } from '../../../forecast/solve.ts';
import type { Make } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Answers } from '../../../make/setup.ts';

/** A question about a make of the shelf, read and found whole. Plain data: it goes to another thread. */
export interface Asked {
  readonly make: Make;
  readonly answers: Answers;
  readonly question: Question;
  readonly seed?: number;
}

/** Works a question out; the caller says on which thread. */
export type Solve = (asked: Asked) => Promise<object>;

/**
 * Settings that reach what is asked for, as they go on the wire; some seconds of work.
 * @throws InputError for a question that cannot be asked of this make
 */
export function solved({ make, answers, question, seed }: Asked): object {
  const plan = planMake({ make, answers });
  const seeded = seed === undefined ? {} : { seed };
  return solveDocument({ question, answer: solve({ plan, answers, question, ...seeded }) });
}
