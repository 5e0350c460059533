import type { Answer, Question, Wanted } from '../../../forecast/question.ts';
import type { Mover } from '../../../forecast/movers.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Answers } from '../../../make/setup.ts';

/** What the page asks: what is worth changing for these aims, and what would do it. The newest number wins. */
export interface SolveQuestion {
  readonly number: number;
  readonly plan: Plan;
  readonly answers: Answers;
  readonly aims: readonly Wanted[];
  /** What may change; null leaves it to what moves the aims most. */
  readonly free: readonly string[] | null;
  readonly probability: number;
}

export type SolveReply =
  | { readonly number: number; readonly movers: readonly Mover[]; readonly free: readonly string[] }
  | { readonly number: number; readonly question: Question; readonly answer: Answer }
  | { readonly number: number; readonly failed: string };
