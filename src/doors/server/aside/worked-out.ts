import { bareAnswer, type BareAnswer } from '../../../exchange/calc/answer.ts';
import { solveDocument } from '../../../exchange/solve/solve-json.ts';
import type { Question } from '../../../forecast/question.ts';
import { solve } from '../../../forecast/solve.ts';
import type { Make } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import type { Answers } from '../../../make/setup.ts';

/** What reaches an aim in a make of the shelf: read and found whole. */
export interface AskedSolve {
  readonly make: Make;
  readonly answers: Answers;
  readonly question: Question;
  readonly seed?: number;
}

/** A sum of the contract, its input as it came. */
export interface AskedSum {
  readonly name: string;
  readonly input: unknown;
}

/** Work that takes up to some seconds, and what becomes of it. Plain data: it goes to another thread and back. */
export type Given = { readonly solve: AskedSolve } | { readonly sum: AskedSum };
export type Done = { readonly solved: object } | { readonly summed: BareAnswer };

/**
 * Does the work, on the thread that calls.
 * @throws InputError for what cannot be asked
 */
export function workedOut(given: Given): Done {
  if ('sum' in given) return { summed: bareAnswer(given.sum) };
  const { make, answers, question, seed } = given.solve;
  const plan = planMake({ make, answers });
  const seeded = seed === undefined ? {} : { seed };
  return { solved: solveDocument({ question, answer: solve({ plan, answers, question, ...seeded }) }) };
}

/** Long work as the routes ask for it; whoever hands it in says on which thread it is done. */
export interface LongWork {
  readonly solve: (asked: AskedSolve) => Promise<object>;
  readonly sum: (asked: AskedSum) => Promise<BareAnswer>;
}

/** Long work by way of something that does it. */
export function longWork(done: (given: Given) => Promise<Done>): LongWork {
  const other = (): Error => new Error('Something else was worked out than was asked for.');
  return {
    async solve(asked) {
      const it = await done({ solve: asked });
      if ('solved' in it) return it.solved;
      throw other();
    },
    async sum(asked) {
      const it = await done({ sum: asked });
      if ('summed' in it) return it.summed;
      throw other();
    },
  };
}
