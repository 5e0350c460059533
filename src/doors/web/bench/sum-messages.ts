import type { BareAnswer } from '../../../exchange/calc/answer.ts';
import type { Problem } from '../../../numbers/validity.ts';

/** One sum to be asked. */
export interface SumQuestion {
  readonly name: string;
  readonly input: Readonly<Record<string, unknown>>;
}

export type SumReply =
  | { readonly answer: BareAnswer }
  | { readonly problems: readonly Problem[] }
  /** The sum itself broke; never the maker's fault. */
  | { readonly failed: string };

/** What the page asks of the worker: all of it, or nothing once a newer set has come. */
export interface SumsAsked {
  readonly number: number;
  readonly questions: readonly SumQuestion[];
}
export interface SumsReplied {
  readonly number: number;
  readonly replies: readonly SumReply[];
}
